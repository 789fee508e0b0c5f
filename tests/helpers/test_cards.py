"""Job cards and the welcome of a school."""

from __future__ import annotations

import pytest
from django.urls import reverse

from partners.agenda.check_book import differences
from partners.ground.models import Event
from partners.ground.reference import reference
from partners.helpers import card_actions as actions
from partners.helpers.job_cards import (
    MOST_STEPS,
    caution_words,
    mentioned,
    ready_card,
    ready_cards,
    steps_in,
    unsafe_treat,
)
from partners.helpers.jobs import Job
from partners.helpers.show_models import JobCard, Welcome
from tests.ladder import UNKNOWN, enter, flat, status
from tests.people import make_desk, make_program, make_school
from tests.whole_book import rows, undo_newest

pytestmark = pytest.mark.django_db

LIST, NEW = reverse("helpers:card-list"), reverse("helpers:card-new")
WANTED = {"cutting", "sorting", "mounting", "labelling", "hanging", "taking_down", "photographing", "sewing"}
CARD = {"job": "sorting", "title": "Sorting yarn", "steps": "1. Take a basket.\n2) Sort by color.\n\n- Tie a label on."}


@pytest.fixture
def card(desk):
    return actions.add_card(desk=desk, title="Our cards", steps=["Cut.", "Fold."], job="cutting")


@pytest.mark.parametrize("language", ["en", "es"])
def test_there_is_a_ready_card_for_each_of_the_usual_jobs(language):
    cards = ready_cards(language)
    assert {card.job for card in cards} == WANTED <= set(Job.values)
    for card in cards:
        assert 1 <= len(card.steps) <= MOST_STEPS
        assert all((card.title, card.with_what, card.where_it_goes, card.looks_done))
        assert max(map(len, (card.with_what, card.where_it_goes, card.looks_done))) <= 300


def test_both_languages_of_a_ready_card_say_the_same_number_of_things():
    for job in WANTED:
        english, spanish = ready_card(job, "en"), ready_card(job, "es")
        assert (len(english.steps), english.cautions) == (len(spanish.steps), spanish.cautions)


def test_ready_cards_are_marked_as_common_practice():
    assert reference("job_cards")["evidence"] == "common practice"


def test_a_job_without_a_ready_card_has_none():
    assert ready_card("other", "en") is None


@pytest.mark.parametrize(
    ("text", "codes"),
    [
        ("Climb the ladder", ("ladder",)),
        ("Trim with the PAPER CUTTER or a knife.", ("cutter",)),
        ("Empty the kiln", ("kiln",)),
        ("Vacíe el horno", ("kiln",)),
        ("Take pictures of the pins", ("needles", "pictures")),
        ("Use the iron-on tape", ("hot_glue",)),
        ("Spin the wool; the environment is calm", ()),
        ("", ()),
    ],
)
def test_what_the_words_name_calls_for_its_caution(text, codes):
    assert mentioned(text) == codes


def test_a_caution_nobody_chose_is_printed_where_the_steps_name_the_thing():
    words = caution_words([], ["Unload the kiln"], "en")
    assert words[0] == "Kiln: only adults who are trained for it, and only when it is off and cold."
    assert words[-1] == "Stay where staff can see you. Never be alone with a child."


def test_nobody_alone_with_a_child_stands_on_every_card():
    assert caution_words([], [], "es") == ("Quédese donde el personal le vea. Nunca esté a solas con un niño.",)


def test_numbers_typed_before_a_step_go():
    assert steps_in(CARD["steps"]) == ["Take a basket.", "Sort by color.", "Tie a label on."]
    assert steps_in("3 sheets at a time") == ["3 sheets at a time"]


@pytest.mark.parametrize(
    ("text", "unsafe"),
    [
        ("Home-made cookies", True),
        ("A bag of mixed nuts", True),
        ("peanuts", True),
        ("Galletas caseras", True),
        ("Factory-sealed, label kept, nut-free", False),
        ("Sealed granola bar, no nuts", False),
        ("Donut holes, sealed", False),
        ("", False),
    ],
)
def test_a_treat_that_may_hurt_is_noticed(text, unsafe):
    assert unsafe_treat(text) is unsafe


@pytest.mark.parametrize(
    "change",
    [
        lambda desk, card: actions.add_card(desk=desk, title="New", steps=["One."]),
        lambda desk, card: actions.edit_card(desk=desk, card=card, steps=["Cut twice."]),
        lambda desk, card: actions.remove_card(desk=desk, card=card),
        lambda desk, card: actions.write_welcome(desk=desk, school=make_school(desk.program, "Hill"), room="14"),
    ],
)
def test_each_verb_is_one_change_and_its_undo_leaves_no_trace(desk, card, change):
    make_school(desk.program)
    before, events = rows(desk.program), Event.objects.count()
    change(desk, card)
    assert Event.objects.count() == events + 1
    undo_newest(desk)
    after = rows(desk.program)
    assert {key: row for key, row in after.items() if key in before} == before
    assert differences(desk.program) == []


def test_a_ready_card_is_copied_and_stays_as_it_is(signed_in):
    page = flat(signed_in.get(NEW, {"ready": "hanging", "language": "en"}))
    assert "Lay the works on the floor first, in rows." in page
    form = signed_in.get(NEW, {"ready": "hanging", "language": "en"}).context["form"]
    sent = {name: form[name].value() for name in form.fields}
    assert signed_in.post(NEW, {**sent, "title": "Hanging in our hall"})["Location"] == LIST
    own = JobCard.objects.get()
    assert (own.job, own.title, len(own.steps), own.cautions) == ("hanging", "Hanging in our hall", 7, ["ladder"])
    assert ready_card("hanging", "en").title == "Hanging a show"


def test_steps_are_kept_one_a_line(signed_in):
    signed_in.post(NEW, CARD)
    assert JobCard.objects.get().steps == ["Take a basket.", "Sort by color.", "Tie a label on."]


@pytest.mark.parametrize(
    ("sent", "field"),
    [
        ({"title": ""}, "title"),
        ({"title": "Our cards"}, "__all__"),
        ({"steps": " \n 1. \n"}, "steps"),
        ({"steps": "\n".join(f"step {n}" for n in range(8))}, "steps"),
        ({"steps": "x" * 161}, "steps"),
        ({"job": "flying"}, "job"),
        ({"cautions": ["dragons"]}, "cautions"),
    ],
)
def test_an_error_stands_at_its_field_and_nothing_is_lost(signed_in, card, sent, field):
    answer = signed_in.post(NEW, {**CARD, "with_what": "baskets & bags", **sent})
    assert list(answer.context["form"].errors) == [field]
    assert 'value="baskets &amp; bags"' in flat(answer)
    assert JobCard.objects.count() == 1


def test_eight_steps_are_told_by_how_many_they_are_too_many(signed_in):
    answer = signed_in.post(NEW, {**CARD, "steps": "\n".join(f"step {n}" for n in range(9))})
    assert "These are 9 steps, 2 too many." in flat(answer)


def test_a_card_is_changed_and_taken_out(signed_in, card):
    edit = reverse("helpers:card-edit", args=[card.pk])
    assert "Cut.\nFold." in signed_in.get(edit).content.decode()
    signed_in.post(edit, {**CARD, "seen": "1", "once": "a"})
    card.refresh_from_db()
    assert card.title == "Sorting yarn"
    signed_in.post(reverse("helpers:card-remove", args=[card.pk]), {"once": "b"})
    assert not JobCard.objects.exists()


def test_the_welcome_begins_with_safe_words_and_is_kept(signed_in, program):
    school = make_school(program)
    address = reverse("helpers:welcome-edit", args=[school.pk])
    assert "factory-sealed, label kept, nut-free" in flat(signed_in.get(address))
    signed_in.post(address, {"room": "Room 14", "at_office": "a sealed bar, no nuts", "once": "a"})
    welcome = Welcome.objects.get()
    assert (welcome.school, welcome.room) == (school, "Room 14")
    answer = signed_in.post(address, {"room": "Room 15", "seen": "1", "at_office": "home-made fudge"}, follow=True)
    assert "Factory-sealed, with its label and nut-free is safer." in flat(answer)
    assert Welcome.objects.get().room == "Room 15"


def test_two_people_changing_one_welcome_are_told(signed_in, desk):
    school = make_school(desk.program)
    actions.write_welcome(desk=desk, school=school, room="14")
    address = reverse("helpers:welcome-edit", args=[school.pk])
    signed_in.post(address, {"room": "15", "seen": "1", "once": "a"})
    assert signed_in.post(address, {"room": "16", "seen": "1", "once": "b"}).status_code == 409


@pytest.mark.parametrize("name", ["card-edit", "card-remove", "welcome-edit"])
def test_the_ladder(client, grace, june, otto, name):
    foreign = make_desk(otto.program)
    card, school = actions.add_card(desk=foreign, title="X", steps=["y"]), make_school(otto.program)
    pk = school.pk if name == "welcome-edit" else card.pk
    address, unknown = (reverse(f"helpers:{name}", args=[number]) for number in (pk, UNKNOWN))
    assert status(client, address, "post") == 302
    assert status(enter(client, grace), address, "post") == 403
    assert status(enter(client, june), address, "post") == 404
    assert status(client, unknown, "post") == 404
    assert status(client, address, "put") == 405


def test_a_guest_reads_cards_only_where_helpers_are_opened(client, grace):
    assert status(enter(client, grace), LIST) == 403
    grace.opened = ["helpers"]
    grace.save()
    page = flat(client.get(LIST))
    assert "Hanging a show" in page
    assert NEW not in page


def test_the_list_takes_few_questions(signed_in, desk, django_assert_max_num_queries):
    for number in range(30):
        actions.add_card(desk=desk, title=f"Card {number}", steps=["One."])
        make_school(desk.program, f"School {number}")
    with django_assert_max_num_queries(12):
        signed_in.get(LIST)


def test_another_program_has_its_own_cards(desk, card):
    assert list(make_desk(make_program("Other")).job_cards) == []
