"""What is asked of one number to tell a colony from a count: a module for each thing it is asked by, and the order."""
