"""What the "Log a visit" page makes of nonsense: a clear sentence, nothing saved, and nothing typed lost."""

from __future__ import annotations

import pytest
import time_machine

from partners.directory.actions import add_partner
from partners.directory.models import Partner
from partners.visits.models import Visit
from tests.people import make_school

pytestmark = pytest.mark.django_db

NEW = "/visits/new/"


@pytest.fixture(autouse=True)
def on_tuesday():
    with time_machine.travel("2026-10-06 17:00 -0400", tick=False):
        yield


@pytest.fixture
def partner(desk):
    return add_partner(desk=desk, name="Riverbend Garden Center")


def said(partner, happened="hello", **values):
    where = {"partner_pk": partner.pk} if isinstance(partner, Partner) else {"partner": partner}
    return {**where, "happened": happened, **values}


def errors(response):
    assert response.status_code == 200
    return response.context["form"].errors


WRONG = [
    ({"day": "2026-10-07"}, "day", "That day is still ahead. A visit is logged once it has been."),
    ({"day": "1926-10-06"}, "day", "That is more than five years ago. Is the year right?"),
    ({"day": "soon"}, "day", "Enter a valid date."),
    ({"quantity": "1000000000000"}, "quantity", "This book counts to one million. Is that number right?"),
    ({"quantity": "-3"}, "quantity", "Ensure this value is greater than or equal to 1."),
    ({"quantity": "many"}, "quantity", "Enter a whole number."),
    ({"collect_by": "2026-10-05"}, "collect_by", "That day is not after the visit."),
    ({"collect_by": "2126-10-05"}, "collect_by", "That is more than three years ahead. Is the year right?"),
    ({"amount": "12,5"}, "amount", "12,5 can be read in two ways."),
    ({"note": "x" * 100_000}, "note", "Ensure this value has at most 2000 characters (it has 100000)."),
    ({"what": "x" * 161}, "what", "Ensure this value has at most 160 characters (it has 161)."),
    ({"our_promise": "a card", "our_promise_by": "2026-10-05"}, "our_promise_by", "That day is not after the visit."),
    ({"how": "by pigeon"}, "how", "Select a valid choice."),
    ({"contact_name": "a\x00b"}, "contact_name", "Null characters are not allowed."),
]


@pytest.mark.parametrize(("values", "field", "sentence"), WRONG)
def test_nonsense_is_answered_in_a_sentence_and_nothing_is_lost(signed_in, partner, values, field, sentence):
    answer = signed_in.post(NEW, said(partner, "yes", reason="kept", **values))
    assert errors(answer)[field][0].startswith(sentence)
    assert 'value="kept"' in answer.content.decode()
    assert answer.context["picked"] == partner
    assert not Visit.objects.exists()


@pytest.mark.parametrize(("happened", "wrong"), [("maybe", "back_on"), ("offered", "collect_by")])
def test_a_day_before_the_visit_is_refused(signed_in, partner, happened, wrong):
    assert wrong in errors(signed_in.post(NEW, said(partner, happened, **{wrong: "2026-10-01"})))


def test_no_school_day_at_all_is_told_and_nothing_is_lost(signed_in, program, partner):
    make_school(program, weekdays=[])
    answer = signed_in.post(NEW, said(partner, "maybe", note="kept"))
    assert "choose its weekdays first" in str(errors(answer)["__all__"])
    assert not Visit.objects.exists()


def test_markup_in_names_is_shown_and_not_obeyed(signed_in):
    name = '<img src=x onerror=alert(1)> & "Sons" 🎨'
    saved = signed_in.post(
        NEW, said(name, contact_name="<b>Pat</b>", note="</p><script>"), follow=True
    ).content.decode()
    assert Partner.objects.get().name == name
    assert "<img src=x" not in saved
    assert "<b>Pat" not in saved
    assert "</p><script>" not in saved
    assert "&lt;img src=x" in saved


def test_a_name_of_signs_only_is_no_name(signed_in):
    assert errors(signed_in.post(NEW, said("🎨🎨")))["partner"] == ["Type a name with at least one letter or digit."]
