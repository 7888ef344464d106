"""Due items on paper: for machines, for the terminal, as plain text, as a page, a calendar, a mail.

morning_json(items, day)           what `fieldnotes morning --json` prints
morning_text(items, day, outfit)   plain text, the same bytes for the same items and day
print_morning(items, day, outfit, console)   the same lines, in colour where the console is a terminal

What loads more than a plain morning needs stands by itself: `page.morning_page`, `calendar.morning_calendar`,
`mail.morning_mail`. All faces have the layout of `layout.sections`.
"""

from fieldnotes.digest.machine import morning_json
from fieldnotes.digest.text import morning_text, print_morning

__all__ = ["morning_json", "morning_text", "print_morning"]
