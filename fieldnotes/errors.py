"""Errors a person sees: one clear sentence that says what was wrong, where, and what to do."""


class FieldnotesError(Exception):
    """Bad input. The command line prints the message and leaves with exit status 2."""


class UnreadableError(FieldnotesError):
    """The reader stumbled over a note: a fault of ours, which must not keep other notes from being read."""
