"""Due items on paper: for machines, for the terminal, as plain text.

morning_json(items, day)           what `fieldnotes morning --json` prints
morning_text(items, day, outfit)   plain text, the same bytes for the same items and day
print_morning(items, day, outfit, console)   the same lines, in colour where the console is a terminal
"""

from fieldnotes.digest.machine import morning_json
from fieldnotes.digest.text import morning_text, print_morning

__all__ = ["morning_json", "morning_text", "print_morning"]
