"""Date expressions: found in the words of a note, and worked out against the day of the message.

Finding and working out are apart, because which Monday is meant depends on whether the statement is a
plan or a report, and that is known only later. The conventions:

* "Monday" of a plan is the first one after the message, of a report the last one before it;
  "this Wednesday" is in the week of the message (weeks begin on Monday), "next Wednesday" in the
  next week, "last Wednesday" the last one before the day of the message.
* "The 14th", "June 3", "6/3": of a report the latest such day not after the message, of a plan the first one after it.
* "In March" is the whole month, "early/mid/late June" 1-10, 11-20, 21 to the end, seasons are
  meteorological (three whole months) by hemisphere.

Everything here is a pure function of the words and the day.
"""

from fieldnotes.reader.dates.finding import date_at, date_openers
from fieldnotes.reader.dates.when import When, resolve

__all__ = ["When", "date_at", "date_openers", "resolve"]
