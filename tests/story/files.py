"""Files as somebody sends them, and a book with something of every list."""

from __future__ import annotations

import io
from collections.abc import Iterable, Sequence
from datetime import date
from typing import Any

from openpyxl import Workbook

from partners.directory.actions import add_contact, add_partner
from partners.gifts.actions import Line, receive
from partners.gifts.thanks_actions import thanks_said
from partners.ground.csv_out import csv_lines
from partners.ground.table_in import read_table
from partners.program.desk import Desk
from partners.story.columns import guessed
from partners.story.import_actions import import_rows
from partners.story.kinds import KINDS
from partners.story.plan_file import plan_file
from partners.story.planned import Plan
from partners.visits.actions import record_visit
from tests import people


def csv_file(*rows: Sequence[Any]) -> bytes:
    return "".join(csv_lines(rows)).encode()


def xlsx_file(*rows: Sequence[Any], title: str = "Sheet1") -> bytes:
    """As openpyxl writes it."""
    book = Workbook()
    sheet = book.active
    sheet.title = title
    for row in rows:
        sheet.append(list(row))
    file = io.BytesIO()
    book.save(file)
    return file.getvalue()


def planned(desk: Desk, kind: str, content: bytes) -> Plan:
    """What becomes of a file whose columns are taken as they are guessed."""
    columns = KINDS[kind].columns
    table = read_table(content, lambda head: len(guessed(head, columns)), KINDS[kind].title)
    chosen = guessed(table.rows[0], columns)
    return plan_file(desk=desk, kind=kind, rows=table.rows, chosen=chosen, head=True)


def saved(desk: Desk, kind: str, content: bytes) -> Plan:
    plan = planned(desk, kind, content)
    assert plan.is_right, [*plan.wrong, *complaints(plan)]
    import_rows(desk=desk, plan=plan)
    return plan


def complaints(plan: Plan) -> list[tuple[int, str, str]]:
    return [(row.line.number, wrong.cell, str(wrong.error)) for row in plan.rows for wrong in row.line.wrong]


def listed(rows: Iterable[Sequence[Any]]) -> list[list[str]]:
    return [["" if cell is None else str(cell) for cell in row] for row in rows]


def fill(desk: Desk) -> None:
    """Accents, a name written from right to left, formulas, line breaks, a branch, gifts of several things."""
    millrace = people.make_school(desk.program, cycle_length=6)
    north = people.make_school(desk.program, "North Ridge Elementary")
    for school, label, days in ((millrace, "3-A", [1, 3, 4]), (millrace, "K-B", []), (north, "=4", [0, 2])):
        desk.program.classes.create(
            program=desk.program, school=school, label=label, grade=-1, students=21, meets_on=days
        )
    garden = add_partner(
        desk=desk, name="Riverbend Garden Center", phone="+12015550123;ext=4", street="12 Mill St", city="Alder Falls",
        state="MN", postal_code="01234", lead_days=30, kind="business", business_kind="garden", may_name="yes",
        may_name_asked_on=date(2026, 3, 1), notes="Ask for Dana.\r\n\r\n=1+1 is no formula", branch=True,
        how_often="calendar_year", fiscal_year_starts=7, counted_per="district", rest_until=date(2027, 1, 1),
    )  # fmt: skip
    branch = add_partner(desk=desk, name="Riverbend Garden Center", street="9 Canal Rd", postal_code="01299")
    odd = add_partner(desk=desk, name="@Café مكتبة “Zoë”", phone="+442079460018", kind="library", never_ask=True)
    dana = add_contact(
        desk=desk, partner=garden, name="Dana Whitlock", role="owner", decides=True, phone="+12015550144"
    )
    add_contact(desk=desk, partner=garden, name="Ben Ode", left_on=date(2026, 2, 2))
    add_contact(desk=desk, partner=branch, name="Dana Whitlock", email="dana@example.org")
    things = [Line(description="terracotta pots", quantity=60, unit="pots"), Line(description="+soil", risk="unknown")]
    gift = receive(desk=desk, source="partner", partner=garden, day=date(2026, 9, 1), form="goods", school=millrace,
                   lines=things, purpose="planters", place="room 4", is_clean=False)  # fmt: skip
    thanks_said(desk=desk, thanks=gift.thanks, day=date(2026, 9, 3), how="letter")
    receive(desk=desk, source="partner", partner=odd, day=date(2026, 9, 2), form="money", amount_cents=12_550)
    receive(desk=desk, source="families", day=date(2026, 9, 2), form="goods", lines=[Line(description="yarn")])
    receive(desk=desk, source="families", day=date(2026, 9, 2), form="goods", lines=[Line(description="yarn")])
    receive(desk=desk, source="unknown", day=date(2026, 9, 4), form="loan", return_on=date(2026, 12, 1),
            lines=[Line(description="a press")])  # fmt: skip
    record_visit(desk=desk, partner=branch, happened="maybe", day=date(2026, 9, 5), note="-- call\nback", how="phone")
    record_visit(desk=desk, partner=garden, happened="yes", day=date(2026, 9, 5), contact=dana, sheet_left=True)
