"""The rows behind each number of the Year page: which they are, and what a list says of each.

An address names the kind (`what`), the year, and what narrows it further; a number and its rows ask the same question.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date
from typing import Any

from django.db.models import Q, QuerySet
from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from partners.directory.models import BusinessKind, PartnerKind
from partners.funding.grant_models import GrantState
from partners.gifts.models import ThanksFor
from partners.ground.due import Words
from partners.ground.tags import money
from partners.program.desk import Desk
from partners.program.models import Opened
from partners.promises.models import Settled, Side
from partners.year.figures import NO_ANSWER_YET, fate
from partners.year.record import named_units, out_of_pocket, own_asks, strict_gifts, trade_parts
from partners.year.span import Span, month_within

Given = Mapping[str, str]
TEACHERS_ONLY = ""


@dataclass(frozen=True)
class Line:
    """One row in words; `url` leads to its page, where it has one."""

    day: date | None
    what: str
    url: str
    partner: Any
    state: str


@dataclass(frozen=True)
class Rows:
    """One kind of rows. `opened` is what a guest needs to read them; TEACHERS_ONLY where no guest ever does.

    `edits`: the page of such a row is there to change it, and no guest is led to it.
    `named`: such a row is a name alone, without a day or a partner.
    """

    title: Words
    opened: str
    found: Callable[[Desk, Span, Given], QuerySet[Any]]
    line: Callable[[Any], Line]
    edits: bool = False
    named: bool = False


def days(span: Span, given: Given, field: str) -> dict[str, date]:
    """The year, or one month of it."""
    month = next((one for one in span.months if one.strftime("%Y-%m") == given.get("month")), None)
    return month_within(month, field) if month else span.within(field)


def asks(desk: Desk, span: Span, given: Given) -> QuerySet[Any]:
    found: QuerySet[Any] = desk.asks.filter(**days(span, given, "asked_on"))
    if kind := given.get("kind"):
        own = own_asks(desk).exclude(answer=NO_ANSWER_YET)
        of_kind = Q(partner__business_kind=kind) | Q(partner__kind=kind, partner__business_kind="")
        found = found.filter(of_kind, pk__in=own.order_by().values("pk"))
    return found.select_related("partner").order_by("asked_on", "pk")


def gifts(desk: Desk, span: Span, given: Given) -> QuerySet[Any]:
    found = desk.gifts.filter(**days(span, given, "day"))
    if given.get("part") == "trade":
        found = found.filter(trade=True)
    elif given.get("part") == "gift":
        found = found.filter(trade=False)
    if form := given.get("form"):
        found = found.filter(form=form)
    if source := given.get("source"):
        found = found.filter(source=source)
    ordered: QuerySet[Any] = found.select_related("partner").prefetch_related("lines").order_by("day", "pk")
    return ordered


def thanks(desk: Desk, span: Span, given: Given) -> QuerySet[Any]:
    """Those that arose in the year; of a month, those that were said in it."""
    field = "done_on" if given.get("month") else "base"
    found = desk.thanks.filter(**days(span, given, field))
    if given.get("said"):
        found = found.filter(done_on__isnull=given["said"] == "no")
    ordered: QuerySet[Any] = found.select_related("partner", "gift", "promise").order_by(field, "pk")
    return ordered


def promises(desk: Desk, span: Span, given: Given) -> QuerySet[Any]:
    found = desk.promises.filter(**span.within("due")).exclude(settled_how=Settled.SKIPPED)
    if given.get("side") in Side.values:
        found = found.filter(side=given["side"])
    if thing := given.get("thing"):
        units = [given["unit"]] if given.get("unit") else named_units(thing)
        found = found.filter(what=thing, unit__in=units, quantity__gt=0)
    ended = {
        "kept": Q(settled_how__in=[Settled.CAME, Settled.THAT_WAS_ALL]),
        "to_come": Q(settled_on=None, due__gte=desk.day),
        "past": Q(settled_on=None, due__lt=desk.day),
        "never": Q(settled_how=Settled.NEVER_CAME),
    }
    found = found.filter(ended.get(given.get("end", ""), Q()))
    ordered: QuerySet[Any] = found.select_related("partner").order_by("due", "pk")
    return ordered


def trades(desk: Desk, span: Span, given: Given) -> QuerySet[Any]:
    found = desk.trades.going_on().filter(**span.within("agreed_on"))
    if wanted := given.get("fate"):
        parts: dict[int, list[tuple[str, str]]] = defaultdict(list)
        for trade, side, how in trade_parts(desk, span):
            parts[trade].append((side, how))
        found = found.filter(pk__in=[trade for trade, ended in parts.items() if fate(ended) == wanted])
    ordered: QuerySet[Any] = found.select_related("partner").prefetch_related("promises").order_by("agreed_on", "pk")
    return ordered


def grants(desk: Desk, span: Span, given: Given) -> QuerySet[Any]:
    state = given.get("state")
    if state in (GrantState.AWARDED, GrantState.REFUSED):
        found = desk.grants.filter(state=state, **span.within("answered_on"))
        ordered: QuerySet[Any] = found.select_related("partner").order_by("asked_on", "pk")
        return ordered
    asked: QuerySet[Any] = desk.grants.filter(**span.within("asked_on"))
    return asked.select_related("partner").order_by("asked_on", "pk")


def gave_before(desk: Desk, span: Span, given: Given) -> QuerySet[Any]:
    """Partners that gave in the year before."""
    found: QuerySet[Any] = desk.partners.filter(pk__in=givers_in(desk, span.before)).order_by("name_key", "pk")
    return found


def gave_again(desk: Desk, span: Span, given: Given) -> QuerySet[Any]:
    return gave_before(desk, span, given).filter(pk__in=givers_in(desk, span))


def not_again(desk: Desk, span: Span, given: Given) -> QuerySet[Any]:
    return gave_before(desk, span, given).exclude(pk__in=givers_in(desk, span))


def givers_in(desk: Desk, span: Span) -> QuerySet[Any]:
    return strict_gifts(desk).from_partners().order_by().filter(**span.within("day")).values("partner")


def projects(desk: Desk, span: Span, given: Given) -> QuerySet[Any]:
    found: QuerySet[Any] = desk.projects.filter(**span.within("became_on")).order_by("became_on", "pk")
    return found


def classes(desk: Desk, span: Span, given: Given) -> QuerySet[Any]:
    """As they are today, whatever the year."""
    rows = desk.classes.with_students().select_related("school")
    found: QuerySet[Any] = rows.order_by("school__name", "grade", "label", "pk")
    return found


def class_line(one: Any) -> Line:
    students = ngettext("%(count)d student", "%(count)d students", one.students) % {"count": one.students}
    state = f"{students}, {one.school}"
    return Line(None, one.label, reverse("school:class-edit", args=[one.pk]), None, state)


def ask_line(ask: Any) -> Line:
    return Line(ask.asked_on, ask.what, "", ask.partner, str(ask.get_answer_display()))


def gift_line(gift: Any) -> Line:
    state = _("part of a trade") if gift.trade else str(gift.get_form_display())
    return Line(gift.day, gift.what, gift.get_absolute_url(), gift.partner or gift.giver, state)


def thanks_line(owed: Any) -> Line:
    about = owed.gift if owed.reason == ThanksFor.GIFT else owed.promise
    url = about.get_absolute_url() if about else ""
    return Line(owed.base, str(owed.get_reason_display()), url, owed.partner, said_words(owed.base, owed.done_on))


def said_words(base: date, done: date | None) -> str:
    if done is None:
        return _("owed")
    days = max(0, (done - base).days)
    return (
        ngettext("said after %(days)d day", "said after %(days)d days", days) % {"days": days}
        if days
        else _("said the same day")
    )


def promise_line(promise: Any) -> Line:
    state = promise.get_settled_how_display() if promise.settled_how else _("open")
    if promise.delivered:
        state = _("%(state)s, %(count)s delivered") % {"state": state, "count": f"{promise.delivered:,}"}
    return Line(promise.due, promise.words, promise.get_absolute_url(), promise.partner, str(state))


def trade_line(trade: Any) -> Line:
    ended = fate((one.side, one.settled_how) for one in trade.promises.all())
    return Line(trade.agreed_on, trade.what, trade.get_absolute_url(), trade.partner, str(FATES[ended]))


def grant_line(grant: Any) -> Line:
    state = str(grant.get_state_display())
    if grant.awarded_cents is not None:
        money_words = {"amount": money(grant.awarded_cents), "left": money(grant.left_cents)}
        back = grant.rest_back_on and grant.left_cents > 0
        words = _("%(amount)s awarded, %(left)s went back") if back else _("%(amount)s awarded, %(left)s left")
        state = words % money_words
    return Line(grant.asked_on or grant.answered_on, grant.title, grant.get_absolute_url(), grant.partner, state)


def purchase_line(purchase: Any) -> Line:
    return Line(
        purchase.bought_on, purchase.what, purchase.get_absolute_url(), purchase.vendor, money(purchase.total_cents)
    )


def partner_line(partner: Any) -> Line:
    kind = BusinessKind(partner.business_kind).label if partner.business_kind else PartnerKind(partner.kind).label
    return Line(None, partner.name, partner.get_absolute_url(), None, str(kind))


def project_line(project: Any) -> Line:
    return Line(project.became_on, project.title, project.get_absolute_url(), None, project.what_it_became)


FATES: dict[str, Words] = {
    "kept": gettext_lazy("kept by both sides"),
    "ours": gettext_lazy("kept by us alone"),
    "theirs": gettext_lazy("kept by them alone"),
    "open": gettext_lazy("going on"),
    "broken": gettext_lazy("came from neither side"),
}

ROWS: dict[str, Rows] = {
    "classes": Rows(gettext_lazy("Classes"), Opened.YEAR, classes, class_line, edits=True, named=True),
    "asks": Rows(gettext_lazy("Asks"), Opened.PARTNERS, asks, ask_line),
    "gifts": Rows(gettext_lazy("Gifts"), Opened.GIFTS, gifts, gift_line),
    "thanks": Rows(gettext_lazy("Thanks"), Opened.GIFTS, thanks, thanks_line),
    "promises": Rows(gettext_lazy("Promises"), Opened.GIFTS, promises, promise_line),
    "trades": Rows(gettext_lazy("Trades"), Opened.TRADES, trades, trade_line),
    "grants": Rows(gettext_lazy("Grants"), Opened.MONEY, grants, grant_line),
    "pocket": Rows(
        gettext_lazy("Out of your own pocket, not repaid"),
        TEACHERS_ONLY,
        lambda desk, span, given: out_of_pocket(desk, span).order_by("bought_on", "pk"),
        purchase_line,
    ),
    "givers": Rows(gettext_lazy("Gave the year before"), Opened.PARTNERS, gave_before, partner_line, named=True),
    "again": Rows(gettext_lazy("Gave again"), Opened.PARTNERS, gave_again, partner_line, named=True),
    "not-again": Rows(
        gettext_lazy("Gave the year before, and not again"), Opened.PARTNERS, not_again, partner_line, named=True
    ),
    "projects": Rows(gettext_lazy("What projects became"), Opened.PROJECTS, projects, project_line),
}
