"""The school's certificate and its rules of buying, as they are typed."""

import pytest
import time_machine
from django.urls import reverse

from partners.funding.buying_models import Certificate
from partners.funding.certificate_actions import add_certificate
from tests import people
from tests.ladder import flat

pytestmark = pytest.mark.django_db
CERTIFICATES = reverse("funding:certificate-list")
TODAY = "2026-10-06"


@pytest.fixture(autouse=True)
def tuesday():
    with time_machine.travel("2026-10-06 15:00 -0400", tick=False):
        yield


@pytest.fixture
def school(program):
    return people.make_school(program, state="Minnesota", tax_rate=68750, claim_days=30)


@pytest.fixture
def certificate(desk, school):
    return add_certificate(desk=desk, school=school, state="MN", number="EX-1")


def test_a_certificate_is_kept_renewed_and_refused_the_wrong_way_round(signed_in, school, certificate):
    new = reverse("funding:certificate-new")
    said = {"school": school.pk, "state": "mn", "number": "EX-2", "valid_from": TODAY, "valid_until": "2026-10-01"}
    assert "It ends before it begins." in flat(signed_in.post(new, said))
    signed_in.post(f"{new}?follows={certificate.pk}", {**said, "valid_until": "2029-10-01"})
    certificate.refresh_from_db()
    assert (certificate.renewed, Certificate.objects.latest("pk").state) == (True, "MN")
    assert "until October 1, 2029" in flat(signed_in.get(CERTIFICATES))


def test_the_school_s_rules_are_typed_as_people_say_them(signed_in, school):
    page = reverse("school:school-buying", args=[school.pk])
    assert "Minnesota’s own rate is 6.875%; local taxes come on top." in flat(signed_in.get(page))
    answer = signed_in.post(page, {"tax_rate": "600 %", "claim_days": "20", "repay_days": "30", "seen": "1"})
    assert "600% is no sales tax" in flat(answer)
    sent = {"tax_rate": "7.1255", "claim_days": "20", "repay_days": "30", "seen": "1"}
    assert "7.1255%" in flat(signed_in.post(page, sent, follow=True))
    school.refresh_from_db()
    assert (school.tax_rate, school.claim_days) == (71_255, 20)
