"""Where the tail of a statement begins: the words at its end that belong to the next.

A module for each sort of words: `joining` ("and then I"), `subjects` (of a verb to come), `numbers` ("and two" before a
yard or a thing), `phrases` (a thing with its verb and preposition), `governing` (what takes the colonies to come),
`headers` (a method or a day said ahead of the colonies to come).
"""
