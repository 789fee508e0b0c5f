"""Due lines that one way settles: sums for one office, pick-ups at one place. They stand as one line and unfold."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from operator import itemgetter
from typing import Any, NamedTuple

from django.urls import reverse
from django.utils.text import get_text_list, slugify
from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop, ngettext

from partners.agenda.lines import Placed, Rank
from partners.ground.due import Act, DueLine, Hand
from partners.ground.money import format_cents
from partners.program.desk import Desk

TO_THE_OFFICE = "gifts.hand-in"
RECEIPTS = "funding.receipt"
LETTERS = "gifts.thanks"
PICK_UPS = "promises.theirs"
SETTLE = "agenda:settle-many"
NAMED = 3
# Where several have not one page, one number and one last word.
NOBODY = {"who_url": "", "phone": "", "last_word": ""}


class One(NamedTuple):
    """A due line, and how much money it is about where it is about money."""

    line: DueLine
    cents: int | None = None


@dataclass(frozen=True)
class Kind:
    """`of` says which lines of a source are one errand (None: this one is its own), `least` from how many on.

    `done`: the words on the button where one press settles all of them truly; `opens`: the page for several, its words.
    """

    of: Callable[[DueLine], str | None]
    words: Callable[[Sequence[One]], dict[str, str]]
    cents: str = ""
    least: int = 2
    done: str = ""
    opens: tuple[str, str] = ("", "")
    reviewed: bool = True
    counted: bool = True


def _at_school(line: DueLine) -> str | None:
    return str(line.school_id or 0)


def _at_one_place(line: DueLine) -> str | None:
    return slugify(f"{line.partner_id} {line.hour} {line.verb}") if line.hand is Hand.COLLECT else None


def _anywhere(_line: DueLine) -> str | None:
    return "all"


def _counted(words: str, several: Sequence[One]) -> str:
    """How many, and how much where every amount may be read."""
    known = [one.cents for one in several if one.cents is not None]
    return f"{words}, {format_cents(sum(known))}" if len(known) == len(several) else words


def _sums(several: Sequence[One]) -> dict[str, str]:
    what = ngettext("%(count)d sum", "%(count)d sums", len(several)) % {"count": len(several)}
    return _for_the_office(several, what, _("Hand to the office of"), _("Hand to the office:"))


def _receipts(several: Sequence[One]) -> dict[str, str]:
    what = ngettext("%(count)d receipt", "%(count)d receipts", len(several)) % {"count": len(several)}
    return _for_the_office(several, what, _("Hand in at the office of"), _("Hand in"))


def _for_the_office(several: Sequence[One], what: str, verb_at: str, verb: str) -> dict[str, str]:
    """The school is whom it goes to, and stands there alone."""
    where = several[0].line.school
    words = {"verb": verb_at if where else verb, "alone": verb, "what": _counted(what, several)}
    return {**words, "who": where, "school": "", **NOBODY}


def _letters(several: Sequence[One]) -> dict[str, str]:
    names = list(dict.fromkeys(one.line.who for one in several))
    named = names[:NAMED] if len(names) <= NAMED else [*names[:2], _("%(count)d more") % {"count": len(names) - 2}]
    return {
        "verb": _("Thank"),
        "who": get_text_list(named, _("and")),
        "school": "",
        **NOBODY,
        "what": ngettext("%(count)d letter", "%(count)d letters", len(several)) % {"count": len(several)},
    }


def _pick_ups(several: Sequence[One]) -> dict[str, str]:
    things = [one.line.what for one in several]
    count = ngettext("%(count)d thing", "%(count)d things", len(things)) % {"count": len(things)}
    return {"what": get_text_list(things, _("and")) if len(things) <= NAMED else count}


KINDS = {
    TO_THE_OFFICE: Kind(of=_at_school, words=_sums, cents="amount_cents", done=gettext_noop("All handed in")),
    RECEIPTS: Kind(of=_at_school, words=_receipts, cents="total_cents", done=gettext_noop("All handed in")),
    LETTERS: Kind(
        of=_anywhere,
        words=_letters,
        least=3,
        opens=("outreach:batch-list", gettext_noop("Letters in one go")),
        reviewed=False,
    ),
    PICK_UPS: Kind(of=_at_one_place, words=_pick_ups, done=gettext_noop("All of it came"), counted=False),
}
# By the beginning of a line's key: what may stand with others in the review.
REVIEWED = tuple(slug.replace(".", "-") + "-" for slug, kind in KINDS.items() if kind.reviewed)

Errand = list[One]


def errands(desk: Desk, placed: Iterable[Placed], at_most: int, *, reviewed: bool = False) -> list[Errand]:
    """What is due, in its order; of each errand all lines where its first one stands.

    Only what can stand with others, and what is among the first, becomes a line.
    """
    apart: list[tuple[Rank, list[Placed | One]]] = []
    gathered: dict[tuple[str, str | None], list[tuple[Rank, One]]] = {}
    for one in placed:
        kind = KINDS.get(one.source.slug)
        if kind is None or (reviewed and not kind.reviewed):
            apart.append((one.rank, [one]))
            continue
        line = one.line(desk.day)
        cents = one.row[one.source.columns.index(kind.cents)] if kind.cents else None
        gathered.setdefault((line.source, kind.of(line)), []).append((one.rank, One(line, cents)))
    for (slug, of), several in gathered.items():
        if of is not None and len(several) >= KINDS[slug].least:
            apart.append((several[0][0], [one for _rank, one in several]))
        else:
            apart += [(rank, [one]) for rank, one in several]
    apart.sort(key=itemgetter(0))
    return [[_made(one, desk) for one in several] for _rank, several in apart[:at_most]]


def _made(one: Placed | One, desk: Desk) -> One:
    return one if isinstance(one, One) else One(one.line(desk.day))


def lines_of(found: Iterable[Errand]) -> list[DueLine]:
    return [one.line for errand in found for one in errand]


def told(errand: Errand, *, cut: bool) -> dict[str, Any]:
    """What one line says of several, and what one press settles. `cut`: there may be more than were read."""
    kind, first = KINDS[errand[0].line.source], errand[0].line
    own = {"verb": str(first.verb), "alone": str(first.alone or first.verb), "who": first.who}
    words = {**own, **kind.words(errand)}
    if cut and kind.counted:
        words["what"] = _("the oldest %(what)s") % {"what": words["what"]}
    page, label = kind.opens
    act = Act(_(label), reverse(page), opens=True) if page else Act(_(kind.done), reverse(SETTLE), code="done")
    key = f"{first.source.replace('.', '-')}-of-{kind.of(first)}"
    named = " ".join(filter(None, (words["verb"], words["who"], words["what"])))
    return {
        "key": key,
        "why": "",
        "main": act,
        "more": (),
        "moves": False,
        # While it still stands as one after one of its lines is settled, its fold is where to go on.
        "back": f"in-{key}" if len(errand) > kind.least else "",
        "tick": _("Tick: %(what)s") % {"what": named},
        **words,
    }
