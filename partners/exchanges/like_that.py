"""A new trade that begins like an earlier one: all but its days, which both sides agree on anew."""

from __future__ import annotations

from typing import Any

from django.http import QueryDict
from django.utils.formats import date_format
from django.utils.translation import gettext as _

from partners.exchanges.forms import AgreeForm, TradeForm, promoting_words
from partners.exchanges.give_forms import give_forms
from partners.exchanges.models import Trade
from partners.exchanges.new_trade import first_values, of_trade, whole
from partners.ground.traces import REMOVED
from partners.program.desk import Desk
from partners.promises.models import Part

AS_BEFORE = (
    "what", "size", "school", "materials", "spare_percent", "minutes_per_item", "finishing_days", "lesson_limit",
    "minimum", "names_on_work", "afterwards", "if_late",
)  # fmt: skip
NEW_DAYS = ("due", "plain_due")


def asked_like(desk: Desk, address: QueryDict) -> Trade | None:
    """The trade of `?like=`, where the desk holds it."""
    number = whole(address.get("like", ""))
    rows = desk.trades.select_related("partner", "school", "project").prefetch_related("promises")
    found: Trade | None = rows.filter(pk=number).first() if number else None
    return found


def agree_form(desk: Desk, data: Any, address: QueryDict, like: Trade | None) -> AgreeForm:
    """With whom and at which visit the address says, else as before."""
    initial = first_values(desk, address)
    if like is None:
        return AgreeForm(data, desk=desk, initial=initial)
    with_whom = "" if like.partner.name == REMOVED else like.partner_id
    initial |= as_before(desk, like) | {"partner": initial["partner"] or with_whom}
    form = AgreeForm(data, desk=desk, initial=initial, gives=give_forms(desk, data, gives_before(like)))
    form.words = form.words or promoting_words(initial)
    say_last_days(form, like)
    return form


def as_before(desk: Desk, trade: Trade) -> dict[str, Any]:
    """What the form of agreeing shows at first. A project that is over takes no new trade."""
    values = {name: getattr(trade, name) for name in AS_BEFORE} | of_trade(trade)
    project = trade.project
    over = project is not None and project.ends_on is not None and project.ends_on < desk.day
    values["project"] = None if over else project
    return {name: value for name, value in values.items() if name not in NEW_DAYS}


def gives_before(trade: Trade) -> list[dict[str, Any]]:
    return [{name: getattr(one, name) for name in ("what", "quantity", "carrier")} for one in trade.side(Part.GIVE)]


def say_last_days(form: TradeForm, trade: Trade) -> None:
    """Beside each day that is agreed on anew stands what it was."""
    due = trade.make.due
    fields = [(form, "due", due), (form, "display_from", trade.display_from)]
    fields.append((form, "display_until", trade.display_until))
    given: list[Any] = list(zip(form.gives.forms, trade.side(Part.GIVE), strict=False))
    fields += [(line, "due", one.due) for line, one in given if one.due != due]
    for one, name, day in fields:
        if day is not None:
            field = one.fields[name]
            last = _("Last time: %(day)s.") % {"day": date_format(day, "DATE_FORMAT")}
            field.help_text = f"{field.help_text} {last}".strip()


def last_with(desk: Desk, partner: Any) -> Trade | None:
    """The latest trade with the partner that is settled: the next one may be like it."""
    number = whole(str(partner))
    found: Trade | None = desk.trades.settled().filter(partner=number).first() if number else None
    return found
