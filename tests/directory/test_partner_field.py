"""Choosing a partner by typing."""

from __future__ import annotations

import pytest
from django import forms
from django.http import QueryDict
from django.urls import reverse

from partners.directory.forms import PartnerField
from partners.directory.partner_field import suggestions
from partners.ground.forms import DeskForm
from tests.people import make_desk, make_partner
from tests.query_plan import plan_of

pytestmark = pytest.mark.django_db


class Strict(DeskForm):
    partner = PartnerField()
    note = forms.CharField(required=False)


class Loose(DeskForm):
    partner = PartnerField(new_allowed=True, required=False)


def filled(desk, sent, form=Strict):
    return form(QueryDict(sent), desk=desk)


def flat(form) -> str:
    return " ".join(str(form).split())


def test_a_picked_partner_is_taken(desk):
    partner = make_partner(desk.program)
    form = filled(desk, f"partner=&partner_pk={partner.pk}")
    assert form.is_valid()
    assert form.cleaned_data["partner"] == partner


def test_a_name_typed_without_accents_and_case_is_found(desk):
    partner = make_partner(desk.program, "Café Núñez & Søn")
    form = filled(desk, "partner=cafe NUNEZ and son")
    assert form.is_valid()
    assert form.cleaned_data["partner"] == partner


def test_another_programs_partner_is_refused_by_number_and_by_name(desk, otto):
    foreign = make_partner(otto.program, "Stone Quay Nursery")
    by_number = filled(desk, f"partner_pk={foreign.pk}")
    by_name = filled(desk, "partner=Stone Quay Nursery")
    assert not by_number.is_valid()
    assert not by_name.is_valid()
    assert "Stone Quay Nursery" not in str(by_number)
    assert "partner_pk" not in str(by_name["partner"])


@pytest.mark.parametrize("pk", ["x", "-1", "0", "99999999999999999999", "1 or 1=1", "٣"])
def test_a_number_that_is_nobodys_is_refused(desk, pk):
    make_partner(desk.program)
    assert not filled(desk, f"partner_pk={pk}").is_valid()


def test_two_partners_of_one_name_are_offered_to_choose(desk):
    one, other = make_partner(desk.program, city="Alder Falls"), make_partner(desk.program, city="Eastbrook")
    form = filled(desk, "partner=Riverbend Garden Center&note=kept")
    assert form.errors == {"partner": ["More than one partner has this name. Choose which."]}
    shown = flat(form)
    assert f'name="partner_pk" value="{one.pk}"' in shown
    assert f'name="partner_pk" value="{other.pk}"' in shown
    assert 'value="kept"' in shown


def test_a_name_that_is_nearly_right_offers_what_it_could_mean(desk):
    partner = make_partner(desk.program)
    form = filled(desk, "partner=riverbend")
    assert not form.is_valid()
    assert f'name="partner_pk" value="{partner.pk}"' in flat(form)
    assert 'value="riverbend"' in flat(form)


def test_an_unknown_name_is_refused_or_is_a_new_partner(desk):
    assert not filled(desk, "partner=Tamarack Hardware").is_valid()
    form = filled(desk, "partner= Tamarack Hardware ", Loose)
    assert form.is_valid()
    assert form.cleaned_data["partner"] == "Tamarack Hardware"


def test_nothing_typed_is_nobody_where_that_is_allowed(desk):
    form = filled(desk, "partner=", Loose)
    assert form.is_valid()
    assert form.cleaned_data["partner"] is None
    assert filled(desk, "").errors == {"partner": ["This field is required."]}


def test_a_new_name_needs_a_letter(desk):
    assert not filled(desk, "partner=!!!", Loose).is_valid()


def test_the_partner_a_form_opens_with_is_picked_and_a_typed_name_replaces_it(desk):
    first, second = make_partner(desk.program), make_partner(desk.program, "Bluebird Bakery")
    opened = Strict(desk=desk, initial={"partner": first.pk})
    assert f'value="{first.pk}" checked' in flat(opened)
    form = filled(desk, f"partner=bluebird bakery&partner_pk={first.pk}&partner_was={first.pk}")
    assert form.is_valid()
    assert form.cleaned_data["partner"] == second


def test_markup_in_a_name_is_shown_as_typed(desk):
    partner = make_partner(desk.program, "<b>Bold</b> Frames")
    assert "&lt;b&gt;Bold" in str(Strict(desk=desk, initial={"partner": partner}))


SUGGEST = reverse("directory:partner-suggest")


def test_suggestions_begin_with_what_is_typed_first(signed_in, program):
    make_partner(program, "Old Riverbend Mill")
    make_partner(program, "Riverbend Garden Center")
    found = signed_in.get(SUGGEST, {"field": "partner", "partner": "Riverb"}).content.decode()
    assert found.index("Riverbend Garden Center") < found.index("Old Riverbend Mill")
    assert 'name="partner_pk"' in found


def test_suggestions_find_people_and_other_scripts(signed_in, program):
    make_partner(program, "Bluebird Bakery", people_key="nguyen thi hoa")
    make_partner(program, "مكتبة النهر")
    assert "Bluebird Bakery" in signed_in.get(SUGGEST, {"q": "Nguyễn"}).content.decode()
    assert "مكتبة النهر" in signed_in.get(SUGGEST, {"q": "مكتبة"}).content.decode()


def test_at_most_eight_are_suggested_in_a_fixed_number_of_queries(signed_in, program, django_assert_num_queries):
    for number in range(20):
        make_partner(program, f"Shop {number:02d}")
    with django_assert_num_queries(4):
        found = signed_in.get(SUGGEST, {"q": "shop"}).content.decode()
    assert found.count("<input") == 8


def test_suggestions_stay_inside_the_program(signed_in, otto):
    make_partner(otto.program, "Stone Quay Nursery")
    assert "Stone Quay" not in signed_in.get(SUGGEST, {"q": "stone"}).content.decode()


def test_a_name_of_a_field_cannot_carry_markup(signed_in, program):
    make_partner(program)
    found = signed_in.get(SUGGEST, {"field": '"><script>', "q": "riverbend"}).content.decode()
    assert "<script" not in found
    assert 'name="partner_pk"' in found


def test_suggestions_need_sign_in_a_guest_who_reads_partners_and_get(client, signed_in, grace):
    assert signed_in.post(SUGGEST).status_code == 405
    signed_in.force_login(grace.user, backend="django.contrib.auth.backends.ModelBackend")
    assert signed_in.get(SUGGEST, {"q": "x"}).status_code == 200
    grace.opened = []
    grace.save()
    assert signed_in.get(SUGGEST, {"q": "x"}).status_code == 403
    signed_in.logout()
    assert signed_in.get(SUGGEST, {"q": "x"}).status_code == 302


def test_a_desk_with_nobody_signed_in_can_use_the_field(program):
    make_partner(program)
    assert filled(make_desk(program), "partner=riverbend garden center").is_valid()


def test_a_search_that_finds_nobody_reads_one_index(desk):
    make_partner(desk.program)
    plan = plan_of(lambda: suggestions(desk, "xyzzy"))
    assert plan.count("SEARCH partners_partner USING INDEX partner_by_name") == 2
    assert "TEMP B-TREE" not in plan
