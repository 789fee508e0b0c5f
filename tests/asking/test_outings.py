"""Planning an outing, its page and the list."""

from __future__ import annotations

from datetime import date

import pytest
import time_machine
from django.db import connection
from django.test.utils import CaptureQueriesContext

from partners.agenda.check_book import differences
from partners.asking.actions import log_visit
from partners.asking.gather import verdicts
from partners.asking.said import Said
from partners.directory.actions import add_contact, add_partner, edit_partner
from partners.ground.models import Event
from partners.visits.actions import Stop, plan_outing
from partners.visits.models import Outing, OutingStop
from partners.wish_list.models import Need
from tests.ladder import UNKNOWN, enter, flat, status
from tests.people import TUESDAY, make_partner, make_school
from tests.rows import make_row
from tests.whole_book import rows, undo_newest

pytestmark = pytest.mark.django_db

NEW, LIST = "/outings/new/", "/outings/"
THURSDAY = "2026-10-08"


@pytest.fixture(autouse=True)
def on_tuesday():
    with time_machine.travel("2026-10-06 17:00 -0400", tick=False):
        yield


@pytest.fixture
def garden(desk):
    return add_partner(desk=desk, name="Riverbend Garden Center", business_kind="garden", phone="(201) 555-0110")


@pytest.fixture
def bakery(desk):
    return add_partner(desk=desk, name="Bluebird Bakery", business_kind="coffee_shop")


@pytest.fixture
def pots(program):
    return Need.objects.create(program=program, what="terracotta pots", quantity=60, needed_by=date(2026, 11, 20))


@pytest.fixture
def outing(desk, garden, bakery, pots):
    log_visit(desk=desk, said=Said(where=bakery, happened="maybe", day=TUESDAY, what="cake boxes"))
    known = verdicts(desk, [garden, bakery], TUESDAY, pots)
    stops = [Stop(bakery, pots, known[bakery.pk]), Stop(garden, None, known[garden.pk])]
    return plan_outing(desk=desk, day=TUESDAY, stops=stops)


def chosen(answer):
    assert answer.status_code == 200
    return [place.partner for place in answer.context["chosen"]]


def test_a_typed_name_is_added_in_order(signed_in, garden, bakery):
    answer = signed_in.get(NEW, {"day": THURSDAY, "place": garden.pk, "add": "bluebird bakery"})
    assert chosen(answer) == [garden, bakery]
    assert answer.context["form"]["add"].value() is None


def test_a_suggestion_is_added_by_its_tick(signed_in, garden, bakery):
    assert [one.partner for one in signed_in.get(NEW).context["suggested"]] == [garden, bakery]
    assert f'name="place" value="{bakery.pk}"' in flat(signed_in.get(NEW))
    answer = signed_in.get(NEW, {"day": THURSDAY, "place": bakery.pk})
    assert chosen(answer) == [bakery]
    assert [one.partner for one in answer.context["suggested"]] == [garden]


def test_places_are_put_earlier_and_left_out(signed_in, garden, bakery):
    both = {"day": THURSDAY, "place": [garden.pk, bakery.pk]}
    assert chosen(signed_in.get(NEW, {**both, "up": bakery.pk})) == [bakery, garden]
    assert chosen(signed_in.get(NEW, {**both, "up": garden.pk})) == [garden, bakery]
    assert chosen(signed_in.get(NEW, {**both, "out": garden.pk})) == [bakery]


def test_not_yet_warns_with_every_reason_and_what_to_do_first(signed_in, desk, garden, pots):
    log_visit(desk=desk, said=Said(where=garden, happened="maybe", day=TUESDAY, what="yarn"))
    edit_partner(desk=desk, partner=garden, lead_days=60)
    page = flat(signed_in.get(NEW, {"day": THURSDAY, "need": pots.pk, "place": garden.pk}))
    assert "Your ask of October 6, 2026 still waits for an answer" in page
    assert "record their answer" in page
    assert "they want to be asked 60 days ahead" in page


def test_who_may_not_be_asked_is_not_suggested_but_can_be_chosen(signed_in, desk, garden, bakery):
    log_visit(desk=desk, said=Said(where=garden, happened="no", day=TUESDAY))
    answer = signed_in.get(NEW, {"day": THURSDAY, "add": "Riverbend Garden Center"})
    assert [one.partner for one in answer.context["suggested"]] == [bakery]
    assert [place.shown.allowed for place in answer.context["chosen"]] == [False]


def test_a_grantmaker_is_no_place_to_walk_into(signed_in, desk, garden):
    add_partner(desk=desk, name="Alder Falls Arts Fund", kind="grantmaker")
    assert "Alder Falls Arts Fund" not in flat(signed_in.get(NEW))


def test_quiet_places_are_suggested_before_busy_ones(signed_in, desk):
    shop = add_partner(desk=desk, name="A Gift Shop", business_kind="retail")
    garden = add_partner(desk=desk, name="Riverbend Garden Center", business_kind="garden")
    answer = signed_in.get(NEW, {"day": "2026-12-08"})
    assert [one.partner for one in answer.context["suggested"]] == [garden, shop]


def test_what_lies_near_the_first_place_is_suggested_first(signed_in, desk):
    far, town, street = (
        add_partner(desk=desk, name=name, street=where, city=city)
        for name, where, city in (
            ("Far", "1 Hill", "Quarry"),
            ("Town", "2 Mill", "Falls"),
            ("Street", "9 Canal", "Falls"),
        )
    )
    first = add_partner(desk=desk, name="First", street="44 Canal", city="Falls")
    suggested = signed_in.get(NEW, {"place": first.pk}).context["suggested"]
    assert [place.partner for place in suggested] == [street, town, far]


def test_an_outing_is_saved_in_order_with_its_verdicts_frozen_as_one_event(signed_in, desk, garden, bakery, pots):
    log_visit(desk=desk, said=Said(where=garden, happened="maybe", day=TUESDAY, what="yarn"))
    before, events = rows(desk.program), Event.objects.count()
    values = {"day": THURSDAY, "need": pots.pk, "place": [bakery.pk, garden.pk], f"need_{bakery.pk}": ""}
    answer = signed_in.post(NEW, values)
    outing = Outing.objects.get()
    first, second = outing.stops.all()
    assert answer["Location"] == outing.get_absolute_url()
    assert (first.partner, first.need, first.allowed) == (bakery, None, True)
    assert (second.partner, second.need, second.allowed) == (garden, pots, False)
    assert second.verdict["reasons"][0]["code"] == "open_ask"
    assert (Event.objects.count(), differences(desk.program)) == (events + 1, [])
    undo_newest(desk)
    assert rows(desk.program) == before


def test_a_name_that_is_not_in_the_book_is_kept_and_written_down_with_the_outing(signed_in, desk, garden):
    draft = signed_in.get(NEW, {"day": THURSDAY, "add": "Mossy Wall Florist"}).context["draft"]
    assert (draft.new, desk.partners.count()) == (["Mossy Wall Florist"], 1)
    signed_in.post(NEW, {"day": THURSDAY, "place": garden.pk, "new": draft.new, "add": "Ink & Quire"})
    assert [stop.partner.name for stop in desk.outing_stops.order_by("position")] == [
        garden.name, "Mossy Wall Florist", "Ink & Quire",
    ]  # fmt: skip
    undo_newest(desk)
    assert (desk.partners.count(), differences(desk.program)) == (1, [])


def test_an_outing_that_is_sent_twice_is_saved_once(signed_in, garden):
    for _time in range(2):
        signed_in.post(NEW, {"day": THURSDAY, "place": garden.pk, "once": "a token"})
    assert Outing.objects.count() == 1


@pytest.mark.parametrize(
    ("values", "field", "sentence"),
    [
        ({"day": "2026-10-05"}, "day", "That day has gone by."),
        ({"day": "2036-10-05"}, "day", "That is more than a year ahead."),
        ({"day": "soon"}, "day", "Enter a valid date."),
        ({"day": THURSDAY, "add": "Riverbend Garden Centre"}, "add", "A place with a name like this is in your book."),
    ],
)
def test_nonsense_is_told_and_the_places_stay(signed_in, garden, values, field, sentence):
    for method in (signed_in.get, signed_in.post):
        answer = method(NEW, {"place": garden.pk, **values})
        assert chosen(answer) == [garden]
        assert answer.context["form"].errors[field][0].startswith(sentence)
    assert not Outing.objects.exists()


def test_an_outing_without_a_place_is_not_saved(signed_in, program):
    answer = signed_in.post(NEW, {"day": THURSDAY})
    assert answer.context["form"].errors["add"] == ["Choose at least one place."]


def test_another_programs_place_need_and_school_are_not_there(signed_in, garden, otto):
    theirs = make_partner(otto.program, "Their Place")
    for method in ("get", "post"):
        assert status(signed_in, NEW, method, day=THURSDAY, place=theirs.pk) == 404
    answer = signed_in.post(NEW, {"day": THURSDAY, "place": garden.pk, "need": make_row(Need, otto.program).pk})
    assert "need" in answer.context["form"].errors
    need = make_row(Need, otto.program)
    signed_in.post(NEW, {"day": THURSDAY, "place": garden.pk, f"need_{garden.pk}": need.pk})
    assert OutingStop.objects.get().need is None


@pytest.mark.parametrize("text", ["abc", "-1", "9" * 30, "٣"])
def test_a_place_that_is_no_number_is_not_there(signed_in, text):
    assert status(signed_in, NEW, place=text) == 404


def test_the_outing_page_shows_places_in_order_and_leads_from_one_to_the_next(signed_in, desk, outing, bakery, garden):
    add_contact(desk=desk, partner=garden, name="Dana Whitlock")
    page = flat(signed_in.get(outing.get_absolute_url()))
    first, second = outing.stops.all()
    assert page.index("Bluebird Bakery") < page.index("Riverbend Garden Center")
    assert "Your ask of October 6, 2026 still waits for an answer" in page
    assert f"/visits/new/?stop={first.pk}" in page
    assert "Dana Whitlock" in page
    assert "Ask for 60 terracotta pots." in page
    saved = signed_in.post(
        f"/visits/new/?stop={first.pk}", {"partner_pk": bakery.pk, "happened": "hello", "stop": first.pk}
    )
    assert f"/visits/new/?stop={second.pk}" in flat(signed_in.get(saved["Location"]))
    assert "✓ Just hello" in flat(signed_in.get(outing.get_absolute_url()))


def test_the_frozen_verdict_stays_when_the_record_moves_on(signed_in, desk, outing, bakery):
    log_visit(desk=desk, said=Said(where=bakery, happened="yes", day=TUESDAY))
    assert "Your ask of October 6, 2026 still waits for an answer" in flat(signed_in.get(outing.get_absolute_url()))


def test_the_list_counts_the_places_that_were_visited(signed_in, desk, outing, garden):
    assert "0 of 2 places visited" in flat(signed_in.get(LIST))
    log_visit(desk=desk, said=Said(where=garden, happened="hello", day=TUESDAY, stop=outing.stops.get(partner=garden)))
    assert "1 of 2 places visited" in flat(signed_in.get(LIST))


def test_an_empty_list_says_what_to_do_first(signed_in):
    assert "No outing is planned yet." in flat(signed_in.get(LIST))


def pages(outing, partner):
    return [LIST, NEW, outing.get_absolute_url(), f"/partners/{partner.pk}/may-ask/"]


def test_signed_out_is_sent_to_sign_in(client, june, outing, garden):
    assert {status(client, page) for page in pages(outing, garden)} == {302}


def test_a_guest_reads_the_verdict_and_plans_nothing(client, grace, outing, garden):
    enter(client, grace)
    assert [status(client, page) for page in pages(outing, garden)] == [403, 403, 403, 200]
    assert status(client, NEW, "post", day=THURSDAY, place=garden.pk) == 403


def test_another_program_finds_nothing_of_it(client, otto, outing, garden):
    enter(client, otto)
    assert [status(client, page) for page in pages(outing, garden)] == [200, 200, 404, 404]
    assert "Riverbend" not in flat(client.get(LIST)) + flat(client.get(NEW))


def test_an_unknown_row_and_a_wrong_method(signed_in, outing, garden):
    assert status(signed_in, f"/outings/{UNKNOWN}/") == status(signed_in, f"/partners/{UNKNOWN}/may-ask/") == 404
    assert status(signed_in, LIST, "post") == status(signed_in, outing.get_absolute_url(), "post") == 405


def test_every_page_takes_the_same_queries_at_any_size(signed_in, desk, program):
    def count(address, **data):
        with CaptureQueriesContext(connection) as counted:
            assert signed_in.get(address, data).status_code == 200
        return len(counted)

    def planned(partners):
        known = verdicts(desk, partners, TUESDAY)
        return plan_outing(desk=desk, day=TUESDAY, stops=[Stop(one, None, known[one.pk]) for one in partners])

    partners = [add_partner(desk=desk, name=f"Place {n}") for n in range(25)]
    for partner in partners:
        add_contact(desk=desk, partner=partner, name="Pat Oduya")
    small, large = planned(partners[:1]), planned(partners)
    one, many = [partners[0].pk], [partner.pk for partner in partners]
    assert count(small.get_absolute_url()) == count(large.get_absolute_url())
    assert count(NEW, day=THURSDAY, place=one) == count(NEW, day=THURSDAY, place=many)
    before = count(LIST)
    for _n in range(10):
        planned(partners[:2])
    assert count(LIST) == before


def test_the_school_is_asked_for_only_where_there_are_several(signed_in, program):
    assert 'name="school"' not in flat(signed_in.get(NEW))
    make_school(program)
    make_school(program, "North Ridge Elementary")
    assert 'name="school"' in flat(signed_in.get(NEW))
