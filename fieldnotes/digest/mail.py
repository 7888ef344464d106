"""The digest as a mail (RFC 5322), ready to be sent: the text, and the page beside it."""

from __future__ import annotations

import datetime
import hashlib
from collections.abc import Sequence
from email.message import EmailMessage
from email.policy import SMTP
from email.utils import format_datetime

from fieldnotes.digest.layout import sections, summary, title
from fieldnotes.digest.page import morning_page
from fieldnotes.digest.text import morning_text
from fieldnotes.records import Due


def morning_mail(items: Sequence[Due], day: datetime.date, outfit: str = "") -> bytes:
    """The digest as a message, the same bytes for the same items and day. It names no receiver: who sends it knows."""
    text = morning_text(items, day, outfit)
    page = morning_page(items, day, outfit)
    name = hashlib.sha256(f"{text}\0{page}".encode()).hexdigest()[:24]
    mail = EmailMessage(policy=SMTP)
    heading = f"{summary(sections(items))} {title(day, outfit)}"
    mail["Subject"] = heading.replace("=?", "= ?")  # what begins so in a header is read as a code for other words
    mail["From"] = "fieldnotes <fieldnotes@localhost>"
    mail["Date"] = format_datetime(datetime.datetime.combine(day, datetime.time()))
    mail["Message-ID"] = f"<{name}@fieldnotes>"
    mail.set_content(text)
    mail.add_alternative(page, subtype="html")
    mail.set_boundary(f"=_{name}")  # "=_" stands in neither encoding of the parts
    return mail.as_bytes()
