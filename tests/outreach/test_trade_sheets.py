"""The sheets of a trade beside its memo: one for each class, one for the wall, and the receipt to sign."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from outreach.documents import class_plan, trade_receipt, wall_plan
from outreach.gathering import classes, trade
from outreach.gathering.trade import gather_receipt
from partners.exchanges.count_actions import deliver_part
from partners.program.desk import Desk
from partners.promises.models import Side
from tests.exchanges.trades import make_trade
from tests.outreach.sheets import Printed
from tests.outreach.trades import CLASS, LONG_PLAN, LONG_RECEIPT, PLAN, RECEIPT, many_classes
from tests.people import make_school

BOTH_PAPERS = pytest.mark.parametrize("paper", ["letter", "a4"])
# Pages of one height more, drawn by the same code.
A4_NIGHTLY = pytest.mark.parametrize("paper", ["letter", pytest.param("a4", marks=pytest.mark.nightly)])
ALL = [(class_plan, PLAN), (class_plan, LONG_PLAN), (wall_plan, LONG_PLAN), (trade_receipt, LONG_RECEIPT)]
LONG = "<b>Müller</b> & Søn: {0}, đặng thị hương"


def with_one(**values: Any) -> class_plan.Facts:
    return replace(PLAN, classes=(replace(CLASS, **values),))


@pytest.mark.parametrize(
    "said",
    [
        "3-Birch",
        "Millrace Elementary, grade 3",
        "24 decorated seed packets (4 by 5 inches) for Riverbend Garden Center",
        "Start by: Tuesday, March 9, 2027",
        "3: Tue, Mar 9; Tue, Mar 16; Tue, Mar 23",
        "22 students",
        "20 for one",
        "27, spares included",
        "Pencil, watercolor, waterproof pen.",
        "School and grade.",
        "4 done, 1 spoiled",
        "All ready by April 16, 2027",
    ],
)
def test_a_class_reads_all_it_needs_on_its_page(said):
    assert said in Printed(class_plan.draw(PLAN)).pages[0]


def boxes(facts: class_plan.Facts) -> int:
    content = Printed(class_plan.draw(facts)).reader.pages[0].get_contents()
    assert content is not None
    return content.get_data().count(b"0.90 w 0 G")


def test_there_is_a_box_for_each_item_that_is_left_and_for_the_spares():
    # The page's own frame is one point thick and does not count.
    assert boxes(with_one(share=24, done=4, plain=27)) == 20 + 5
    assert boxes(with_one(share=100, done=0, plain=110)) == 100 + 10
    assert boxes(with_one(share=24, done=24)) == 0


def test_of_very_many_each_lesson_has_a_line_instead():
    told = Printed(class_plan.draw(with_one(share=2500, done=0))).pages[0]
    assert "Day Done Spoiled" in told
    assert boxes(with_one(share=2500, done=0)) == 0


@pytest.mark.parametrize(
    ("values", "said"),
    [({"fits": False, "lessons": ()}, "Start in the next lesson"), ({"done": 24}, "All done.")],
)
def test_a_class_that_does_not_fit_or_is_done_is_told_so(values, said):
    told = Printed(class_plan.draw(with_one(**values))).text
    assert said in told
    assert "Start by" not in told


def test_gaps_of_the_plan():
    assert [gap.code for gap in class_plan.gaps(PLAN)] == ["not-all"]
    assert [gap.code for gap in class_plan.gaps(replace(PLAN, classes=(), materials=""))] == [
        "no-classes",
        "no-materials",
    ]


@A4_NIGHTLY
def test_48_classes_have_a_page_each_and_a_bookmark(paper):
    printed = Printed(class_plan.draw(replace(PLAN, paper=paper, classes=many_classes())))
    assert len(printed.pages) == len(printed.reader.outline) == 48
    assert "<i>47</i>" in printed.pages[47]


@A4_NIGHTLY
@pytest.mark.parametrize(("count", "pages"), [(0, 1), (1, 1), (26, 1), (48, 2)])
def test_the_wall_holds_26_classes_on_one_page_and_48_on_two(paper, count, pages):
    facts = replace(PLAN, paper=paper, classes=many_classes(count))
    printed = Printed(wall_plan.draw(facts))
    assert len(printed.pages) == pages
    assert all(printed.text.count(f"<i>{number}</i>") == 1 for number in range(count))


def test_each_page_of_the_wall_has_its_weeks_and_its_school():
    first, second = Printed(wall_plan.draw(replace(PLAN, classes=many_classes()))).pages
    assert "Class Make Feb 22 Mar 1" in first
    assert "Class Make Feb 22 Mar 1" in second
    assert "North Ridge Elementary" in first
    assert "North Ridge Elementary" in second


def test_weeks_go_from_the_first_start_through_the_due_day():
    assert wall_plan.columns(PLAN)[0] == date(2027, 3, 8)
    assert wall_plan.columns(PLAN)[-1] == date(2027, 4, 12)
    assert len(wall_plan.columns(PLAN)) == 6


@pytest.mark.parametrize("weeks", [1, 2, 10, 11, 20, 21, 45, 60])
def test_a_long_time_never_takes_more_columns_than_there_is_room_for(weeks):
    days = tuple(date.fromordinal(PLAN.due.toordinal() - 7 * week) for week in reversed(range(weeks)))
    starts = wall_plan.columns(with_one(lessons=days))
    assert len(starts) <= wall_plan.MOST_COLUMNS
    assert starts[0] <= days[0]
    assert all(day.weekday() == 0 for day in starts)


@BOTH_PAPERS
@pytest.mark.parametrize(("module", "facts"), ALL)
def test_nothing_reaches_over_the_margins(module, facts, paper):
    printed = Printed(module.draw(replace(facts, paper=paper)))
    for number, page in enumerate(printed.reader.pages):
        wide, high = float(page.mediabox.width) / 72, float(page.mediabox.height) / 72
        for sign in printed.signs(number):
            assert sign.left > 0.55
            assert sign.right < wide - 0.55
            assert sign.top > 0.4
            assert sign.bottom < high - 0.3


@pytest.mark.parametrize(("module", "facts"), ALL)
@pytest.mark.parametrize("language", ["en", "es"])
def test_names_are_printed_as_typed(module, facts, language):
    told = Printed(module.draw(replace(facts, language=language))).text
    assert facts is PLAN or "Müller</b>" in told
    assert "🎨" not in told
    assert all(word not in told for word in ("None", "{count}", "{name}", "{day}"))


@pytest.mark.parametrize("language", ["en", "es"])
def test_the_receipt_says_it_twice_on_one_page_and_states_no_value(language):
    printed = Printed(trade_receipt.draw(replace(RECEIPT, language=language)))
    assert len(printed.pages) == 1
    for words in ("200 plain seed packets", "330 plain seed packets", "130", "Dana Whitlock"):
        assert printed.text.count(words) == 2
    assert "$" not in printed.text


def test_the_longest_receipt_has_a_half_on_each_page():
    pages = Printed(trade_receipt.draw(LONG_RECEIPT)).pages
    assert [LONG in page and "Date" in page for page in pages] == [True, True]


@pytest.mark.parametrize(
    ("change", "code"),
    [({"carrier": ""}, "no-carrier"), ({"item": replace(RECEIPT.item, quantity=None)}, "no-quantity")],
)
def test_gaps_of_the_receipt(change, code):
    assert trade_receipt.gaps(RECEIPT) == ()
    assert [gap.code for gap in trade_receipt.gaps(replace(RECEIPT, **change))] == [code]


@pytest.mark.django_db
def test_the_receipt_counts_what_came_up_to_this_delivery(desk: Desk):
    plain = make_trade(desk).plain
    assert plain is not None
    parts = [deliver_part(desk=desk, promise=plain, day=desk.day, quantity=count) for count in (100, 50, 25)]
    told = [(facts.so_far, facts.to_come) for facts in (gather_receipt(desk, one) for one in parts)]
    assert told == [(100, 175), (150, 125), (175, 100)]


@pytest.mark.django_db
def test_the_receipt_names_who_gives_and_who_takes(desk: Desk):
    agreed = make_trade(desk, school=make_school(desk.program))
    for promise, giver in ((agreed.plain, "Riverbend Garden Center"), (agreed.make, "Millrace Elementary")):
        assert promise is not None
        delivery = deliver_part(desk=desk, promise=promise, day=desk.day, quantity=5)
        facts = gather_receipt(desk, delivery)
        assert facts.giver == giver
        assert {facts.giver, facts.taker} == {"Riverbend Garden Center", "Millrace Elementary"}


@pytest.fixture
def planned(desk: Desk) -> Any:
    """A class that has art on Tuesdays, and one that does not fit."""
    agreed = make_trade(desk)
    school = make_school(desk.program)
    shared = {"grade": 3, "students": 22, "meets_on": [1], "minutes": 40}
    birch, ash = (desk.program.classes.create(school=school, label=label, **shared) for label in ("3-Birch", "3-Ash"))
    common = {"program": desk.program, "not_taking_part": 2, "lessons": 3}
    agreed.classes.create(school_class=birch, share=24, start_on=date(2026, 11, 10), done=4, spoiled=1, **common)
    agreed.classes.create(school_class=ash, share=24, **common)
    return agreed


@pytest.mark.django_db
def test_facts_of_a_class_come_from_the_plan(desk: Desk, planned: Any):
    ash, birch = classes.gather(desk, trade.trades(desk).get(pk=planned.pk)).classes
    assert birch.lessons == (date(2026, 11, 10), date(2026, 11, 17), date(2026, 11, 24))
    assert (birch.children, birch.left, birch.plain, birch.fits) == (20, 20, 22, True)
    assert (ash.lessons, ash.fits) == ((), False)
    # No spares where so many plain items were agreed that there are none.
    planned.promises.filter(part="plain").update(quantity=250)
    _ash, birch = classes.gather(desk, trade.trades(desk).get(pk=planned.pk)).classes
    assert birch.plain == 20


@pytest.mark.django_db
@pytest.mark.parametrize(("started", "first", "fits"), [(False, 17, False), (True, 10, True)])
def test_a_start_that_went_by_is_told_unless_the_class_began(desk: Desk, planned: Any, started, first, fits):
    later = replace(desk, day=date(2026, 11, 12))
    planned.classes.filter(start_on__isnull=False).update(started_on=date(2026, 11, 10) if started else None)
    _ash, birch = classes.gather(later, trade.trades(later).get(pk=planned.pk)).classes
    assert (birch.lessons[0].day, birch.fits) == (first, fits)


@pytest.mark.django_db
@pytest.mark.parametrize("slug", ["class-plan", "wall-plan"])
def test_they_open_in_one_click_until_all_is_delivered_and_cannot_be_handed_over(
    signed_in: Client, desk: Desk, planned: Any, slug: str
):
    answer = signed_in.get(reverse("outreach:document", args=[slug, planned.pk]))
    assert (answer.status_code, answer["Content-Type"]) == (200, "application/pdf")
    assert signed_in.get(reverse("outreach:document-prepare", args=[slug, planned.pk])).status_code == 404
    deliver_part(desk=desk, promise=planned.make, day=desk.day, quantity=planned.make.quantity)
    assert signed_in.get(reverse("outreach:document", args=[slug, planned.pk])).status_code == 404


@pytest.mark.django_db
def test_every_sheet_is_one_click_from_the_page_of_the_trade(signed_in: Client, desk: Desk, planned: Any):
    delivery = deliver_part(desk=desk, promise=planned.plain, day=desk.day, quantity=100)
    page = signed_in.get(planned.get_absolute_url()).content.decode()
    own = {"trade-receipt": delivery.pk}
    for slug in ("class-plan", "wall-plan", "trade-receipt"):
        assert f'href="{reverse("outreach:document", args=[slug, own.get(slug, planned.pk)])}"' in page
    assert f'href="{reverse("outreach:document-prepare", args=["trade-memo", planned.pk])}"' in page


@pytest.mark.django_db
def test_a_delivery_of_no_trade_has_no_receipt(signed_in: Client, desk: Desk):
    from partners.promises.actions import deliver, promise
    from tests.people import make_partner

    own = {"partner": make_partner(desk.program), "side": Side.THEM, "what": "wool", "due": desk.day}
    delivery = deliver(desk=desk, promise=promise(desk=desk, made_on=desk.day, **own), day=desk.day)
    assert signed_in.get(reverse("outreach:document", args=["trade-receipt", delivery.pk])).status_code == 404


@pytest.mark.django_db
def test_the_number_of_questions_does_not_grow_with_the_classes(
    desk: Desk, planned: Any, django_assert_max_num_queries: Any
):
    with django_assert_max_num_queries(9):
        classes.gather(desk, trade.trades(desk).get(pk=planned.pk))
