"""Which spans mean something? Words → one row of marks, each a label, a value and a span.

First the atoms (names of the roster, dates, colony ids, numbers), then the phrases of the grammar over
them, conflicts settled in `row` and only there: the longest phrase wins, then the one whose rule stands first.
Words that no phrase took stay in the row as plain words; later stages need the small ones ("in", "and").
"""
