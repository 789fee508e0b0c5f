"""Letters for what is ticked on a slip, so that a stack is typed without leaving the keyboard; without Django."""

from __future__ import annotations

from dataclasses import dataclass

from partners.ground.plain import PlainError, gettext_noop

# Monday first; Thursday is h, as tu and th would be two keys.
DAYS = {"m": 0, "t": 1, "w": 2, "h": 3, "f": 4}
JOBS = {
    "c": "cutting", "s": "sorting", "m": "mounting", "l": "labelling", "h": "hanging", "t": "taking_down",
    "p": "photographing", "w": "sewing", "f": "carrying", "o": "other",
}  # fmt: skip
PLACES = {"s": "at_school", "h": "from_home", "d": "show_day"}
WAYS = {"c": "phone", "t": "text", "e": "email", "n": "note"}
OFTEN = {"w": gettext_noop("every week"), "m": gettext_noop("every month"), "o": gettext_noop("once")}
YES = frozenset({"y", "x", "1"})
UNREADABLE = "?"
ALL = "a"


class CodeError(PlainError):
    """A letter that stands for nothing here."""


@dataclass(frozen=True, slots=True)
class Name:
    """What was typed as a name; a question mark says that it cannot be read, and the rest is what can."""

    text: str
    unreadable: bool


def read_name(typed: str) -> Name:
    """`? Ma.. Lopez` is unreadable and keeps `Ma.. Lopez`; a question mark alone keeps nothing."""
    text = typed.strip()
    if UNREADABLE not in text:
        return Name(text, False)
    return Name(" ".join(text.replace(UNREADABLE, " ").split()), True)


def read_letters(typed: str, letters: dict[str, str] | dict[str, int]) -> list[str | int]:
    """What the letters stand for, each once, in the order of the table; `a` is all of them. Raises CodeError."""
    keys = [sign for sign in typed.lower() if not sign.isspace() and sign not in ",.;/-"]
    if keys == [ALL] and ALL not in letters:
        return list(letters.values())
    wrong = sorted({sign for sign in keys if sign not in letters})
    if wrong:
        sentence = gettext_noop("%(sign)s stands for nothing here. Use %(letters)s.")
        raise CodeError("no_code", sentence, sign=", ".join(wrong), letters=", ".join(letters))
    return [value for key, value in letters.items() if key in keys]


def read_one(typed: str, letters: dict[str, str]) -> str:
    """The one thing a single letter stands for, "" for none. Raises CodeError."""
    found = read_letters(typed, letters)
    if len(found) > 1:
        raise CodeError("one_code", gettext_noop("One letter only: %(letters)s."), letters=", ".join(letters))
    return str(found[0]) if found else ""


def read_often(typed: str) -> str:
    """`w` is every week, `m` every month, `o` once; anything longer is kept as it is typed."""
    return OFTEN.get(typed.strip().lower(), typed.strip())


def read_yes(typed: str) -> bool:
    """Raises CodeError for anything but y, x, 1, n, 0 and nothing."""
    said = typed.strip().lower()
    if said in YES:
        return True
    if said in ("", "n", "0"):
        return False
    raise CodeError("yes_or_no", gettext_noop("Type y for yes, or leave it empty."))
