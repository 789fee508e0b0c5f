"""What teachers write into the cells of a list of classes: grade, number of students, days, minutes."""

from __future__ import annotations

import re
from collections.abc import Collection
from dataclasses import dataclass

from partners.ground.names import fold
from partners.ground.plain import PlainError, gettext_noop

PRE_K, KINDERGARTEN, LAST_GRADE = -1, 0, 12
MOST_STUDENTS = 400
MOST_MINUTES = 600

_ORDINALS = ("zeroth", "first", "second", "third", "fourth", "fifth", "sixth", "seventh", "eighth")
_GRADES = {
    **dict.fromkeys(("pre k", "prek", "pk", "pre kindergarten", "prekindergarten", "p k", "tk", "preschool"), PRE_K),
    **dict.fromkeys(("k", "kg", "kinder", "kindergarten", "kdg"), KINDERGARTEN),
    **{word: place for place, word in enumerate(_ORDINALS) if place},
}
_WEEKDAYS = {
    **dict.fromkeys(("m", "mo", "mon", "monday", "mondays"), 0),
    **dict.fromkeys(("t", "tu", "tue", "tues", "tuesday", "tuesdays"), 1),
    **dict.fromkeys(("w", "we", "wed", "weds", "wednesday", "wednesdays"), 2),
    **dict.fromkeys(("th", "thu", "thur", "thurs", "thursday", "thursdays", "r", "h"), 3),
    **dict.fromkeys(("f", "fr", "fri", "friday", "fridays"), 4),
    **dict.fromkeys(("sa", "sat", "saturday", "saturdays"), 5),
    **dict.fromkeys(("su", "sun", "sunday", "sundays"), 6),
}
_RUN_TOGETHER = re.compile(r"(?:m|tu|th|t|w|r|f)+")
_ONE_OF_THEM = re.compile(r"tu|th|[mtwrf]")
_MONTHS = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"]

NO_GRADE = gettext_noop("“%(typed)s” is no grade. Write Pre-K, K, or 1 to 12.")
NO_NUMBER = gettext_noop("“%(typed)s” is no number of students. Write a number, such as 24.")
TOO_MANY = gettext_noop("%(number)s students are too many for one class. Is the number right?")
NO_MINUTES = gettext_noop("“%(typed)s” is no length of a lesson. Write minutes, such as 45.")
MADE_A_DATE = gettext_noop("“%(typed)s” is a date that the spreadsheet made of your days. Write them as Day 1, Day 4.")
A_RANGE = gettext_noop("“%(typed)s” can be read in two ways. Write each day: 1, 2, 3.")
NO_CYCLE_DAY = gettext_noop(
    "“%(typed)s” is no day of this school's cycle. Write days from 1 to %(length)s, such as 1, 4."
)
NO_WEEKDAY = gettext_noop(
    "“%(typed)s” is no weekday. This school has no rotating cycle: write Mon, Tue, Wed, Thu, Fri, or enter the cycle "
    "on the school's page first."
)
SATURDAY_OR_SUNDAY = gettext_noop("“%(typed)s” can mean Saturday or Sunday. Write Sat or Sun.")
NO_SCHOOL_THEN = gettext_noop("There is no school on the day “%(typed)s” names.")


@dataclass(frozen=True)
class Week:
    """How a school counts its days: its weekdays with school, or the days 1 to `cycle_length` of a rotating cycle."""

    weekdays: Collection[int] = (0, 1, 2, 3, 4)
    cycle_length: int = 0


def read_grade(typed: str) -> int:
    """-1 for Pre-K, 0 for kindergarten, 1 to 12. Raises PlainError."""
    if typed.strip() in ("-1", "−1"):
        return PRE_K
    words = " ".join(re.sub(r"\b(?:gr|grade|grades)\b", " ", fold(_whole(typed))).split())
    known = re.sub(r" ?[345]$", "", words) if words.startswith("p") else words
    if known in _GRADES:
        return _GRADES[known]
    found = re.fullmatch(r"(\d{1,2})(?: ?(?:st|nd|rd|th))?", words)
    if found and not re.search(r"[-−]\s*\d", typed) and int(found[1]) <= LAST_GRADE:
        return int(found[1])
    raise PlainError("no_grade", NO_GRADE, typed=typed)


def _whole(typed: str) -> str:
    """A spreadsheet may write 3 as 3.0."""
    return re.sub(r"(?<=\d)\.0+$", "", typed.strip())


def read_students(typed: str) -> int:
    """Raises PlainError."""
    found = re.fullmatch(r"(\d{1,9})(?:\.0*)?(?: (?:students?|children|kids))?", typed.strip().lower())
    if not found:
        raise PlainError("no_number", NO_NUMBER, typed=typed)
    if int(found[1]) > MOST_STUDENTS:
        raise PlainError("too_many", TOO_MANY, number=f"{int(found[1]):,}")
    return int(found[1])


def read_minutes(typed: str) -> int:
    """From `45`, `45 min`, `0:45` or `9:10–9:55`. Raises PlainError."""
    words = typed.strip().lower()
    plain = re.fullmatch(r"(\d{1,4})(?:\.0*)?(?: ?(?:m|min|mins|minutes?|'|′))?\.?", words)
    length = re.fullmatch(r"([0-3]):([0-5]\d)(?::00)?", words)
    clock = re.fullmatch(r"(\d{1,2}):([0-5]\d) ?(?:am|pm)? ?(?:-|–|to) ?(\d{1,2}):([0-5]\d) ?(?:am|pm)?", words)
    minutes = 0
    if plain:
        minutes = int(plain[1])
    elif length:
        minutes = int(length[1]) * 60 + int(length[2])
    elif clock:
        begins, ends = (int(clock[n]) * 60 + int(clock[n + 1]) for n in (1, 3))
        # 12:40 to 1:25 goes over noon.
        minutes = (ends - begins) % (12 * 60)
    if not 1 <= minutes <= MOST_MINUTES:
        raise PlainError("no_minutes", NO_MINUTES, typed=typed)
    return minutes


def read_days(typed: str, week: Week) -> list[int]:
    """The days on which a class has art, in order: weekdays (0 is Monday), or days of the cycle. Raises PlainError."""
    if re.fullmatch(r"\d{1,2}[-/ ](?:%s)[a-z]*|(?:%s)[a-z]*[-/ ]\d{1,2}" % (("|".join(_MONTHS),) * 2), typed.lower()):
        raise PlainError("made_a_date", MADE_A_DATE, typed=typed)
    if fold(typed) in ("every day", "everyday", "daily", "all", "all days"):
        return list(range(1, week.cycle_length + 1)) if week.cycle_length else sorted(week.weekdays)
    return _cycle_days(typed, week.cycle_length) if week.cycle_length else _weekdays(typed, week.weekdays)


def _cycle_days(typed: str, length: int) -> list[int]:
    if re.search(r"\d ?(?:-|–|to) ?\d", typed):
        raise PlainError("a_range", A_RANGE, typed=typed)
    glued = re.sub(r"\bd(?:ays?)?(?=\d)", "", fold(_whole(typed)))
    words = re.sub(r"\b(?:days?|cycle|and)\b", " ", glued).split()
    found = {int(word) if word.isascii() and word.isdecimal() else _letter(word) for word in words}
    if not found or not found <= set(range(1, length + 1)):
        raise PlainError("no_cycle_day", NO_CYCLE_DAY, typed=typed, length=length)
    return sorted(found)


def _letter(word: str) -> int:
    """Many schools name the days of their cycle A, B, C."""
    return ord(word) - ord("a") + 1 if len(word) == 1 and "a" <= word <= "z" else 0


def _weekdays(typed: str, with_school: Collection[int]) -> list[int]:
    words = [
        part for word in fold(typed).split() if word not in ("and", "day", "days", "on") for part in _taken_apart(word)
    ]
    if any(word in ("s", "ss") for word in words):
        raise PlainError("saturday_or_sunday", SATURDAY_OR_SUNDAY, typed=typed)
    if not words or not all(word in _WEEKDAYS for word in words):
        raise PlainError("no_weekday", NO_WEEKDAY, typed=typed)
    found = {_WEEKDAYS[word] for word in words}
    if not found <= set(with_school):
        raise PlainError("no_school_then", NO_SCHOOL_THEN, typed=typed)
    return sorted(found)


def _taken_apart(word: str) -> list[str]:
    """`mwf` is three days, `tth` two; a word that is a day stays whole."""
    if word in _WEEKDAYS or not _RUN_TOGETHER.fullmatch(word):
        return [word]
    return _ONE_OF_THEM.findall(word)
