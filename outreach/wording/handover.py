"""What the hand-over says: how the book works, what each list holds and how it is headed. In English, for an office."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from outreach.page import Column
from outreach.wording.board import day_of_year
from outreach.wording.counts import joined, number

HOW_IT_WORKS = (
    "Log each visit when it is over. From what is logged the book works out when it is right to ask again, and says "
    "why not yet.",
    "What either side promises is written down with its day. It stands under Today until it came, or was let go.",
    "Thanks come first: they are owed from the day of a promise or a gift, and no ask stands in the same letter.",
    "Once a month, go through the monthly review. It holds everything that is due or past its day, and who went quiet.",
    "Before each step print its sheet. What went out is kept as it was, under Letters and sheets.",
)
CAREFUL = (
    "Keep this like a grade book: it names people and what they said. It is for who takes over and for nobody else; "
    "public records can be requested, so it holds what the owner of a shop may read. What families gave is counted and "
    "never listed, no child stands in it, and helpers’ phones and addresses stay in the book."
)
RULES = (
    "Whether an approval outlasts the person who gave it or the person it was given to, and whose a gift is, the "
    "district’s rules and the law where you are decide."
)
LONGEST = 420
COUNTED = {
    "theirs": ("promise to us", "promises to us"),
    "ours": ("promise of ours", "promises of ours"),
    "thanks": ("thank-you owed", "thank-yous owed"),
    "waiting": ("ask without an answer", "asks without an answer"),
    "trades": ("trade going on", "trades going on"),
    "loans": ("loan to return", "loans to return"),
    "grants": ("grant going on", "grants going on"),
    "sessions": ("session with helpers", "sessions with helpers"),
}
"""What the cover counts."""


@dataclass(frozen=True)
class Kind:
    """One kind of list: what heads it, a word about it, its columns."""

    heading: str
    about: str
    columns: tuple[Column, ...]


def _kind(heading: str, about: str, *columns: tuple[str, float]) -> Kind:
    return Kind(heading, about, tuple(Column(title, share) for title, share in columns))


KINDS: dict[str, Kind] = {
    "ask": _kind(
        "Who may be asked", "Nothing of theirs speaks against it today. Approval comes first all the same.",
        ("Who", 1.7), ("How they want it", 2.4), ("What was between us", 1.9),
    ),
    "rest": _kind(
        "Who rests, and why", "The next to be asked again stand first.",
        ("Who", 1.5), ("Again from", 1.2), ("How they want it", 1.9), ("Not now, because", 1.9),
    ),
    "never": _kind(
        "Never ask", "They said so, or it was decided. It holds for whoever comes after.",
        ("Who", 1.7), ("What they said", 2.1), ("Why", 2.2),
    ),
    "waiting": _kind(
        "Asks that wait for an answer", "Let them know who will come back.",
        ("Asked on", 1.1), ("Of whom", 1.8), ("For what", 2.4), ("By", 1.1),
    ),
    "theirs": _kind(
        "What they promised us", "",
        ("By", 1.2), ("Who", 1.8), ("What", 2.4), ("So far", 1.2),
    ),
    "ours": _kind(
        "What we promised them", "A promise is the program’s, whoever gave it.",
        ("By", 1.2), ("To whom", 1.8), ("What", 2.4), ("So far", 1.2),
    ),
    "thanks": _kind(
        "Thanks that are owed", "Best said by who was given to, before leaving.",
        ("Since", 1.1), ("To whom", 2.0), ("For what", 3.0),
    ),
    "trades": _kind(
        "Trades going on", "",
        ("With", 1.5), ("We make", 1.8), ("They give", 1.8), ("The memo", 2.1),
    ),
    "loans": _kind(
        "Loans to return", "",
        ("By", 1.1), ("To whom", 1.9), ("What", 2.3), ("Where it is", 1.5),
    ),
    "accept": _kind(
        "Gifts and awards that wait to be accepted", "",
        ("By", 1.1), ("From", 1.9), ("What", 2.3), ("Who decides", 1.5),
    ),
    "approvals": _kind(
        "Approvals that are held",
        "Ask the office which of them end with who gave them, or with the teacher they were given to.",
        ("For what", 1.5), ("By", 1.6), ("Given, until", 1.7), ("The paper lies", 1.5),
    ),
    "procedures": _kind(
        "Who must say yes here", "",
        ("To what", 1.5), ("Who", 1.5), ("On which form, how early", 1.7), ("How it goes", 2.2),
    ),
    "needs": _kind(
        "Wish list", "",
        ("What", 2.2), ("Still needed", 1.2), ("By", 1.2), ("Which, and for what", 2.1),
    ),
    "projects": _kind(
        "Projects going on", "Who gave wants to hear what it became.",
        ("Until", 1.2), ("What", 2.0), ("With", 1.6), ("About", 2.1),
    ),
    "sessions": _kind(
        "Sessions with helpers", "",
        ("When", 1.7), ("What", 1.6), ("Where", 1.7), ("Said yes", 1.0),
    ),
    "helpers": _kind(
        "Helpers", "Phones and addresses stand in the book. Cleared is what the office confirmed; ask again each year.",
        ("Name", 1.8), ("Can help with", 2.8), ("Cleared", 1.6),
    ),
    "kits": _kind(
        "Work at helpers’ homes", "",
        ("Back by", 1.1), ("With whom", 2.0), ("What", 3.0),
    ),
    "grants": _kind(
        "Grants", "",
        ("What for, from whom", 1.9), ("Money", 1.6), ("Dates", 2.0), ("Conditions", 1.8),
    ),
    "money": _kind(
        "Receipts and money to come back", "Own money is repaid to who paid it, also after leaving.",
        ("Bought on", 1.2), ("What, where", 2.1), ("Who paid", 1.6), ("What is open", 2.0),
    ),
    "free_days": _kind(
        "Free days that come back", "",
        ("Next on", 1.2), ("What, where", 2.3), ("It comes back", 1.6), ("Bring, limits", 2.0),
    ),
    "places": _kind("Where things are", "", ("Place", 1.6), ("What lies there", 4.4)),
    "papers": _kind(
        "Pictures and papers", "What is kept in the book, and where the paper itself lies.",
        ("What", 2.6), ("Belongs to", 2.2), ("Where", 1.5),
    ),
    "letters": _kind("Letters being written", "", ("Since", 1.1), ("What", 4.0)),
}  # fmt: skip
"""Every kind of list in the order in which it is read."""


@dataclass(frozen=True)
class Listing:
    """Rows of one of KINDS, each with a cell of words for each column."""

    kind: str
    rows: tuple[tuple[str, ...], ...] = ()


def shortened(words: str, longest: int = LONGEST) -> str:
    """At most so many signs, cut between words; the whole stands in the book.

    >>> shortened("a long note on how they like to be asked", 18)
    'a long note on how…'
    """
    words = " ".join(words.split())
    if len(words) <= longest:
        return words
    cut = words[:longest].rpartition(" ")[0] if words[longest] != " " else words[:longest]
    return f"{cut or words[:longest]}…"


def by_day(day: date | None, today: date) -> str:
    """A day that something is due by, and whether it is over."""
    if day is None:
        return ""
    return f"{day_of_year(day)}, past its day" if day < today else day_of_year(day)


def open_words(counts: Mapping[str, int]) -> str:
    """What is open, in one sentence.

    >>> open_words({"theirs": 2, "thanks": 1})
    '2 promises to us and 1 thank-you owed'
    """
    return joined(
        [f"{number(counts[kind])} {words[counts[kind] != 1]}" for kind, words in COUNTED.items() if counts.get(kind)],
        "en",
    )


def sentences(*parts: str) -> str:
    """What is there, in one cell: "by headquarters. Asks to be asked 30 days ahead." """
    return " ".join(f"{part[:1].upper()}{part[1:].rstrip('.')}." for part in parts if part)
