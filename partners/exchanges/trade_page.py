"""What the page of a trade shows: both sides with their state, how far the work is, the papers, what is next."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.db.models import Sum
from django.utils.formats import date_format
from django.utils.text import get_text_list
from django.utils.translation import gettext as _

from partners.exchanges.delivery_forms import BackForm, DeliverForm
from partners.exchanges.due import GIVES, SOURCES, START
from partners.exchanges.models import Trade
from partners.exchanges.own_lines import at_home
from partners.exchanges.plain_items import Stock
from partners.exchanges.promotion import promoting
from partners.ground.due import DueLine
from partners.ground.models import Event
from partners.ground.months import add_months
from partners.program.desk import Desk
from partners.promises.models import Part, Promise, Settled, Side
from partners.school.clock import calendars
from partners.school.lateness import Lateness

AHEAD_MONTHS = 60
STEPS, CLASSES = 8, 2
CHANGES = 15


@dataclass(frozen=True)
class PartShown:
    """One promise of the trade: what, how it stands in words, and the form that delivers it."""

    promise: Promise
    state: str
    is_open: bool
    form: DeliverForm | None = None

    @property
    def kept(self) -> bool:
        return self.promise.settled_how in (Settled.CAME, Settled.THAT_WAS_ALL)

    @property
    def is_gift(self) -> bool:
        """What they give for it comes as a gift and is thanked for; plain items are not."""
        return self.promise.part == Part.GIVE


@dataclass(frozen=True)
class Made:
    """How far the classes are. `of` is the smaller promised number."""

    done: int
    spoiled: int
    of: int
    at_most: int | None
    delivered: int
    classes: int

    @property
    def so_far(self) -> int:
        """What was handed over was made, whether or not anybody counted it in the room."""
        return max(self.done, self.delivered)

    @property
    def left(self) -> int:
        return max(0, self.of - self.so_far)

    @property
    def ready(self) -> int:
        """Counted as done, and still here."""
        return max(0, self.done - self.delivered)


def context(desk: Desk, trade: Trade, bound: DeliverForm | None = None, back: BackForm | None = None) -> dict[str, Any]:
    """The context of exchanges/trade_detail.html, in a fixed number of queries; `bound` or `back` did not hold."""
    so_far, plain = made(trade), stock(trade)
    parts = [shown(desk, promise, bound, so_far.ready) for promise in trade.promises.all()]
    words = promoting(trade.what, trade.size, trade.names_on_work, trade.afterwards)
    return {
        "trade": trade,
        "theirs": [one for one in parts if one.promise.side == Side.THEM],
        "ours": [one for one in parts if one.promise.side == Side.US],
        "made": so_far,
        "making": trade.make.settled_on is None,
        "stock": plain,
        "back_form": back or (back_form(desk, trade) if plain and plain.left else None),
        "steps": steps(desk, trade) if desk.writes and not trade.called_off_on else [],
        "settled_on": trade.settled_on,
        "untold": untold(trade),
        "facts": facts(trade),
        "words": get_text_list([f"“{word}”" for word in words], _("and")),
        "memos": list(trade.letters.exclude(sheet=None).order_by("-day", "-pk")) if desk.writes else [],
        "changes": changes(desk, trade) if desk.writes else [],
        "form": bound or back,
    }


def untold(trade: Trade) -> bool:
    """Whether it is over, and what its project became is not said of it yet."""
    project, day = trade.project, trade.settled_on
    return project is not None and day is not None and not project.nothing_to_tell and not project.told_of(day)


def facts(trade: Trade) -> list[tuple[str, str]]:
    """What was agreed besides, in the words of the columns."""
    names = ("materials", "names_on_work", "afterwards", "if_late")
    told = [(str(Trade._meta.get_field(name).verbose_name), str(getattr(trade, name) or "")) for name in names]  # type: ignore[union-attr]
    return [(label.capitalize(), words) for label, words in told if words]


def shown(desk: Desk, promise: Promise, bound: DeliverForm | None = None, ready: int = 0) -> PartShown:
    form = None
    if desk.writes and promise.settled_on is None and promise.part != Part.GIVE:
        own = bound is not None and bound.promise.pk == promise.pk
        form = bound if own else deliver_form(desk, promise, ready)
    return PartShown(promise, state(promise, desk), promise.settled_on is None, form)


def back_form(desk: Desk, trade: Trade) -> BackForm | None:
    """For what is left once all is made; until then it goes back with what is handed over."""
    over = trade.make.settled_on is not None and trade.could_go_back
    return BackForm(desk=desk, most=trade.could_go_back) if desk.writes and over else None


def deliver_form(desk: Desk, promise: Promise, ready: int) -> DeliverForm:
    form = DeliverForm(desk=desk, promise=promise)
    # Nothing counted is no sign that nothing is done: not everybody counts in the room.
    if ready and promise.part == Part.MAKE:
        form.fields["quantity"].initial = min(ready, promise.missing or ready)
    return form


def state(promise: Promise, desk: Desk) -> str:
    """Promised, came, still to come, by when; of ours "delivered" instead of "came"."""
    ours = promise.side == Side.US and promise.part == Part.MAKE
    facts = {
        "came": f"{promise.delivered:,}", "of": f"{promise.quantity or 0:,}", "left": f"{promise.missing or 0:,}",
        "due": date_format(promise.due, "DATE_FORMAT"), "carrier": promise.carrier,
        "on": date_format(promise.settled_on, "DATE_FORMAT") if promise.settled_on else "",
    }  # fmt: skip
    if promise.settled_how:
        return _ended(promise, ours) % facts
    if promise.delivered:
        sentence = _("%(came)s of %(of)s delivered") if ours else _("%(came)s of %(of)s came")
        sentence += "; " + (_("the rest was due %(due)s") if promise.due < desk.day else _("the rest by %(due)s"))
        return sentence % facts
    if promise.due < desk.day:
        return _("was due %(due)s") % facts
    return (_("to deliver by %(due)s") if ours else _("still to come, by %(due)s")) % facts


def _ended(promise: Promise, ours: bool) -> str:
    if promise.settled_how == Settled.CAME:
        return _("all delivered, %(on)s") if ours else _("all came, %(on)s")
    if promise.settled_how == Settled.THAT_WAS_ALL:
        if promise.quantity is None:
            return _("done, %(on)s")
        return _("%(came)s delivered, that was all") if ours else _("%(came)s came, that was all")
    if promise.settled_how == Settled.SKIPPED:
        return _("left out, %(on)s")
    return _("it will not be, %(on)s") if promise.side == Side.US else _("never came, closed %(on)s")


def made(trade: Trade) -> Made:
    promise = trade.make
    rows = list(trade.classes.all())
    done, spoiled = sum(row.done for row in rows), sum(row.spoiled for row in rows)
    return Made(done, spoiled, promise.quantity or 0, promise.at_most, promise.delivered, len(rows))


def stock(trade: Trade) -> Stock | None:
    """Plain items in, used and left; None where the trade has none."""
    plain = trade.plain
    if plain is None:
        return None
    sums = trade.classes.aggregate(done=Sum("done"), spoiled=Sum("spoiled"))
    done, spoiled = max(sums["done"] or 0, trade.make.delivered), sums["spoiled"] or 0
    to_make = 0 if trade.make.settled_on else max(0, (trade.make.quantity or 0) - done)
    return Stock(plain.delivered, done, spoiled, to_make, trade.went_back)


def steps(desk: Desk, trade: Trade) -> list[DueLine]:
    """What is to be done about this trade, the earliest first: one query for each source; of the classes the next."""
    until = add_months(desk.day, AHEAD_MONTHS)
    lines: list[DueLine] = []
    for source in (*SOURCES, GIVES):
        own = source.of("pk" if source.model(desk) is Trade else "trade", trade.pk)
        lines += own.page(desk, until=until, limit=CLASSES if source.slug == START else STEPS)
    lateness = Lateness(calendars(desk.program), desk.day)
    return [at_home(line, trade, lateness) for line in sorted(lines, key=lambda line: line.due)[:STEPS]]


def changes(desk: Desk, trade: Trade) -> list[Event]:
    """The latest changes of the trade itself, the newest first."""
    events = desk.program.events.filter(about_model="trade", about_pk=trade.pk)
    return list(events.select_related("by", "undone_by").order_by("-pk")[:CHANGES])
