"""What is due after something came: thanks, acceptance, a loan, money for the office."""

from datetime import date, timedelta

import pytest

from partners.gifts import actions, due, story
from partners.gifts.actions import Line
from partners.gifts.families import thanked_by_school
from partners.gifts.family_actions import still_to_thank
from partners.gifts.models import ThanksFor
from partners.gifts.thanks_actions import owe_thanks, thanks_said
from partners.ground.due import Hand
from partners.promises.actions import promise
from partners.promises.models import Side
from partners.school.approval_models import AcceptanceRule
from tests import people
from tests.ladder import flat
from tests.query_plan import plan_of

pytestmark = pytest.mark.django_db
DAY = people.TUESDAY
FRIDAY = date(2026, 10, 9)
SOURCES = {source.slug: source for source in due.SOURCES}


@pytest.fixture
def garden(program):
    return people.make_partner(program)


def arrived(desk, partner, **values):
    given = {"source": "partner", "partner": partner, "day": DAY, "form": "goods", **values}
    return actions.receive(desk=desk, lines=[Line(description="terracotta pots", quantity=60)], **given)


def only(slug, desk):
    (line,) = SOURCES[slug].page(desk, until=date(2027, 6, 30), limit=5)
    return line


def test_thanks_are_written_with_the_letter_or_said(desk, garden):
    gift = arrived(desk, garden)
    line = only("gifts.thanks", desk)
    assert (line.hand, str(line.verb), line.what) == (Hand.WRITE, "Thank", "terracotta pots")
    assert (line.due, line.late_from) == (gift.thanks.due, gift.thanks.late_from)
    assert line.acts[0].url == f"/sheets/gratitude-letter/{gift.pk}/"
    SOURCES["gifts.thanks"].settle["done"](desk=desk, row=gift.thanks, day=DAY)
    assert (gift.thanks.done_on, gift.thanks.how) == (DAY, "in person")


def of_families(desk, school, what, day=DAY, **values):
    given = {"source": "families", "form": "goods", "school": school, "day": day, **values}
    return actions.receive(desk=desk, lines=[Line(description=what)], **given)


def test_families_of_a_school_are_thanked_once_for_all_that_came(desk, program):
    school, other = people.make_school(program), people.make_school(program, "North Ridge Elementary")
    cartons = of_families(desk, school, "egg cartons")
    of_families(desk, school, "corks", date(2026, 10, 7))
    line = only("gifts.families", desk)
    assert (line.due, cartons.families_due) == (date(2026, 10, 13), date(2026, 10, 13))
    assert (line.what, line.why) == ("egg cartons and 1 more", "since October 6")
    assert line.acts[0].url == f"/sheets/family-thanks/{school.pk}/"
    of_families(desk, other, "yarn")
    SOURCES["gifts.families"].settle["done"](desk=desk, row=cartons, day=DAY)
    assert only("gifts.families", desk).who == f"all families of {other.name}"


def test_what_families_gave_long_ago_is_told_where_they_are_thanked_and_due_no_more(signed_in, desk, program):
    school = people.make_school(program)
    old = of_families(desk, school, "buttons", DAY - timedelta(days=300))
    recent = of_families(desk, school, "egg cartons", DAY - timedelta(days=100))
    line = only("gifts.families", desk)
    assert (line.pk, line.what) == (recent.pk, "egg cartons")
    SOURCES["gifts.families"].settle["done"](desk=desk, row=recent, day=DAY)
    assert list(still_to_thank(desk, school)) == [old]
    (told,) = thanked_by_school(desk)
    assert (told.times, told.before, told.long_since) == (0, 1, old.day)
    assert "Something from longer ago" in flat(signed_in.get("/gifts/families/"))


def test_a_day_named_for_the_families_holds_for_what_comes_until_then(desk, program):
    school, named = people.make_school(program), date(2026, 10, 30)
    first = of_families(desk, school, "egg cartons")
    SOURCES["gifts.families"].settle["move"](desk=desk, row=first, day=DAY, due=named)
    second = of_families(desk, school, "corks", date(2026, 10, 8))
    assert (only("gifts.families", desk).due, second.families_due) == (named, named)
    actions.edit_gift(desk=desk, gift=second, day=DAY)
    assert second.families_due == named
    assert of_families(desk, school, "yarn", date(2026, 10, 28)).families_due == date(2026, 11, 4)


def test_what_is_put_right_moves_the_day_to_thank_the_families(desk, program):
    cartons = of_families(desk, people.make_school(program), "egg cartons", date(2026, 10, 5))
    actions.edit_gift(desk=desk, gift=cartons, day=DAY)
    assert only("gifts.families", desk).due == date(2026, 10, 13)


def test_thanks_at_the_promise_lead_to_a_note_of_their_own(desk, garden):
    pots = promise(desk=desk, partner=garden, side=Side.THEM, what="pots", due=FRIDAY, made_on=DAY)
    owed = owe_thanks(desk=desk, partner=garden, reason=ThanksFor.PROMISE, base=DAY, promise=pots)
    line = only("gifts.thanks", desk)
    assert (line.what, line.why) == ("pots", "for the promise of October 6")
    assert line.acts[0].url == f"/sheets/thanks-note/{owed.pk}/"


def test_whoever_must_accept_it_is_asked(desk, program, garden):
    school = people.make_school(program)
    AcceptanceRule.objects.create(program=program, school=school, from_cents=0, who="The board")
    gift = arrived(desk, garden, school=school)
    line = only("gifts.accept", desk)
    assert (line.hand, line.who) == (Hand.ASK, "The board")
    assert line.what == "to accept terracotta pots from Riverbend Garden Center"
    SOURCES["gifts.accept"].settle["move"](desk=desk, row=gift, day=DAY, due=date(2026, 11, 10))
    assert only("gifts.accept", desk).due == date(2026, 11, 10)
    SOURCES["gifts.accept"].settle["done"](desk=desk, row=gift, day=DAY)
    assert gift.accepted_on == DAY


def test_a_loan_is_returned(desk, garden):
    gift = arrived(desk, garden, form="loan", return_on=FRIDAY)
    line = only("gifts.return", desk)
    assert (line.hand, str(line.verb), line.who, line.due) == (Hand.CALL, "Return to", garden.name, FRIDAY)
    SOURCES["gifts.return"].settle["move"](desk=desk, row=gift, day=DAY, due=date(2026, 10, 12))
    SOURCES["gifts.return"].settle["done"](desk=desk, row=gift, day=DAY)
    assert gift.returned_on == DAY


def test_money_is_handed_in(desk, garden):
    gift = arrived(desk, garden, form="money", amount_cents=12_500, money_kind="cash")
    line = only("gifts.hand-in", desk)
    assert (line.hand, line.what, line.due) == (Hand.MONEY, "$125.00, cash", date(2026, 10, 7))
    SOURCES["gifts.hand-in"].settle["done"](desk=desk, row=gift, day=DAY, receipt_number="7")
    assert (gift.handed_in_on, gift.receipt_number) == (DAY, "7")


def test_all_of_a_promise_came_becomes_a_gift_with_its_thanks(desk, garden):
    pots = promise(desk=desk, partner=garden, side=Side.THEM, what="pots", due=FRIDAY, made_on=DAY, quantity=60)
    SOURCES["promises.theirs"].settle["done"](desk=desk, row=pots, day=FRIDAY)
    assert desk.gifts.get().what == "60 pots"
    assert desk.thanks.get().gift == desk.gifts.get()


INDEXES = {
    "promises.theirs": "promise_due",
    "gifts.thanks": "thanks_due",
    "gifts.accept": "gift_to_accept",
    "gifts.return": "gift_to_return",
    "gifts.hand-in": "gift_to_hand_in",
}


@pytest.mark.parametrize(("slug", "index"), INDEXES.items())
def test_a_page_of_lines_is_an_index_search_without_a_sort(desk, slug, index):
    plan = plan_of(lambda: SOURCES[slug].page(desk, until=FRIDAY, limit=50, after=(DAY, 7)))
    assert index in plan
    assert "TEMP B-TREE" not in plan


def test_a_story_tells_what_came_what_went_back_and_the_thanks(desk, garden):
    arrived(desk, garden, given_value_cents=99_900)
    lent = arrived(desk, garden, form="loan", return_on=FRIDAY)
    actions.return_loan(desk=desk, gift=lent, day=FRIDAY)
    thanks_said(desk=desk, thanks=lent.thanks, day=DAY, how="in person")
    told = [(line.what, line.detail) for line in story.lines(desk, garden)]
    assert ("They gave 60 terracotta pots", "") in told
    assert ("They lent us 60 terracotta pots", "a loan") in told
    assert ("We returned 60 terracotta pots", "") in told
    assert ("We thanked them", "for what came, in person") in told
    assert ("We owe them thanks", "for what came, by October 13, 2026") in told
    assert "999" not in str(told)
