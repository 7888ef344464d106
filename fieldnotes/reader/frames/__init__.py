"""Marks → records, one frame a kind: which marks fill which slots.

Each frame is a function of a statement that returns what it understood, without place, day or state; those
are the same for every kind and are filled in by `record`. What several frames ask of a statement stands in `marks`,
`amounts`, `direction` and `colour`.
"""
