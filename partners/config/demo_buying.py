"""What the demo book bought: certificates, slips and receipts, and how far each is repaid."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from partners.config.demo_trades import Days
from partners.directory.models import Partner
from partners.funding.buying_actions import Bought, hand_in, record_receipt, repay, write_slip
from partners.funding.buying_models import Purchase
from partners.funding.certificate_actions import add_certificate
from partners.funding.state_rules import state_code
from partners.program.desk import Desk


def tell_buying(book: Days, desk: Desk, told: dict[str, Any]) -> None:
    for key, one in told["certificates"].items():
        values = {name: value for name, value in one.items() if not name.endswith("_in")}
        values |= {name.removesuffix("_in"): book.day(days) for name, days in one.items() if name.endswith("_in")}
        book.keyed[key] = add_certificate(desk=desk, **{**values, "school": book.keyed[values["school"]]})
    for purchase in told["purchases"]:
        buy(book, desk, dict(purchase))


def buy(book: Days, desk: Desk, told: dict[str, Any]) -> None:
    """One purchase with all that happened to it until now."""
    day, school, shop = book.day(-told.pop("ago")), book.keyed[told.pop("school")], told.pop("shop")
    lines = [Bought(**{**line, "need": book.keyed.get(line.get("need"))}) for line in told.pop("lines", [])]
    later = {name: told.pop(name, None) for name in ("handed_in_ago", "repaid_ago", "repaid_cents", "receipt_number")}
    partner = book.keyed.get(shop)
    named = {name: book.keyed.get(told.pop(name, "")) for name in ("certificate", "project")}
    if told.get("approved_by"):
        told["approved_on"] = day
    told["estimate_cents"] = told.pop("about")
    on_the_day = replace(desk, day=day)
    own = {"school": school, "partner": partner, "slip_on": day, "state": state_code(school.state), **named}
    vendor = partner.name if isinstance(partner, Partner) else shop
    purchase = write_slip(desk=on_the_day, vendor=vendor, **own, **told)
    if lines:
        rate = {"tax_rate": school.tax_rate, "tax_per_item": school.tax_per_item}
        number = later["receipt_number"] or ""
        record_receipt(desk=on_the_day, purchase=purchase, lines=lines, bought_on=day, receipt_number=number, **rate)
    come_back(book, desk, purchase, later)


def come_back(book: Days, desk: Desk, purchase: Purchase, later: dict[str, Any]) -> None:
    if later["handed_in_ago"]:
        day = book.day(-later["handed_in_ago"])
        hand_in(desk=replace(desk, day=day), purchase=purchase, day=day)
    if later["repaid_ago"]:
        day = book.day(-later["repaid_ago"])
        repay(desk=replace(desk, day=day), purchase=purchase, day=day, cents=later["repaid_cents"])
