"""Hours of the day, and hours that were given, in words. English as in the US, Spanish as in Puerto Rico."""

from __future__ import annotations

from datetime import date, time
from decimal import Decimal

from outreach.wording.counts import number
from outreach.wording.dates import with_weekday

_HALVES = {"en": ("a.m.", "p.m."), "es": ("a. m.", "p. m.")}
_NOON = {"en": "noon", "es": "12 del mediodía"}
_SPAN = {"en": "{first} to {last}", "es": "de {first} a {last}"}
_HOURS = {"en": ("half an hour", "one hour", "{hours} hours"), "es": ("media hora", "una hora", "{hours} horas")}


def hour(value: time, language: str) -> str:
    """
    >>> [hour(value, "en").replace(chr(160), " ") for value in (time(13, 30), time(9), time(12), time(0, 5))]
    ['1:30 p.m.', '9 a.m.', 'noon', '12:05 a.m.']
    >>> hour(time(13, 30), "es").replace(chr(160), " ")
    '1:30 p. m.'
    """
    if (value.hour, value.minute) == (12, 0):
        return _NOON[language]
    half = _HALVES[language][value.hour >= 12].replace(" ", "\u00a0")
    minutes = f":{value.minute:02}" if value.minute else ""
    return f"{(value.hour - 1) % 12 + 1}{minutes}\u00a0{half}"


def from_until(first: time, last: time, language: str) -> str:
    """
    >>> from_until(time(13), time(14, 30), "en").replace(chr(160), " ")
    '1 p.m. to 2:30 p.m.'
    >>> from_until(time(9), time(12), "es").replace(chr(160), " ")
    'de 9 a. m. a 12 del mediodía'
    """
    return _SPAN[language].format(first=hour(first, language), last=hour(last, language))


def hours_given(minutes: int, language: str) -> str:
    """Hours to the half, counted up, so that nobody's time is told smaller than it was; "" for none.

    >>> hours_given(20, "en"), hours_given(60, "en"), hours_given(130, "en"), hours_given(0, "en")
    ('half an hour', 'one hour', '2.5 hours', '')
    """
    halves = -(-minutes // 30)
    if halves <= 0:
        return ""
    half, one, many = _HOURS[language]
    return {1: half, 2: one}.get(halves) or many.format(hours=number(Decimal(halves) / 2))


def at_hour(value: time, language: str) -> str:
    """
    >>> at_hour(time(14, 30), "en").replace(chr(160), " "), at_hour(time(13, 15), "es").replace(chr(160), " ")
    ('at 2:30 p.m.', 'a la 1:15 p. m.')
    >>> at_hour(time(14), "es").replace(chr(160), " ")
    'a las 2 p. m.'
    """
    if language == "es":
        return f"{'a la' if value.hour in (1, 13) else 'a las'} {hour(value, language)}"
    return f"at {hour(value, language)}"


def when_words(day: date, first: time, last: time, language: str) -> str:
    """
    >>> when_words(date(2027, 3, 16), time(13), time(14), "en").replace(chr(160), " ")
    'Tuesday, March 16, 2027, 1 p.m. to 2 p.m.'
    """
    return f"{with_weekday(day, language)}, {from_until(first, last, language)}"
