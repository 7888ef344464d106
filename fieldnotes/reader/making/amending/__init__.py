"""Statements that add to the record before them or put it right ("they stay in fourteen days", "nope, L1 and L2").

`record.make` asks in this order, and the first that takes the statement has it: `putting_right` (what was said wrong),
`naming` (what a new colony is called), `meant` (which colonies were meant, or not), `putting_off` (what was left, to be
done on a day to come), `done` (day and doer of what was just told). When the records of the statement are made, `more`
adds what it says of those before it.
"""
