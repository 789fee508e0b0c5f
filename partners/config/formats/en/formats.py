"""Sentences spell the month, as letters and sheets do; narrow columns say "Nov 6" (`ground/days.py`)."""

DATE_FORMAT = "F j, Y"
DATETIME_FORMAT = "F j, Y, P"
SHORT_DATETIME_FORMAT = "M j, Y, P"
SHORT_DATE_FORMAT = "M j, Y"
