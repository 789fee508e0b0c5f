"""Something arrived: the page, what it fills in, and its errors."""

import pytest
from django.urls import reverse

from partners.directory.models import Partner
from partners.gifts.models import Gift
from partners.gifts.risk_words import risk_named
from partners.ground.models import Event
from partners.promises.actions import promise
from partners.promises.models import Side
from partners.wish_list.models import CannotUse, Need
from tests import people
from tests.gifts.arriving import NEW, POTS, typed

pytestmark = pytest.mark.django_db


def test_what_came_is_saved_and_its_page_offers_letter_and_tag(signed_in, garden):
    answer = signed_in.post(NEW, typed(POTS, partner="riverbend garden center", once="a"), follow=True)
    gift = Gift.objects.get()
    assert (gift.partner, gift.what, gift.received_by) == (garden, "60 terracotta pots", "June")
    page = answer.content.decode()
    assert reverse("outreach:document-prepare", args=["gratitude-letter", gift.pk]) in page
    assert reverse("outreach:document", args=["gift-tag", gift.pk]) in page
    assert "Written down: 60 terracotta pots from Riverbend Garden Center." in page


def test_a_double_press_saves_once(signed_in, garden):
    for _press in range(2):
        answer = signed_in.post(NEW, typed(POTS, partner=garden.name, once="the same"))
    gift = Gift.objects.get()
    assert answer["Location"] == gift.get_absolute_url()
    assert Event.objects.count() == 1


def test_errors_stand_on_the_page_and_what_was_typed_stays(signed_in):
    answer = signed_in.post(NEW, typed(("", "60", "clay"), partner="", place="Shelf B"))
    page = answer.content.decode()
    assert answer.status_code == 200
    assert "Say from whom" in page
    assert "Say what it is." in page
    assert 'value="Shelf B"' in page
    assert 'value="60"' in page
    assert not Gift.objects.exists()


def test_money_needs_its_amount_and_kind(signed_in, garden):
    page = signed_in.post(NEW, typed(partner=garden.name, form="money")).content.decode()
    assert "Money needs its amount." in page
    assert "Say whether it is a check, cash or a card." in page
    signed_in.post(NEW, typed(partner=garden.name, form="money", amount_cents="$1,250.50", money_kind="cash"))
    gift = Gift.objects.get()
    assert (gift.amount_cents, gift.money_kind, gift.lines.count()) == (125_050, "cash", 0)


def test_what_does_not_belong_to_the_kind_is_not_kept(signed_in, garden):
    extra = {"amount_cents": "5", "money_kind": "cash", "return_on": "2027-01-04"}
    signed_in.post(NEW, typed(POTS, partner=garden.name, **extra))
    gift = Gift.objects.get()
    assert (gift.amount_cents, gift.money_kind, gift.return_on) == (None, "", None)


def test_what_bears_the_name_of_a_need_counts_for_it(signed_in, program, garden):
    need = Need.objects.create(program=program, what="Terracotta pots", quantity=60)
    signed_in.post(NEW, typed(POTS, partner=garden.name))
    assert Gift.objects.get().lines.get().need == need


def test_families_are_never_named(signed_in, garden):
    named = {"partner": garden.name, "purpose": "from Ana", "given_value_cents": "20", "gave_back": "a card"}
    signed_in.post(NEW, typed(("egg cartons", "40", ""), source="families", **named))
    gift = Gift.objects.get()
    assert (gift.partner, gift.purpose, gift.given_value_cents, gift.gave_back) == (None, "", None, "")


def test_what_families_sent_leads_to_more_of_it_and_to_the_thanks_for_all(signed_in, desk):
    school = people.make_school(desk.program)
    people.make_school(desk.program, "North Ridge Elementary")
    form = signed_in.get(NEW, {"families": school.pk}).context["form"]
    assert (form["source"].value(), form["school"].value()) == ("families", school.pk)
    sent = typed(("egg cartons", "40", ""), source="families", school=str(school.pk))
    page = signed_in.post(NEW, sent, follow=True).content.decode()
    assert f"{NEW}?families={school.pk}" in page
    assert reverse("outreach:document-prepare", args=["family-thanks", school.pk]) in page
    assert signed_in.get(NEW, {"families": "x"}).status_code == 404


def test_a_gift_to_one_named_person_is_stopped_with_the_reason(signed_in, garden):
    page = signed_in.post(NEW, typed(POTS, partner=garden.name, for_one_person="on")).content.decode()
    assert "A gift meant for a named teacher or child is not a gift to the school." in page
    assert not Gift.objects.exists()


def test_the_ticks_count_only_where_a_line_asks_for_them(signed_in, garden):
    signed_in.post(NEW, typed(POTS, partner=garden.name, is_clean="on"))
    assert Gift.objects.get().is_clean is None
    signed_in.post(NEW, typed(POTS, ("yogurt cups", "40", "food"), partner=garden.name, is_clean="on"))
    gift = Gift.objects.latest("pk")
    assert (gift.is_clean, gift.label_readable, gift.fit_for_youngest) == (True, None, False)
    page = signed_in.get(gift.get_absolute_url()).content.decode()
    assert "Not for children yet" in page


def test_what_cannot_be_used_is_said_and_never_stopped(signed_in, program, garden):
    CannotUse.objects.create(program=program, what="latex balloons and gloves", why="allergies")
    answer = signed_in.post(NEW, typed(("a box of Balloons", "", ""), partner=garden.name), follow=True)
    assert "latex balloons and gloves: allergies" in answer.content.decode()
    assert Gift.objects.count() == 1


def test_a_new_name_is_a_new_partner_unless_it_is_likely_known(signed_in, garden):
    page = signed_in.post(NEW, typed(POTS, partner="Riverbend Gardn Center")).content.decode()
    assert "Is it one of those below?" in page
    signed_in.post(NEW, typed(POTS, partner="Riverbend Gardn Center", one_of=str(garden.pk)))
    assert Gift.objects.get().partner == garden
    who = {"giver": "business Riverbend Gardn Center"}
    signed_in.post(NEW, typed(POTS, partner="Riverbend Gardn Center", new_name="Riverbend Gardn Center", **who))
    assert Partner.objects.count() == 2
    assert Event.objects.latest("pk").changes[0]["model"] == "partner"


def answered(page, words):
    """What the button with these words says of the typed name."""
    return next(answer for answer, label, _detail in page.context["form"].who if words in str(label))


def test_a_name_that_tells_nothing_is_asked_about_and_a_family_is_not_kept_by_name(signed_in, desk):
    school = people.make_school(desk.program)
    named = {"partner": "Ana Ruiz", "school": str(school.pk)}
    page = signed_in.post(NEW, typed(POTS, **named))
    assert not Gift.objects.exists()
    signed_in.post(NEW, typed(POTS, **named, giver=answered(page, "family")))
    gift = Gift.objects.get()
    assert (gift.source, gift.partner, gift.school, Partner.objects.count()) == ("families", None, school, 0)
    assert "Ruiz" not in str(Event.objects.latest("pk").changes)


def test_who_somebody_is_was_said_of_that_name_alone(signed_in):
    page = signed_in.post(NEW, typed(POTS, partner="Ana Ruiz"))
    person = answered(page, "Somebody")
    assert signed_in.post(NEW, typed(POTS, partner="Ivan Petrov", giver=person)).status_code == 200
    signed_in.post(NEW, typed(POTS, partner="Ana Ruiz", giver=person))
    assert Gift.objects.get().partner.kind == "person"


def test_a_school_for_what_families_gave_is_asked_without_a_wrong_one_chosen(signed_in, desk):
    for name in ("Millrace Elementary", "North Ridge Elementary"):
        school = people.make_school(desk.program, name)
    page = signed_in.get(NEW).content.decode()
    assert "checked" not in page.split('name="school" value=""')[1].split(">")[0]
    signed_in.post(NEW, typed(POTS, source="families", school=str(school.pk)))
    gift = Gift.objects.get()
    edit = signed_in.post(reverse("gifts:gift-edit", args=[gift.pk]), typed(POTS, school=""))
    assert edit.context["form"].errors["school"]


def test_a_promise_fills_everything_in_and_a_part_leaves_the_rest(signed_in, program, today, garden):
    school = people.make_school(program)
    need = Need.objects.create(program=program, what="pots")
    pots = promise(
        desk=today, partner=garden, side=Side.THEM, what="pots", due=today.day, made_on=today.day, quantity=60,
        school=school, need=need,
    )  # fmt: skip
    assert f"?promise={pots.pk}" in signed_in.get(NEW).content.decode()
    form = signed_in.get(f"{NEW}?promise={pots.pk}").context["form"]
    assert (form["school"].value(), form.lines[0]["quantity"].value()) == (school.pk, 60)
    sent = typed(("pots", "24", ""), promise=str(pots.pk), source="families", school=str(school.pk))
    answer = signed_in.post(f"{NEW}?promise={pots.pk}", sent, follow=True)
    gift = Gift.objects.get()
    pots.refresh_from_db()
    assert (gift.partner, gift.lines.get().need, pots.delivered, pots.settled_on) == (garden, need, 24, None)
    assert "The rest is still promised" in answer.content.decode()


def test_promised_money_is_filled_in_and_settles_its_promise(signed_in, today, garden):
    pledge = promise(
        desk=today, partner=garden, side=Side.THEM, what="clay", due=today.day, made_on=today.day, amount_cents=20_000
    )
    form = signed_in.get(f"{NEW}?promise={pledge.pk}").context["form"]
    assert (form["form"].value(), form["amount_cents"].value()) == ("money", "200.00")
    money = {"form": "money", "amount_cents": "200", "money_kind": "check"}
    signed_in.post(NEW, typed(promise=str(pledge.pk), **money))
    assert "This is settled since" in signed_in.get(f"{NEW}?promise={pledge.pk}").content.decode()
    pledge.refresh_from_db()
    assert pledge.settled_how == "came"


@pytest.mark.parametrize("day", ["2099-01-01", "1999-01-01", "not a day"])
def test_a_day_ahead_long_ago_or_none_is_refused(signed_in, garden, day):
    answer = signed_in.post(NEW, typed(POTS, partner=garden.name, day=day))
    assert answer.context["form"].errors["day"]
    assert not Gift.objects.exists()


def test_a_number_too_large_is_asked_about(signed_in, garden):
    page = signed_in.post(NEW, typed(("pots", "99999999999", ""), partner=garden.name)).content.decode()
    assert "Is that number right?" in page


def test_a_school_calendar_without_a_weekday_is_said_and_nothing_is_saved(signed_in, program, garden):
    people.make_school(program, weekdays=[])
    page = signed_in.post(NEW, typed(POTS, partner=garden.name)).content.decode()
    assert "No weekday has school in this school calendar" in page
    assert not Gift.objects.exists()


# The page of a gift


@pytest.mark.parametrize(
    ("what", "risk"),
    [
        ("egg cartons", "food"), ("milk cartons", "food"), ("cartons", "food"), ("Yogurt cups", "food"),
        ("glass jars with lids", "food"), ("bottle caps", "food"), ("cereal boxes", "food"), ("coffee cans", "food"),
        ("jars of tempera", "paint"), ("Ink", "paint"), ("bottles of glue", "glue"), ("glaze, clear", "clay"),
        ("paint brushes", ""), ("clay pots", ""), ("terracotta pots", ""), ("cartons of copy paper", ""),
        ("canvas", ""), ("cardboard tubes", ""), ("frames", ""), ("think tank", ""), ("jars of buttons", ""),
    ],
)  # fmt: skip
def test_a_thing_is_taken_for_what_its_name_tells(what, risk):
    """Judged by hand: what has held food, or is paint, glue or clay itself, needs a look first."""
    assert risk_named(what) == risk


@pytest.mark.parametrize(("chosen", "risk"), [("", "food"), ("1", "")])
def test_egg_cartons_wait_for_a_look_unless_somebody_said_that_they_need_none(signed_in, garden, chosen, risk):
    data = typed(("egg cartons", "40", ""), partner=garden.name, **{"line-0-chosen": chosen})
    page = signed_in.post(NEW, data, follow=True).content.decode()
    gift = Gift.objects.get()
    assert gift.lines.get().risk == risk
    assert ("Not for children yet" in page) is bool(risk)


def test_the_ticks_are_kept_on_the_page_of_the_gift(signed_in, garden):
    signed_in.post(NEW, typed(("egg cartons", "40", ""), partner=garden.name))
    gift = Gift.objects.get()
    look = reverse("gifts:gift-looked-at", args=[gift.pk])
    assert "still waits" in signed_in.post(look, {"is_clean": "on"}, follow=True).content.decode()
    page = signed_in.post(look, {"is_clean": "on", "fit_for_youngest": "on"}, follow=True).content.decode()
    assert "children may use it" in page
    assert "Not for children yet" not in page
    assert [word in str(Event.objects.latest("pk")) for word in ("Riverbend", "looked at")] == [True, True]
