"""Statements that say the record before them once more, of another colony, day, number or yard.

A module for each way of saying so. `record.make` asks in this order, and the first that takes the statement has it:
`same` ("same for 15"), `ellipsis` ("three and a half in 51"), `colours`, `yards` (colonies of another one), `doses`,
`another_day`, `others` (what was done to them, or is still to be done), `once_more`, `too`, `elsewhere`, `yards`
(a list of them), `pairs`; before a harvest is made `harvests`, and when all is made `yards` once more.
"""
