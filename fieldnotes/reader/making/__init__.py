"""Statements → records: how each kind of record is made, and what is carried on. `record` calls these in turn."""
