"""The words of a note at the year's end: what came, what it became, thanks once more, and no ask.

Two or three numbers and no more (common practice); no amount and no value, for the note is no receipt.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from outreach.wording.counts import Item, counted, joined, number, sentence, students
from outreach.wording.gratitude_words import SPOKEN_TO
from outreach.wording.own_words import HOUSE, OwnWords, Voice, house_words
from outreach.wording.year_end_words import NAME, NOTE

LONGEST_IN_LINE = 4
"""So many things are told in the sentence; more become a list."""
MOST_LISTED = 7
MOST_TOLD = 400
"""Letters of what became of it; a further sentence is told only where it fits into so many."""

_TO = {plural: {pair[0]: pair[plural] for pair in SPOKEN_TO} for plural in (False, True)}


@dataclass(frozen=True)
class Given:
    """What one partner gave in a year, and what became of it: plain values in the language of the note.

    `became` are the teacher's own sentences, `untold` the titles of what no sentence says it of yet, `reached` how many
    children took part where all of it was for one thing, `taught` how many work in the art room this year. `year` is a
    name like 2026–27; `is_over` when it has ended.
    """

    language: str
    year: str = ""
    partner: str = ""
    contact: str = ""
    items: tuple[Item, ...] = ()
    money: bool = False
    grants: tuple[str, ...] = ()
    lent: tuple[Item, ...] = ()
    became: tuple[str, ...] = ()
    untold: tuple[str, ...] = ()
    reached: int | None = None
    taught: int | None = None
    is_over: bool = False
    teacher: str = ""
    school: str = ""
    wording: OwnWords = HOUSE

    @cached_property
    def say(self) -> Voice:
        """The words of the note, with what fills their blanks; Spanish verbs follow whom it speaks to."""
        language, words = self.language, NOTE[self.language]
        spoken = _TO[bool(self.partner and self.partner != self.contact)] if language == "es" else {}
        lent = tuple(counted(item, language) for item in self.lent)
        values = {
            **spoken,
            "giver": self.partner or self.contact,
            "person": self.contact,
            "teacher": self.teacher,
            "school": self.school,
            "year": self.year,
            "what came": words.these if listed(self) else joined(things(self), language),
            "what was lent": joined(_at_most(LONGEST_IN_LINE, lent, language), language),
            "what it became": " ".join(told(self)),
            "children": students(self.reached, language) if self.reached else "",
            "all children": students(self.taught, language) if self.taught else "",
        }
        return Voice(NAME, language, words, self.wording, values)


def greeting(given: Given) -> str:
    path = "to_nobody"
    if given.contact and given.partner and given.contact != given.partner:
        path = "to_both"
    elif given.contact:
        path = "to_person"
    elif given.partner:
        path = "to_business"
    return given.say(path)


def things(given: Given) -> tuple[str, ...]:
    """Everything given, each with its number; money without its amount, what was lent apart."""
    words, language = NOTE[given.language], given.language
    named = [counted(item, language) for item in given.items]
    named += [words.money] if given.money else []
    named += [words.grant.format(title=title) for title in given.grants]
    return tuple(name for name in named if name)


def listed(given: Given) -> tuple[str, ...]:
    """What stands as a list under the first paragraph; empty when it stands in the sentence."""
    named = things(given)
    return _at_most(MOST_LISTED, named, given.language) if len(named) > LONGEST_IN_LINE else ()


def _at_most(most: int, named: tuple[str, ...], language: str) -> tuple[str, ...]:
    """The first of them, and how many more there are."""
    if len(named) <= most:
        return named
    more = NOTE[language].more.format(count=number(len(named) - most + 1))
    return (*named[: most - 1], more)


def told(given: Given) -> list[str]:
    """As many of the sentences of what it became as the page has room for."""
    kept: list[str] = []
    for one in map(sentence, given.became):
        if not kept or sum(map(len, kept)) + len(one) <= MOST_TOLD:
            kept.append(one)
    return kept


def paragraphs(given: Given) -> tuple[str, ...]:
    """The body of the note, paragraph by paragraph; `listed` stands after the first."""
    say = given.say
    # Behind a list, what was lent is told with what it all became.
    lent = _lent(given) if listed(given) else ""
    became = (lent, say("became") if given.became else "", say("reached") if given.reached else "")
    taught = say("taught") if given.taught and given.taught != given.reached else ""
    parts = (_opening(given), " ".join(part for part in became if part), taught, say("no_ask"))
    return tuple(part for part in parts if part)


def _opening(given: Given) -> str:
    """What was given and lent; the house leads up to a list by a colon."""
    say, when = given.say, "over" if given.is_over else "ends"
    first = say(f"{when}_became" if given.became else when)
    named, as_list = things(given), listed(given)
    before = house_words(say.table, "gave").partition(" [what came]")[0]
    gave = (say("gave", instead=f"{before}:") if as_list else say("gave")) if named else ""
    return " ".join(part for part in (first, gave, "" if as_list else _lent(given)) if part)


def _lent(given: Given) -> str:
    return given.say("also_lent" if things(given) else "lent") if given.lent else ""
