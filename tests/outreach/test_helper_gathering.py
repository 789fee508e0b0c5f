"""From the record to the sheets and mails of sessions, shows and helpers."""

from __future__ import annotations

import email
from dataclasses import replace
from datetime import date, time
from email.policy import default

import pytest
import time_machine
from django.urls import reverse

from outreach.gathering import helper as gather_helper
from outreach.gathering import session as gather_session
from outreach.gathering import show as gather_show
from outreach.gathering.session_mail import mail_file, session_mail
from partners.helpers import actions as people_actions
from partners.helpers.card_actions import add_card, write_welcome
from partners.helpers.models import Helper
from partners.helpers.session_actions import add_session, ask_helpers, came, count, reply
from partners.helpers.show_actions import add_show
from partners.letters.models import Letter
from tests.ladder import UNKNOWN, enter, flat, status
from tests.outreach.sheets import Printed
from tests.people import make_desk, make_school

pytestmark = pytest.mark.django_db

DAY = date(2026, 10, 13)
AT = {"starts": time(13), "ends": time(14, 30), "place": "Art room", "needed": 3}


@pytest.fixture(autouse=True)
def on_tuesday():
    with time_machine.travel("2026-10-06 17:00 -0400", tick=False):
        yield


@pytest.fixture
def school(program):
    program.email, program.phone = "june@example.org", "(201) 555-0100"
    program.save()
    return make_school(program, phone="(201) 555-0101")


@pytest.fixture
def session(desk, school):
    return add_session(desk=desk, day=DAY, school=school, job="hanging", **AT)


def make_helper(desk, name, **values) -> Helper:
    return people_actions.add_helper(desk=desk, name=name, **values)


def with_answers(desk, session) -> dict[str, Helper]:
    """Ana and Ben said yes, Cleo nothing yet, Dov no, Eva was not asked."""
    cast = {
        name: make_helper(desk, name, phone=f"(201) 555-014{place}", email=mail, language=language)
        for place, (name, mail, language) in enumerate(
            [
                ("Ana", "ana@example.org", "Spanish"), ("Ben", "", ""), ("Cleo", "cleo@example.org", "English"),
                ("Dov", "dov@example.org", ""), ("Eva", "eva@example.org", ""),
            ]
        )
    }  # fmt: skip
    turns = ask_helpers(desk=desk, session=session, helpers=[cast[name] for name in ("Ana", "Ben", "Cleo", "Dov")])
    for turn, answer in zip(turns, ("yes", "yes", "silent", "no"), strict=True):
        reply(desk=desk, turn=turn, answer=answer, day=desk.day)
    session.refresh_from_db()
    return cast


def test_the_card_takes_the_welcome_and_the_ready_steps(desk, school, session):
    write_welcome(desk=desk, school=school, room="Room 14", whom_to_call="Ms. Odell")
    facts = gather_session.gather_card(desk, session, {})
    assert (facts.title, facts.room, facts.whom_to_call) == ("Hanging a show", "Room 14", "Ms. Odell")
    assert (facts.ends, len(facts.steps)) == (time(14, 30), 7)
    assert gather_session.gather_card(desk, session, {"language": "es"}).title == "Colgar la muestra"


def test_an_own_card_comes_before_the_ready_one_and_keeps_its_cautions(desk, session):
    session.card = add_card(desk=desk, title="Our way", steps=["Climb the ladder."], job="hanging")
    facts = gather_session.gather_card(desk, session, {})
    assert (facts.title, facts.steps) == ("Our way", ("Climb the ladder.",))
    assert facts.cautions[0].startswith("Ladder: two adults")


def test_a_session_without_school_takes_no_welcome_of_another(desk, school):
    make_school(desk.program, "North Ridge Elementary")
    write_welcome(desk=desk, school=school, room="Room 14")
    session = add_session(desk=desk, day=DAY, job="sorting", **AT)
    assert gather_session.gather_card(desk, session, {}).room == ""


def test_the_office_gets_names_and_the_teacher_phones(desk, session):
    with_answers(desk, session)
    assert gather_session.gather_sign_in(desk, session, {}).names == ("Ana", "Ben")
    calls = gather_session.gather_calls(desk, session, {})
    assert [one.name for one in calls.asked] == ["Cleo"]
    assert [(one.name, one.phone) for one in calls.said_yes] == [("Ana", "(201) 555-0140"), ("Ben", "(201) 555-0141")]


def test_phones_of_another_schools_helpers_are_not_printed(desk, school, session):
    with_answers(desk, session)
    other = make_school(desk.program, "North Ridge Elementary")
    desk.helpers.filter(name="Ana").update(school=other)
    narrow = replace(desk, school_ids=frozenset({school.pk}))
    assert [one.name for one in gather_session.gather_calls(narrow, session, {}).said_yes] == ["Ben"]


def test_the_night_before_lists_what_is_ahead(desk, school):
    show = add_show(desk=desk, title="Winter lights", opens_on=date(2026, 10, 14), works=24, school=school)
    session = add_session(desk=desk, day=DAY, school=school, job="hanging", show=show, **AT)
    add_session(desk=desk, day=date(2026, 10, 20), school=school, job="taking_down", show=show, **AT)
    with_answers(desk, session)
    facts = gather_show.gather(desk, show, {})
    assert [(one.day, one.names) for one in facts.sessions] == [(DAY, ("Ana", "Ben"))]
    assert facts.phones == (
        ("Millrace Elementary", "(201) 555-0101"), ("Ana", "(201) 555-0140"), ("Ben", "(201) 555-0141"),
    )  # fmt: skip
    assert "step ladder" in facts.bring
    assert (facts.panels, len(facts.order)) == (2, 7)


def test_the_note_adds_this_years_hours(desk, session):
    ana = with_answers(desk, session)["Ana"]
    came(desk=desk, turn=session.turns.get(helper=ana), minutes=75)
    last_year = add_session(desk=desk, day=date(2026, 5, 5), job="cutting", **AT)
    came(desk=desk, turn=ask_helpers(desk=desk, session=last_year, helpers=[ana])[0])
    facts = gather_helper.gather(desk, ana, {"language": "en"})
    assert (facts.minutes, facts.jobs) == (75, ("hanging a show",))
    assert gather_helper.gather(desk, ana, {}).language == "es"


def test_confirming_reaches_those_who_said_yes_in_their_languages(desk, session):
    with_answers(desk, session)
    mail = session_mail(desk, session, "week")
    assert (mail.receivers, mail.without) == (("ana@example.org",), 1)
    assert mail.subject == "La próxima semana: colgar una muestra, martes, 13 de octubre de 2026"
    assert "(201) 555-0100" in mail.body
    desk.helpers.filter(name="Ben").update(email="ben@example.org")
    both = session_mail(desk, session, "day")
    assert both.subject.startswith("Soon: hanging a show, Tuesday, October 13, 2026 / Pronto:")


def test_two_short_goes_to_whoever_has_not_answered(desk, session):
    with_answers(desk, session)
    desk.helpers.filter(name="Eva").update(stopped_on=desk.day)
    make_helper(desk, "Fay", email="fay@example.org")
    mail = session_mail(desk, session, "short")
    assert mail.receivers == ("cleo@example.org", "fay@example.org")
    assert "One helper is still missing for this:" in mail.body


def test_thanks_go_to_who_came(signed_in, desk, session):
    ana = with_answers(desk, session)["Ana"]
    came(desk=desk, turn=session.turns.get(helper=ana))
    count(desk=desk, session=session, day=DAY)
    page = flat(signed_in.get(reverse("outreach:session-sheets", args=[session.pk])))
    assert reverse("outreach:session-mail-thanks", args=[session.pk]) in page
    mail = session_mail(desk, session, "thanks")
    assert (mail.receivers, mail.subject[:8]) == (("ana@example.org",), "Gracias:")


@pytest.mark.parametrize("kind", ["week", "day", "short"])
def test_no_address_of_a_receiver_is_seen_by_another(desk, session, kind):
    with_answers(desk, session)
    desk.helpers.filter(name="Ben").update(email="ben@example.org")
    data = mail_file(desk, session, kind)
    hidden = session_mail(desk, session, kind).receivers
    read = email.message_from_bytes(data, policy=default)
    assert {one.addr_spec for one in read["Bcc"].addresses} == set(hidden)
    assert len(hidden) == 2
    del read["Bcc"]  # as every program does that sends it (RFC 5322, 3.6.3)
    left = read.as_bytes()
    assert not [one for one in hidden if one.encode() in left]
    assert {one.addr_spec for one in read["To"].addresses} == {"june@example.org"}


def test_the_page_says_what_is_missing_and_who_has_no_mail(signed_in, desk, session):
    with_answers(desk, session)
    page = flat(signed_in.get(reverse("outreach:session-sheets", args=[session.pk])))
    for words in (
        "Where is the room?",
        "Print, English",
        "Print, Spanish",
        "1 address; 1 has no e-mail",
        "Helpers are still",
    ):
        assert words in page


def test_a_draft_comes_as_a_file(signed_in, desk, session):
    address = reverse("outreach:session-mail-week", args=[session.pk])
    assert signed_in.get(address)["Location"] == reverse("outreach:session-sheets", args=[session.pk])
    with_answers(desk, session)
    answer = signed_in.get(address)
    assert answer["Content-Type"] == "message/rfc822"
    assert answer["Content-Disposition"] == f'attachment; filename="session-{session.pk}-week.eml"'
    desk.program.email = ""
    desk.program.save()
    assert signed_in.get(address).status_code == 302


def test_nobody_is_looked_for_once_enough_said_yes(signed_in, desk, session):
    with_answers(desk, session)
    desk.sessions.filter(pk=session.pk).update(needed=2)
    address = reverse("outreach:session-mail-short", args=[session.pk])
    assert "Enough helpers said yes" in flat(signed_in.get(address, follow=True))


def test_a_sheet_is_printed_in_the_language_asked_for(signed_in, session):
    address = reverse("outreach:document", args=["job-card", session.pk])
    assert "Colgar la muestra" in Printed(signed_in.get(address, {"language": "es"}).content).text
    assert "Hanging a show" in Printed(signed_in.get(address, {"language": "xx"}).content).text


@pytest.mark.parametrize(("slug", "shown"), [("job-card", 200), ("sign-in-sheet", 200), ("call-sheet", 403)])
def test_a_guest_never_opens_what_holds_phones(client, grace, session, slug, shown):
    grace.opened = ["helpers", "letters", "today"]
    grace.save()
    assert status(enter(client, grace), reverse("outreach:document", args=[slug, session.pk])) == shown


def test_a_note_goes_out_through_the_register_under_its_helper(signed_in, desk, session):
    ana = with_answers(desk, session)["Ana"]
    address = reverse("outreach:document-hand-over", args=["helper-note", ana.pk])
    assert signed_in.post(address, {"state": "handed_over", "once": "a"}).status_code == 302
    letter = Letter.objects.get()
    assert (letter.helper, letter.document, letter.sheet is None) == (ana, "helper-note", False)


@pytest.mark.parametrize(
    "name",
    [
        "session-sheets",
        "session-mail-week",
        "session-mail-day",
        "session-mail-short",
        "session-mail-thanks",
        "show-sheets",
    ],
)
def test_the_ladder(client, grace, june, otto, name):
    foreign = make_desk(otto.program)
    pk = (
        add_show(desk=foreign, title="X", opens_on=DAY, works=6).pk
        if name == "show-sheets"
        else add_session(desk=foreign, day=DAY, **AT).pk
    )
    address = reverse(f"outreach:{name}", args=[pk])
    assert status(client, address) == 302
    assert status(enter(client, grace), address) == 403
    assert status(enter(client, june), address) == 404
    assert status(client, reverse(f"outreach:{name}", args=[UNKNOWN])) == 404
    assert status(client, address, "post") == 405
