"""Trades of a large invented program for measuring, as the verbs would leave them."""

from __future__ import annotations

from datetime import date, timedelta
from typing import Any

from django.core.management.color import no_style
from django.db import connection

from partners.config.large_filler import Filler
from partners.exchanges.models import Trade, TradeClass, TradeTally
from partners.program.models import Program
from partners.promises.models import Delivery, Part, Promise, Settled, Side
from partners.school.models import SchoolClass

TRADE_EVERY = 100
GOING_ON_EVERY = 5
CLASSES = 3
SHARE = 60
PARTS = (Part.MAKE, Part.PLAIN, Part.GIVE)


def fill_trades(program: Program, follow_ups: int, day: date) -> None:
    """One trade for every hundred follow-ups, with three promises; one in five is still going on."""
    TradeFiller(program, follow_ups, day).fill_trades()
    for sql in connection.ops.sequence_reset_sql(
        no_style(), [SchoolClass, Trade, Promise, Delivery, TradeClass, TradeTally]
    ):
        connection.cursor().execute(sql)


class TradeFiller(Filler):
    """Trade number n goes on where n is a multiple of five; the others are settled, made by three classes."""

    def fill_trades(self) -> None:
        trades = range(0, self.count, TRADE_EVERY)
        self.partner_from = self.program.partners.order_by("pk").values_list("pk", flat=True)[0]
        school = self.program.schools.values_list("pk", flat=True)[0]
        label = lambda n: {"school_id": school, "label": f"3-{n}", "grade": 3, "students": 24}  # noqa: E731
        self.class_from = self.write(SchoolClass, range(CLASSES), label)
        self.trade_from = self.write(Trade, trades, self.trade)
        self.promise_from = self.write(Promise, range(len(trades) * len(PARTS)), self.part)
        self.settled = [n for n in range(len(trades)) if n % GOING_ON_EVERY]
        self.write(Delivery, range(len(self.settled)), self.delivery)
        worked = range(len(self.settled) * CLASSES)
        self.row_from = self.write(TradeClass, worked, self.trade_class)
        self.write(TradeTally, worked, self.tally)

    def trade(self, n: int) -> dict[str, Any]:
        agreed = self.day_of(n)
        return {
            **self.who(n), "what": "decorated paper bags", "agreed_on": agreed, "papers_due": agreed,
            "approval_settled": True, "memo_signed_on": agreed,
        }  # fmt: skip

    def part(self, n: int) -> dict[str, Any]:
        trade, part = n // len(PARTS), PARTS[n % len(PARTS)]
        made_on = self.day_of(trade * TRADE_EVERY)
        own: dict[str, Any] = {
            **self.who(trade * TRADE_EVERY), "trade_id": self.trade_from + trade, "part": part, "what": "paper bags",
            "side": Side.US if part == Part.MAKE else Side.THEM, "quantity": SHARE * CLASSES, "made_on": made_on,
            "due": made_on + timedelta(days=60),
        }  # fmt: skip
        if trade % GOING_ON_EVERY == 0:
            return own
        delivered = {"delivered": SHARE * CLASSES, "settled_how": Settled.CAME} if part == Part.MAKE else {}
        return {**own, "settled_on": own["due"], "settled_how": Settled.THAT_WAS_ALL, **delivered}

    def delivery(self, n: int) -> dict[str, Any]:
        trade = self.settled[n]
        day = self.day_of(trade * TRADE_EVERY) + timedelta(days=60)
        return {"promise_id": self.promise_from + trade * len(PARTS), "day": day, "quantity": SHARE * CLASSES}

    def worked_on(self, n: int) -> date:
        return self.day_of(self.settled[n // CLASSES] * TRADE_EVERY) + timedelta(days=30)

    def trade_class(self, n: int) -> dict[str, Any]:
        own = {
            "trade_id": self.trade_from + self.settled[n // CLASSES],
            "school_class_id": self.class_from + n % CLASSES,
        }
        return {**own, "share": SHARE, "done": SHARE, "started_on": self.worked_on(n)}

    def tally(self, n: int) -> dict[str, Any]:
        return {"trade_class_id": self.row_from + n, "day": self.worked_on(n), "done": SHARE}
