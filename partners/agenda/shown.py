"""Due lines as a page shows them: how late, what was said last, how they were settled."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import date, datetime, time
from itertools import islice
from typing import Any

from django.db.models import OuterRef, QuerySet, Subquery
from django.utils import timezone
from django.utils.text import Truncator
from django.utils.translation import ngettext

from partners.agenda.errands import REVIEWED, Errand, lines_of, told
from partners.agenda.lines import SOURCES
from partners.ground.days import spelled
from partners.ground.due import Act, DueLine, Hand, ReadByTemplates
from partners.ground.kept_queries import kept_rows_of
from partners.ground.links import row_link
from partners.ground.words import escaped
from partners.ground.words import gettext as _
from partners.program.access import leads
from partners.program.desk import Desk
from partners.school.calendar import SchoolCalendar
from partners.school.clock import calendars
from partners.school.lateness import Lateness
from partners.visits.models import Happened

# By the beginning of a line's key: what may settle others along with it.
ALONG = tuple(source.slug.replace(".", "-") + "-" for source in SOURCES if source.along)
# Far more than anybody changes in a day by hand.
EVENTS_READ = 1000


@dataclass(frozen=True, slots=True)
class Shown(ReadByTemplates):
    """A due line with the words around it. A template reads each of them many times, so nothing is worked out anew."""

    key: str
    pk: int
    hand: Hand
    due: date
    hour: time | None
    verb: str
    alone: str
    what: str
    why: str
    who: str
    who_url: str
    school: str
    phone: str
    main: Act | None
    more: tuple[Act, ...]
    settle_url: str
    moves: bool
    tick: str
    late: str
    last_word: str
    settled: str = ""
    undo_url: str = ""
    each: tuple[Shown, ...] = ()
    back: str = ""

    @property
    def along(self) -> bool:
        """Whether other lines of its group may come and go with it."""
        return bool(self.each) or self.key.startswith(ALONG)

    @property
    def keys(self) -> str:
        """What ticking it ticks."""
        return " ".join(one.key for one in self.each) or self.key

    @classmethod
    def of(cls, line: DueLine, *, late: str, last_word: str) -> Shown:
        """What stands in a row many times is escaped here, once."""
        return cls(
            key=escaped(line.key),
            pk=line.pk,
            hand=line.hand,
            due=line.due,
            hour=line.hour,
            verb=escaped(str(line.verb)),
            alone=str(line.alone or line.verb),
            what=escaped(line.what),
            why=str(line.why),
            who=escaped(line.who),
            who_url=line.who_url,
            school=line.school,
            phone=line.phone,
            main=line.main,
            more=line.more,
            settle_url=line.settle_url,
            moves=line.moves,
            tick=_tick(line),
            late=late,
            last_word=last_word,
        )


@dataclass(frozen=True)
class SettledLine(ReadByTemplates):
    """A line that was settled today, from the event that settled it, `together` with others; undo opens all of them."""

    key: str
    hand: str
    who: str
    what: str
    verb: str
    due: date
    settled: str
    undo_url: str
    hour: None = None
    who_url: str = ""
    school: str = ""
    late: str = ""
    moved: bool = False
    together: int = 1
    along: bool = False
    each: tuple[Shown, ...] = ()

    @property
    def in_place(self) -> bool:
        """Taken back where it stands; else the whole page comes anew."""
        return self.together < 2


def show(desk: Desk, lines: Sequence[DueLine], known: Mapping[int, SchoolCalendar] | None = None) -> list[Shown]:
    """The lines with their words, in a fixed number of queries; `known`: the schools' calendars, where at hand."""
    words = last_words(desk, {line.partner_id for line in lines if line.partner_id})
    lateness = Lateness(calendars(desk.program) if known is None else known, desk.day)
    shown = []
    for line in lines:
        last_word = words.get(line.partner_id or 0, "") if names_partner(line) else ""
        leading = line if leads(desk, line.who_url) else led_nowhere(line)
        shown.append(Shown.of(leading, late=lateness.of(line), last_word=last_word))
    return shown


def led_nowhere(line: DueLine) -> DueLine:
    return replace(line, who_url="")


def show_errands(
    desk: Desk, found: Sequence[Errand], known: Mapping[int, SchoolCalendar] | None = None, *, cut: bool = False
) -> list[Shown]:
    """One line for each errand; that of several has the first one's day, place and lateness, and unfolds.

    `cut`: more is due than was read.
    """
    each = iter(show(desk, lines_of(found), known))
    parts = [(tuple(islice(each, len(errand))), errand) for errand in found]
    return [several[0] if len(several) == 1 else as_one(several, errand, cut=cut) for several, errand in parts]


def as_one(several: tuple[Shown, ...], errand: Errand, *, cut: bool) -> Shown:
    return replace(several[0], each=several, **told(errand, cut=cut))


def names_partner(line: DueLine) -> bool:
    """Whether the line is about whom it names: the principal is asked about a partner's gift."""
    return line.partner_id is not None and line.who_url == row_link("directory:partner-detail", line.partner_id)


def _tick(line: DueLine) -> str:
    """What a screen reader says of the box to tick; no comma hangs where nothing follows it."""
    named = f"{line.verb} {line.who}".strip()
    return _("Tick: %(what)s") % {"what": f"{named}, {line.what}" if line.what else named}


def last_words(desk: Desk, partner_ids: Collection[int]) -> dict[int, str]:
    """The last visit of each partner, in words, and whose it was if another's; notes are not for guests."""

    # Neither in an order: for it SQLite would walk through all partners, and all visits, of the program.
    def newest(partner_ids: Collection[int]) -> QuerySet[Any, Any]:
        latest = desk.visits.filter(partner=OuterRef("pk")).order_by("-day", "-pk").values("pk")[:1]
        return desk.partners.filter(pk__in=partner_ids).order_by().values_list(Subquery(latest))  # type: ignore[no-any-return]

    def told(visit_ids: Collection[int]) -> QuerySet[Any, Any]:
        columns = "partner_id", "day", "happened", "note", "by"
        return desk.visits.filter(pk__in=visit_ids).order_by().values_list(*columns)  # type: ignore[no-any-return]

    visit_ids = [pk for (pk,) in kept_rows_of(("newest visits", *desk.sees), partner_ids, newest) if pk]
    found = {}
    for partner_id, day, happened, note, by in kept_rows_of(("visits", *desk.sees), visit_ids, told):
        said = f": {Truncator(note).chars(90)}" if note and desk.writes else ""
        whose = f" ({by})" if by and by != str(desk.user) else ""
        on = spelled(day, "MONTH_DAY_FORMAT" if day.year == desk.day.year else "DATE_FORMAT")
        found[partner_id] = f"{on}, {Happened(happened).label}{whose}{said}"
    return found


def settled_on(desk: Desk) -> list[SettledLine]:
    """What was settled since the day began and not taken back, one line each, the latest word first."""
    day_begins = timezone.make_aware(datetime.combine(desk.day, time.min))
    events = desk.program.events.filter(at__gte=day_begins, undone_by=None).order_by("-at", "-pk")
    lines: dict[str, SettledLine] = {}
    for pk, facts in events.values_list("pk", "facts")[:EVENTS_READ]:
        for kept in facts.get("lines", []):
            if kept["key"] not in lines and may_see(desk, kept["school_id"]):
                line = settled_line(pk, kept, len(facts["lines"]))
                lines[kept["key"]] = line if leads(desk, line.who_url) else replace(line, who_url="")
    return list(lines.values())


def may_see(desk: Desk, school_id: int | None) -> bool:
    """As the desk narrows rows: what belongs to no school belongs to all."""
    return not desk.school_ids or school_id is None or school_id in desk.school_ids


def settled_line(event_pk: int, kept: dict[str, Any], together: int) -> SettledLine:
    words = {name: kept[name] for name in ("key", "hand", "who", "who_url", "what", "verb", "school", "settled")}
    due = date.fromisoformat(kept["due"])
    url = row_link("story:undo", event_pk)
    along = kept["key"].startswith((*REVIEWED, *ALONG))
    return SettledLine(**words, due=due, moved=kept["moved"], undo_url=url, together=together, along=along)


def tally(lines: Sequence[SettledLine]) -> str:
    """ "31 settled, 4 moved"."""
    moved = sum(line.moved for line in lines)
    settled = len(lines) - moved
    parts = []
    if settled:
        parts.append(ngettext("%(count)d settled", "%(count)d settled", settled) % {"count": settled})
    if moved:
        parts.append(ngettext("%(count)d moved", "%(count)d moved", moved) % {"count": moved})
    return ", ".join(parts) or _("Nothing settled yet today.")
