"""What people write into the cells of a table, read by its kind. Refusals say what to write instead."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from datetime import date
from functools import lru_cache

from partners.ground.names import fold
from partners.ground.plain import PlainError, gettext_noop

EARLIEST, LATEST = 1900, 2199
_ERRORS = {"#REF!", "#N/A", "#DIV/0!", "#VALUE!", "#NAME?", "#NUM!", "#NULL!", "#SPILL!", "#CALC!"}
_YES = {"yes", "y", "x", "true", "1", "✓", "✔", "si", "sí"}
_NO = {"no", "n", "false", "0", "–", "-"}
_MONTHS = ("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec")
_ISO = re.compile(r"(\d{4})-(\d{1,2})-(\d{1,2})(?:[t ]\d{1,2}:\d{2}.*)?")
_US = re.compile(r"(\d{1,2})[/-](\d{1,2})[/-](\d{4})(?: \d{1,2}:\d{2}.*)?")
_WORDS_US = re.compile(r"([a-z]{3,9})\.? (\d{1,2})(?:st|nd|rd|th)?,? (\d{4})")
_WORDS = re.compile(r"(\d{1,2})(?:st|nd|rd|th)?[ -]([a-z]{3,9})\.?,?[ -](\d{4})")

A_MISTAKE = gettext_noop("“%(typed)s” is a mistake that the spreadsheet reports. Put the value there instead.")
TOO_LONG = gettext_noop("“%(typed)s …” is longer than %(most)s letters.")
NO_YES_NO = gettext_noop("“%(typed)s” is neither yes nor no.")
NO_NUMBER = gettext_noop("“%(typed)s” is no whole number from %(least)s to %(most)s.")
NO_CHOICE = gettext_noop("“%(typed)s” is none of these: %(choices)s.")
NO_DAY = gettext_noop("“%(typed)s” is no day. Write month/day/year such as 10/6/2026, or 2026-10-06.")
NO_SUCH_DAY = gettext_noop("“%(typed)s” is no day of the calendar. Days are read as month/day/year, such as 10/6/2026.")
SHORT_YEAR = gettext_noop("“%(typed)s” can be read in several ways. Write the year with four digits.")
DOTS = gettext_noop("“%(typed)s” can be read in two ways. Write month/day/year such as 10/6/2026, or 2026-10-06.")
SERIAL = gettext_noop(
    "“%(typed)s” is a number and no day. Give this column the format of a date in the spreadsheet, or write 2026-10-06."
)

Read = Callable[[str], object]


def of_one_line(typed: str) -> str:
    """Without line breaks and without blanks at the ends; blanks inside stay as they are."""
    return " ".join(filter(None, (line.strip() for line in re.split(r"[\r\n\x0b\x0c\u2028\u2029]", typed))))


def no_mistake(typed: str) -> str:
    """Raises PlainError for what spreadsheets show where a formula failed."""
    if typed in _ERRORS:
        raise PlainError("a_mistake", A_MISTAKE, typed=typed)
    return typed


def text_of(most: int) -> Callable[[str], str]:
    def read(typed: str) -> str:
        if len(typed) > most:
            raise PlainError("too_long", TOO_LONG, typed=typed[:40], most=most)
        return typed

    return read


def yes_or_no(typed: str) -> bool:
    word = typed.strip().casefold()
    if word in _YES:
        return True
    if word in _NO:
        return False
    raise PlainError("no_yes_no", NO_YES_NO, typed=typed)


def whole_of(most: int, least: int = 0) -> Callable[[str], int]:
    def read(typed: str) -> int:
        bare = re.sub(r"\.0*$", "", typed.strip())
        if re.fullmatch(r"[0-9]{1,3}(?:,[0-9]{3})+", bare):
            bare = bare.replace(",", "")
        if not re.fullmatch(r"[0-9]{1,12}", bare) or not least <= int(bare) <= most:
            raise PlainError("no_number", NO_NUMBER, typed=typed, least=f"{least:,}", most=f"{most:,}")
        return int(bare)

    return read


def choice_of(choices: Mapping[str, str], also: Mapping[str, str] | None = None) -> Callable[[str], str]:
    """One of `choices` (code to label) by its label or code; `also` names further words for codes."""
    known = {fold(word): code for word, code in (also or {}).items()}
    known |= {fold(code): code for code in choices if code} | {fold(label): code for code, label in choices.items()}

    @lru_cache(maxsize=200)
    def read(typed: str) -> str:
        code = known.get(fold(typed))
        if code is None:
            named = ", ".join(label for code, label in choices.items() if code)
            raise PlainError("no_choice", NO_CHOICE, typed=typed[:60], choices=named)
        return code

    return read


def read_day(typed: str) -> date:
    """ISO, month/day/year as in the United States, or with the month's name; nothing is guessed. Raises PlainError."""
    words = " ".join(typed.split()).casefold()
    if found := _ISO.fullmatch(words):
        return _day(typed, int(found[1]), int(found[2]), int(found[3]))
    if found := _US.fullmatch(words):
        return _day(typed, int(found[3]), int(found[1]), int(found[2]))
    if found := _WORDS_US.fullmatch(words):
        return _day(typed, int(found[3]), _month(typed, found[1]), int(found[2]))
    if found := _WORDS.fullmatch(words):
        return _day(typed, int(found[3]), _month(typed, found[2]), int(found[1]))
    if re.fullmatch(r"\d{1,2}([/.-])\d{1,2}\1\d{2}", words):
        raise PlainError("short_year", SHORT_YEAR, typed=typed)
    if re.fullmatch(r"\d{1,2}\.\d{1,2}\.\d{4}", words):
        raise PlainError("dots", DOTS, typed=typed)
    if re.fullmatch(r"[345]\d{4}", words):
        raise PlainError("serial", SERIAL, typed=typed)
    raise PlainError("no_day", NO_DAY, typed=typed[:40])


def _month(typed: str, word: str) -> int:
    full = ("january", "february", "march", "april", "may", "june", "july", "august", "september", "october",
            "november", "december")  # fmt: skip
    known = {short: number for number, short in enumerate(_MONTHS, start=1)} | {"sept": 9}
    known |= {name: number for number, name in enumerate(full, start=1)}
    if word not in known:
        raise PlainError("no_day", NO_DAY, typed=typed)
    return known[word]


def _day(typed: str, year: int, month: int, day: int) -> date:
    try:
        found = date(year, month, day)
    except ValueError:
        raise PlainError("no_such_day", NO_SUCH_DAY, typed=typed) from None
    if not EARLIEST <= year <= LATEST:
        raise PlainError("no_such_day", NO_SUCH_DAY, typed=typed)
    return found
