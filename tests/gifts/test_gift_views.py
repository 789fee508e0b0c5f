"""Something arrived: the page, its errors, who may open it, and what it costs."""

from datetime import date

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse
from django.utils import timezone

from partners.directory.models import Partner
from partners.gifts import actions
from partners.gifts.actions import Line
from partners.gifts.models import Gift
from partners.ground.models import Event
from partners.promises.actions import make_offer, promise
from partners.promises.models import Side
from partners.school.approval_models import AcceptanceRule
from partners.wish_list.models import CannotUse, Need
from tests import people

pytestmark = pytest.mark.django_db
NEW = reverse("gifts:gift-new")


@pytest.fixture
def garden(program):
    return people.make_partner(program)


@pytest.fixture
def today(program):
    return people.make_desk(program, timezone.localdate())


def typed(*lines, **values):
    """What the browser sends: lines as (what, how many, one of these)."""
    data = {"source": "partner", "form": "goods", "line-TOTAL_FORMS": "4", "line-INITIAL_FORMS": "0"}
    for place, (what, quantity, risk) in enumerate(lines):
        data |= {f"line-{place}-description": what, f"line-{place}-quantity": quantity, f"line-{place}-risk": risk}
    return {**data, "day": str(timezone.localdate()), **values}


POTS = ("terracotta pots", "60", "")


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


def test_families_are_never_named(signed_in, garden):
    named = {"partner": garden.name, "purpose": "from Ana", "given_value_cents": "20", "gave_back": "a card"}
    signed_in.post(NEW, typed(("egg cartons", "40", ""), source="families", **named))
    gift = Gift.objects.get()
    assert (gift.partner, gift.purpose, gift.given_value_cents, gift.gave_back) == (None, "", None, "")


def test_a_gift_to_one_named_person_is_stopped_with_the_reason(signed_in, garden):
    page = signed_in.post(NEW, typed(POTS, partner=garden.name, for_one_person="on")).content.decode()
    assert "A gift meant for a named teacher or child is not a gift to the school." in page
    assert not Gift.objects.exists()


def test_the_ticks_count_only_where_a_line_asks_for_them(signed_in, garden):
    signed_in.post(NEW, typed(POTS, partner=garden.name, is_clean="on"))
    assert Gift.objects.get().is_clean is None
    signed_in.post(NEW, typed(POTS, ("yogurt cups", "40", "food"), partner=garden.name, is_clean="on"))
    gift = Gift.objects.latest("pk")
    assert (gift.is_clean, gift.label_readable, gift.fit_for_youngest) == (True, False, False)
    page = signed_in.get(gift.get_absolute_url()).content.decode()
    assert "Not for children yet" in page
    assert "label readable; fit for the youngest grade." in page


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
    signed_in.post(NEW, typed(POTS, partner="Riverbend Gardn Center", new_name="Riverbend Gardn Center"))
    assert Partner.objects.count() == 2
    assert Event.objects.latest("pk").changes[0]["model"] == "partner"


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


@pytest.fixture
def gift(today, garden):
    return actions.receive(
        desk=today, source="partner", partner=garden, day=today.day, form="goods", given_value_cents=99_900,
        lines=[Line(description="terracotta pots", quantity=60)],
    )  # fmt: skip


def test_the_page_explains_every_choice_of_the_letter(signed_in, gift):
    page = signed_in.get(gift.get_absolute_url()).content.decode()
    assert "The giver puts a value on goods, never the school." in page
    assert "26 USC 170(f)(8)(B); IRS Publication 1771" in page
    assert "This is not tax advice." in page


@pytest.mark.parametrize(("who", "status"), [("grace", 403), ("omar", 200)])
def test_who_may_read_a_gift(client, request, gift, who, status):
    client.force_login(request.getfixturevalue(who).user, backend="django.contrib.auth.backends.ModelBackend")
    assert client.get(gift.get_absolute_url()).status_code == status
    assert client.get(NEW).status_code == status


def test_a_guest_reads_what_is_opened_but_never_the_givers_figure(client, grace, gift):
    grace.opened = ["gifts"]
    grace.save()
    client.force_login(grace.user, backend="django.contrib.auth.backends.ModelBackend")
    page = client.get(gift.get_absolute_url()).content.decode()
    assert "60 terracotta pots" in page
    assert "999" not in page
    assert "$250" not in page
    assert "Put right" not in page


def test_the_giver_and_the_figure_are_there_for_who_writes(signed_in, gift):
    assert "$999.00" in signed_in.get(gift.get_absolute_url()).content.decode()


@pytest.mark.parametrize("name", ["gift-detail", "gift-edit"])
def test_unknown_and_other_programs_gifts_are_not_there(client, otto, gift, name):
    client.force_login(otto.user, backend="django.contrib.auth.backends.ModelBackend")
    assert client.get(reverse(f"gifts:{name}", args=[gift.pk])).status_code == 404
    assert client.get(reverse(f"gifts:{name}", args=[gift.pk + 1])).status_code == 404


@pytest.mark.parametrize("name", ["gift-thanked", "gift-accepted", "gift-returned", "gift-handed-in"])
def test_buttons_are_posted_by_who_may_write(client, grace, signed_in, gift, name):
    url = reverse(f"gifts:{name}", args=[gift.pk])
    assert signed_in.get(url).status_code == 405
    client.force_login(grace.user, backend="django.contrib.auth.backends.ModelBackend")
    assert client.post(url).status_code == 403
    client.logout()
    assert client.post(url).status_code == 302


def test_said_in_person(signed_in, gift):
    signed_in.post(reverse("gifts:gift-thanked", args=[gift.pk]))
    gift.thanks.refresh_from_db()
    assert gift.thanks.how == "in person"
    signed_in.post(reverse("gifts:gift-thanked", args=[gift.pk]))
    assert Event.objects.filter(words__startswith="Thanked").count() == 1


def test_accepted_and_handed_in_with_its_receipt(signed_in, program, today, garden):
    school = people.make_school(program)
    AcceptanceRule.objects.create(program=program, school=school, from_cents=0, who="The board")
    money = actions.receive(
        desk=today, source="partner", partner=garden, day=today.day, form="money", amount_cents=5_000,
        money_kind="cash", school=school,
    )  # fmt: skip
    assert "The board decides" in signed_in.get(money.get_absolute_url()).content.decode()
    signed_in.post(reverse("gifts:gift-accepted", args=[money.pk]))
    signed_in.post(reverse("gifts:gift-handed-in", args=[money.pk]))
    signed_in.post(reverse("gifts:gift-handed-in", args=[money.pk]), {"receipt_number": "114"})
    money.refresh_from_db()
    assert (money.accepted_on, money.handed_in_on, money.receipt_number) == (today.day, today.day, "114")
    long = signed_in.post(reverse("gifts:gift-handed-in", args=[money.pk]), {"receipt_number": "1" * 41})
    assert long.context["hand_in"].errors


def test_a_loan_is_returned(signed_in, today, garden):
    lent = actions.receive(
        desk=today, source="partner", partner=garden, day=today.day, form="loan", return_on=today.day,
        lines=[Line(description="easels")],
    )  # fmt: skip
    signed_in.post(reverse("gifts:gift-returned", args=[lent.pk]))
    lent.refresh_from_db()
    assert lent.returned_on == today.day


def test_taking_back_the_first_step_leads_to_the_list(signed_in, gift):
    page = signed_in.get(gift.get_absolute_url())
    last = page.context["newest"]
    assert last.is_first
    signed_in.post(reverse("story:undo", args=[last.pk]), {"next": reverse("gifts:gift-list")}, follow=True)
    assert not Gift.objects.exists()


# Putting right


def edited(gift, **values):
    line = gift.lines.get()
    return {
        "seen": gift.version, "form": "goods", "day": str(gift.day), "line-TOTAL_FORMS": "3",
        "line-INITIAL_FORMS": "1", "line-0-row": line.pk, "line-0-description": "small pots",
        "line-0-quantity": "58", **values,
    }  # fmt: skip


def test_an_edit_keeps_what_was_not_changed(signed_in, gift):
    url = reverse("gifts:gift-edit", args=[gift.pk])
    assert signed_in.get(url).context["form"].lines[0]["description"].value() == "terracotta pots"
    signed_in.post(url, edited(gift, given_value_cents="999.00", place="Shelf B"))
    gift.refresh_from_db()
    assert (gift.what, gift.place, gift.given_value_cents) == ("58 small pots", "Shelf B", 99_900)


def test_an_edit_on_an_old_page_is_told(signed_in, today, gift):
    sent = edited(gift)
    actions.edit_gift(desk=today, gift=gift, place="Room 12")
    answer = signed_in.post(reverse("gifts:gift-edit", args=[gift.pk]), sent)
    assert answer.status_code == 409


def test_a_line_of_another_gift_is_not_taken(signed_in, today, garden, gift):
    other = actions.receive(
        desk=today, source="partner", partner=garden, day=today.day, form="goods", lines=[Line(description="soil")]
    )
    sent = edited(gift) | {"line-0-row": other.lines.get().pk}
    answer = signed_in.post(reverse("gifts:gift-edit", args=[gift.pk]), sent)
    assert answer.status_code == 200
    assert other.lines.get().description == "soil"


def test_the_edit_of_what_families_gave_asks_for_no_purpose(signed_in, today):
    cartons = actions.receive(
        desk=today, source="families", day=today.day, form="goods", lines=[Line(description="cartons")]
    )
    form = signed_in.get(reverse("gifts:gift-edit", args=[cartons.pk])).context["form"]
    assert not {"purpose", "given_value_cents", "trade"} & set(form.fields)
    signed_in.post(reverse("gifts:gift-edit", args=[cartons.pk]), edited(cartons))
    assert cartons.lines.get().description == "small pots"


# Lists


def test_the_list_is_narrowed_by_year_school_kind_and_source(signed_in, program, garden):
    school = people.make_school(program)
    for year, form, place in ((2024, "goods", None), (2025, "service", school)):
        desk = people.make_desk(program, date(year, 10, 6))
        given = {"source": "partner", "partner": garden, "form": form, "school": place}
        actions.receive(desk=desk, day=desk.day, lines=[Line(description=f"thing {year}")], **given)
    url = reverse("gifts:gift-list")
    for query in ("year=2025", f"school={school.pk}", "form=service"):
        page = signed_in.get(f"{url}?{query}").content.decode()
        assert ("thing 2025" in page, "thing 2024" in page) == (True, False), query
    assert [label for _value, label in signed_in.get(url).context["filter"].form.fields["year"].choices][1:] == [
        "2025–26",
        "2024–25",
    ]
    assert "No gift is found." in signed_in.get(f"{url}?source=families").content.decode()
    assert signed_in.get(f"{url}?year=1&school=x").status_code == 200


def test_an_empty_list_says_what_to_do_first(signed_in):
    page = signed_in.get(reverse("gifts:gift-list")).content.decode()
    assert "No gift is in the book yet." in page
    assert NEW in page


def test_family_gifts_are_counts_by_school_and_thing(signed_in, program, today, garden):
    school = people.make_school(program)
    for words, quantity in (("Egg cartons", 12), ("egg cartons", 30), ("Egg Cartons", None)):
        line = Line(description=words, quantity=quantity)
        actions.receive(desk=today, source="families", day=today.day, form="goods", school=school, lines=[line])
    actions.receive(
        desk=today,
        source="partner",
        partner=garden,
        day=today.day,
        form="goods",
        lines=[Line(description="egg cartons")],
    )
    rows = signed_in.get(reverse("gifts:family-list")).context["table"].data.data
    assert [(one.school, one.item, one.count, one.times) for one in rows] == [(school.name, "Egg cartons", "42", 3)]


def test_lists_and_pages_ask_a_fixed_number_of_queries(signed_in, today, garden):
    def gifts(number):
        for n in range(number):
            lines = [Line(description=f"thing {n}"), Line(description="and paint", risk="paint")]
            actions.receive(desk=today, source="partner", partner=garden, day=today.day, form="goods", lines=lines)

    gifts(2)
    urls = [reverse("gifts:gift-list"), reverse("gifts:family-list"), NEW, Gift.objects.latest("pk").get_absolute_url()]
    counts = [asked(signed_in, url) for url in urls]
    gifts(20)
    make_offer(desk=today, partner=garden, what="tubes", first_on=today.day)
    make_offer(desk=today, partner=garden, what="yarn", first_on=today.day)
    assert [asked(signed_in, url) for url in urls] == counts
    assert max(counts) <= 24


def asked(client, url):
    with CaptureQueriesContext(connection) as queries:
        assert client.get(url).status_code == 200
    return len(queries)


def test_what_families_gave_belongs_to_a_school_wherever_there_are_several(signed_in, today, program):
    one = people.make_school(program, "Millrace Elementary")
    signed_in.post(NEW, typed(("egg cartons", "40", ""), source="families"))
    assert today.gifts.get().school == one
    people.make_school(program, "North Ridge Elementary")
    answer = signed_in.post(NEW, typed(("yarn", "9", ""), source="families"))
    assert "Say for which school" in str(answer.context["form"].errors["school"])
    assert today.gifts.count() == 1
