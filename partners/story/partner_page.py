"""What a partner's page shows besides the story: what is next, both sides' promises, and whether one may ask."""

from __future__ import annotations

from dataclasses import dataclass, replace
from functools import cache

from django.db.models import Model
from django.utils.formats import date_format, time_format
from django.utils.text import get_text_list
from django.utils.translation import gettext as _
from django.utils.translation import ngettext

from partners.agenda.lines import BUT_QUIET, due_lines
from partners.agenda.shown import Shown as ShownLine
from partners.agenda.shown import show as show_lines
from partners.asking.gather import gather
from partners.asking.quiet import HINTS, Busy
from partners.asking.shown import Shown as ShownVerdict
from partners.asking.shown import show as show_verdict
from partners.asking.words import hint
from partners.directory.addresses import Address, printed_lines
from partners.directory.models import Partner
from partners.gifts.due import THANKS
from partners.gifts.one_letter import same_letter
from partners.ground.due import DueLine, DueSource
from partners.ground.months import add_months
from partners.program.desk import Desk
from partners.promises.models import Promise, Side

NEXT_SHOWN = 30
PROMISES_SHOWN = 30
# Nothing is promised for later than this; a due date is always counted from something that happened.
AHEAD_MONTHS = 120


@dataclass(frozen=True)
class Promised:
    """A promise as `_sides.html` shows it."""

    words: str
    state: str
    kept: bool = False


@dataclass(frozen=True)
class Answer:
    """A verdict, and for which schools where it is not for all of them."""

    school: str
    verdict: ShownVerdict


def next_steps(desk: Desk, partner: Partner) -> list[ShownLine]:
    """What is to be done about the partner, the earliest first: one query for each source of due lines."""
    sources = [narrowed for source in BUT_QUIET if (narrowed := about(source, desk, partner)) is not None]
    until = add_months(desk.day, AHEAD_MONTHS)
    lines = due_lines(desk, until=until, limit=NEXT_SHOWN, sources=sources)
    return show_lines(desk, one_line_a_letter(desk, lines))


def one_line_a_letter(desk: Desk, lines: list[DueLine]) -> list[DueLine]:
    """What one letter thanks for is one thing to do: where its first line stands, named with all of it."""
    thanks = {line.pk: line for line in lines if line.source == THANKS}
    if len(thanks) < 2:
        return lines
    named: dict[str, str] = {}
    dropped: set[str] = set()
    for first, *others in same_letter(desk.thanks.filter(pk__in=thanks).select_related("gift").order_by("due", "pk")):
        things = dict.fromkeys(thanks[pk].what for pk in (first, *others))
        named[thanks[first].key] = get_text_list([*things], _("and"))
        dropped |= {thanks[pk].key for pk in others}
    return [replace(line, what=named.get(line.key, line.what)) for line in lines if line.key not in dropped]


def about(source: DueSource, desk: Desk, partner: Partner) -> DueSource | None:
    """The source narrowed to one partner; None where its rows belong to no partner."""
    path = source.partner or ("partner" if leads_to_partner(source.model(desk)) else "")
    return source.of(path, partner.pk) if path else None


@cache
def leads_to_partner(model: type[Model]) -> bool:
    return any(field.name == "partner" for field in model._meta.concrete_fields)


def promises(desk: Desk, partner: Partner) -> dict[str, list[Promised]]:
    """What each side still has to do, the earliest first."""
    sides: dict[str, list[Promised]] = {Side.THEM: [], Side.US: []}
    for promise in desk.promises.open().filter(partner=partner)[:PROMISES_SHOWN]:
        sides[promise.side].append(Promised(promise.told(amounts=desk.reads_amounts), _state(promise, desk)))
    return sides


def _state(promise: Promise, desk: Desk) -> str:
    facts = {"day": date_format(promise.due, "DATE_FORMAT"), "delivered": promise.delivered}
    if promise.delivered and promise.due < desk.day:
        return _("was due %(day)s, %(delivered)d so far") % facts
    if promise.due < desk.day:
        return _("was due %(day)s") % facts
    if promise.delivered:
        return _("by %(day)s, %(delivered)d so far") % facts
    return _("by %(day)s") % facts


def answers(desk: Desk, partner: Partner) -> list[Answer]:
    """May I ask now, for nothing in particular? One answer, or several, each for the schools that it holds for."""
    known = gather(desk, [partner])
    schools: list[tuple[str, int | None]] = [(school.name, school.pk) for school in known.schools] or [("", None)]
    found: dict[ShownVerdict, list[str]] = {}
    for name, pk in schools:
        shown = show_verdict(known.verdict(partner, desk.day, None, pk), partner.name)
        found.setdefault(shown, []).append(name)
    if len(found) == 1:
        return [Answer("", shown)]
    return [Answer(get_text_list(names, _("and")), verdict) for verdict, names in found.items()]


def address_lines(partner: Partner) -> tuple[str, ...]:
    """As on an envelope."""
    return printed_lines(
        Address(street=partner.street, city=partner.city, state=partner.state, postcode=partner.postal_code)
    )


def lead_words(partner: Partner) -> str:
    """How long ahead they want to be asked, in weeks where it is whole weeks."""
    days = partner.lead_days
    if days is None:
        return ""
    if days % 7 == 0:
        return ngettext("Ask %(weeks)d week ahead.", "Ask %(weeks)d weeks ahead.", days // 7) % {"weeks": days // 7}
    return ngettext("Ask %(days)d day ahead.", "Ask %(days)d days ahead.", days) % {"days": days}


def web_link(partner: Partner) -> str:
    """The address behind what was typed as web; "" for anything a browser should not follow."""
    typed = partner.web.strip()
    if "://" not in typed and "." in typed and ":" not in typed.split("/")[0]:
        return f"https://{typed}"
    return typed if typed.lower().startswith(("http://", "https://")) else ""


def busy_times(desk: Desk, partner: Partner) -> list[str]:
    """When not to go to such a place today. Where they said what suits them, that stands instead."""
    if partner.best_time:
        return []
    return [_busy(busy) for busy in HINTS.get(partner.business_kind, ()) if busy.on(desk.day)]


def _busy(busy: Busy) -> str:
    if busy.start is None:
        return _("today: %(why)s") % {"why": hint(busy.code)}
    facts = {"start": time_format(busy.start, "TIME_FORMAT"), "why": hint(busy.code)}
    if busy.end is None:
        return _("from %(start)s: %(why)s") % facts
    return _("%(start)s to %(end)s: %(why)s") % {**facts, "end": time_format(busy.end, "TIME_FORMAT")}
