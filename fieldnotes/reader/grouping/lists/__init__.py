"""Lists and ranges of colonies: where one ends, and what begins to be told of others."""
