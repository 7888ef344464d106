"""Does a new statement begin at a group of colonies?

`deciding` asks what is the same at the first colonies of a statement and at more of them, then `first` or `more`.
`subject`: whether the next words tell of the colonies; `whose`: whether they only say whose the work before was.
"""
