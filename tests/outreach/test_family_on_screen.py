"""Letters home through the pages: chosen, ordered, graded, approved, copied, thanked for."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils.timezone import localdate

from outreach.preparing import prepare
from partners.gifts.actions import Line, receive
from partners.gifts.models import Gift
from partners.ground.models import Event
from partners.letters.models import Letter
from partners.school.actions import add_class
from partners.school.approval_actions import add_approval, add_procedure
from partners.wish_list.actions import add_cannot_use, add_need
from tests.ladder import UNKNOWN, enter, flat, status
from tests.outreach.sheets import pages_of
from tests.people import TUESDAY, make_school
from tests.whole_site.pages import Page

pytestmark = pytest.mark.django_db


@pytest.fixture
def school(desk):
    school = make_school(desk.program, principal="Maria Ortega")
    add_class(desk=desk, school=school, label="3-Birch", grade=3, students=24)
    for what in ("egg cartons", "yarn", "zip ties"):
        add_need(desk=desk, what=what, household=what != "zip ties")
    add_cannot_use(desk=desk, what="glass jars", why="they break")
    return school


@pytest.fixture
def came(desk, school):
    def write(what, day=TUESDAY, **values):
        lines = [Line(description=what, quantity=9)] if what else []
        given = {"form": "goods", **values}
        return receive(desk=desk, source="families", day=day, school=school, lines=lines, **given)

    return write


def at(name, slug, school):
    return reverse(f"outreach:{name}", args=[slug, school.pk])


def pages(answer):
    return pages_of(answer.content)


def typed(client, school, slug="family-letter", **more):
    """What the page's own form sends, with what is typed."""
    place = at("document-prepare", slug, school)
    name = "things" if slug == "family-letter" else "became"
    form = next(form for form in Page.read(client.get(place).content.decode()).forms if name in form.sent)
    return client.post(place, form.data(**more))


def kept(client, school, **more):
    answer = typed(client, school, **more)
    assert answer.status_code == 302, flat(answer)
    return Letter.objects.latest("pk").words


def approve(desk, school):
    add_approval(desk=desk, school=school, what_for="letters_home", by="Maria Ortega", on=TUESDAY)


def test_only_household_needs_stand_in_the_letter_and_common_things_have_their_spanish(signed_in, school):
    english, spanish = pages(signed_in.get(at("document", "family-letter", school)))
    assert "egg cartons" in english
    assert "zip ties" not in english
    assert "cartones de huevos" in spanish
    assert "frascos de vidrio" in spanish


def test_things_are_ordered_and_taken_out_and_their_spanish_goes_along(signed_in, school):
    words = kept(signed_in, school, things="yarn\negg cartons")
    kept(signed_in, school, things="yarn")
    english, spanish = pages(signed_in.get(at("document", "family-letter", school)))
    assert len(words["needs"]) == 2
    assert "egg cartons" not in english
    assert "estambre" in spanish
    assert "egg cartons" in flat(signed_in.get(at("document-prepare", "family-letter", school)))


def test_a_thing_that_is_not_on_the_list_and_an_eleventh_are_refused(signed_in, desk, school):
    assert "is not on the wish list" in flat(typed(signed_in, school, things="zip ties"))
    names = [f"thing {number}" for number in range(11)]
    for what in names:
        add_need(desk=desk, what=what, household=True)
    assert "1 too many" in flat(typed(signed_in, school, things="\n".join(names)))


def test_words_that_press_are_refused_at_their_field_and_stay_typed(signed_in, school):
    answer = typed(signed_in, school, own="Every family should send two.")
    assert answer.status_code == 200
    assert "presses families" in str(answer.context["form"].errors["own"])
    assert "Every family should send two." in answer.content.decode()


def test_days_the_wrong_way_round_and_a_short_slip_are_refused(signed_in, school):
    answer = typed(signed_in, school, from_on="2026-09-25", until_on="2026-09-01", other_slip="one\ntwo")
    assert {"until_on", "other_slip"} <= set(answer.context["form"].errors)


def test_it_stays_a_draft_and_stays_here_until_that_school_approves(signed_in, desk, school):
    other = make_school(desk.program, "North Ridge Elementary")
    approve(desk, other)
    kept(signed_in, school, own="We make puppets.")
    assert "DRAFT" in pages(signed_in.get(at("document", "family-letter", school)))[0]
    gone = {"state": "handed_over", "once": "a"}
    signed_in.post(at("document-hand-over", "family-letter", school), gone)
    assert Letter.objects.get().state == "draft"
    approve(desk, school)
    assert "DRAFT" not in pages(signed_in.get(at("document", "family-letter", school)))[0]
    signed_in.post(at("document-hand-over", "family-letter", school), {**gone, "once": "b"})
    letter = Letter.objects.get()
    assert (letter.state, letter.school) == ("handed_over", school)
    assert "We make puppets." in pages(signed_in.get(reverse("letters:letter-pdf", args=[letter.pk])))[0]


def test_the_grade_is_read_while_typing_and_long_sentences_are_marked(signed_in, school):
    long = "We will use every single one of these many small things for puppets that all the children make."
    page = flat(signed_in.get(at("document-reading", "family-letter", school), {"own": long}))
    assert f"<mark>{long}</mark>" in page
    assert "Flesch–Kincaid" in page
    assert "Szigriszt-Pazos" in page
    assert "<mark>" not in flat(signed_in.get(at("document-reading", "family-letter", school)))


def test_copies_are_counted_on_the_page_and_on_the_slip_for_the_copier(signed_in, school):
    kept(signed_in, school, spare="3")
    assert "27 letters" in flat(signed_in.get(at("document-prepare", "family-letter", school)))
    assert "27 copies (24 + 3 spare)" in pages(signed_in.get(at("document", "letter-copies", school)))[0]


def test_the_approval_sheet_shows_the_letter_as_it_is_written_now_and_the_time_a_yes_takes(signed_in, desk, school):
    add_procedure(desk=desk, school=school, what_for="letters_home", who="the principal", days_ahead=5)
    kept(signed_in, school, drop_off="the blue bin", from_on=str(localdate() + timedelta(days=60)))
    (sheet,) = pages(signed_in.get(at("document", "letter-approval", school)))
    assert "the blue bin" in sheet
    assert "5 school days before the collecting begins" in " ".join(sheet.split())


def test_the_approval_is_recorded_from_there_for_letters_home(signed_in, school):
    page = signed_in.get(reverse("school:approval-new", args=[school.pk]), {"what_for": "letters_home"})
    assert page.context["form"].initial["what_for"] == "letters_home"


def test_a_letter_that_went_out_begins_again_with_its_words_and_last_years_days_do_not(signed_in, desk, school):
    add_approval(desk=desk, school=school, what_for="letters_home", by="Maria Ortega", on=TUESDAY, until=None)
    days = {"until_on": str(TUESDAY + timedelta(days=9)), "return_by": str(TUESDAY + timedelta(days=3))}
    typed(signed_in, school, "family-letter", own="We build a city.", drop_off="the blue bin", **days)
    signed_in.post(at("document-hand-over", "family-letter", school), {"state": "handed_over"})
    assert not Letter.objects.filter(state="draft").exists()
    facts = prepare(desk, "family-letter", school.pk).facts
    assert (facts.own, facts.drop_off, facts.last) == ("We build a city.", "the blue bin", TUESDAY + timedelta(days=9))
    later = prepare(replace(desk, day=TUESDAY + timedelta(days=300)), "family-letter", school.pk).facts
    assert (later.own, later.drop_off, later.last, later.return_by) == ("We build a city.", "the blue bin", None, None)


def test_there_is_no_letter_to_one_giver_for_what_families_gave(signed_in, came):
    gift = came("egg cartons")
    for name in ("document", "document-prepare", "document-page"):
        assert status(signed_in, at(name, "gratitude-letter", gift)) == 404


def test_thanks_count_what_families_of_that_school_sent_in_the_time(signed_in, desk, school):
    other = make_school(desk.program, "North Ridge Elementary")
    for place, many in ((school, 40), (school, 25), (other, 9)):
        lines = [Line(description="egg cartons", quantity=many)]
        receive(desk=desk, source="families", day=TUESDAY, form="goods", school=place, lines=lines)
    answer = typed(signed_in, school, "family-thanks", became="A city of boxes.", became_es="Una ciudad.")
    assert answer.status_code == 302
    english, spanish = pages(signed_in.get(at("document", "family-thanks", school)))
    assert "65 egg cartons" in english
    assert "A city of boxes." in english
    assert "cartones de huevos: 65" in spanish
    typed(signed_in, school, "family-thanks", from_on="2026-01-01", until_on="2026-02-01")
    assert "egg cartons" not in pages(signed_in.get(at("document", "family-thanks", school)))[0]


def test_the_next_thanks_are_for_what_the_last_ones_did_not_tell(signed_in, school, came):
    came("egg cartons", TUESDAY - timedelta(days=3))
    came("jars", TUESDAY - timedelta(days=1))
    typed(signed_in, school, "family-thanks", until_on=str(TUESDAY - timedelta(days=2)))
    signed_in.post(at("document-hand-over", "family-thanks", school), {"state": "handed_over"})
    came("corks", TUESDAY - timedelta(days=3))
    english = pages(signed_in.get(at("document", "family-thanks", school)))[0]
    assert "9 corks" in english
    assert "9 jars" in english
    assert "egg cartons" not in english


def test_what_came_later_on_the_day_of_the_thanks_stands_in_the_next_ones_and_undo_owes_all(signed_in, school, came):
    first = came("egg cartons")
    signed_in.post(at("document-hand-over", "family-thanks", school), {"state": "handed_over"})
    event = Event.objects.latest("pk")
    assert "Thanked on" in signed_in.get(first.get_absolute_url()).content.decode()
    assert "By Tuesday, October 13" in signed_in.get(came("corks").get_absolute_url()).content.decode()
    english = pages(signed_in.get(at("document", "family-thanks", school)))[0]
    assert ("9 corks" in english, "egg cartons" in english) == (True, False)
    signed_in.post(reverse("story:undo", args=[event.pk]))
    assert Gift.objects.get(pk=first.pk).families_thanked_on is None
    english = pages(signed_in.get(at("document", "family-thanks", school)))[0]
    assert ("9 corks" in english, "egg cartons" in english) == (True, True)


def test_money_from_families_is_thanked_for_without_its_amount(signed_in, school, came):
    came("", form="money", amount_cents=2000, money_kind="cash")
    english, spanish = pages(signed_in.get(at("document", "family-thanks", school)))
    assert "money for the art room" in english
    assert "On October 6, 2026 these" in english
    assert "dinero" in spanish
    assert "20" not in english.split("homes:")[1].split("We do not know")[0]


@pytest.mark.parametrize("page", ["school", "wish_list", "families"])
def test_letters_home_are_one_click_away(signed_in, school, page):
    where = {
        "school": school.get_absolute_url(),
        "wish_list": reverse("wish_list:need-list"),
        "families": reverse("gifts:family-list"),
    }[page]
    slug = "family-thanks" if page == "families" else "family-letter"
    assert at("document-prepare", slug, school) in signed_in.get(where).content.decode()


def test_guests_do_not_word_letters_and_unknown_schools_are_not_there(client, june, grace, school):
    place = at("document-reading", "family-letter", school)
    assert status(enter(client, grace), place) == 403
    assert status(enter(client, june), place, "post") == 405
    assert status(client, reverse("outreach:document-reading", args=["family-letter", UNKNOWN])) == 404
