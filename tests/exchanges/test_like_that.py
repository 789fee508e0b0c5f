"""A trade that begins like an earlier one."""

from datetime import date

import pytest
import time_machine
from django.urls import reverse

from partners.directory.models import Partner
from partners.exchanges.actions import PlainItems
from partners.exchanges.count_actions import close_part
from partners.ground.traces import REMOVED
from partners.promises.models import Side
from partners.school.project_actions import add_project
from tests import people
from tests.exchanges.trades import DAY, PLAIN_DUE, make_trade
from tests.ladder import flat

pytestmark = pytest.mark.django_db
NEW = reverse("exchanges:trade-new")
LATER = "2027-02-02"


@pytest.fixture
def settled(desk):
    plain = PlainItems(side=Side.THEM, due=PLAIN_DUE, carrier="their van")
    made = make_trade(desk, carrier="June", materials="pens", plain=plain, names_on_work="grade", note="rings twice")
    for promise in made.promises.all():
        close_part(desk=desk, promise=promise, day=DAY, all_of_it=True)
    return made


@pytest.fixture(autouse=True)
def next_year():
    with time_machine.travel(f"{LATER} 15:00 -0500", tick=False):
        yield


def shown(client, address):
    form = client.get(address).context["form"]
    fields = [*form, *(field for line in form.gives for field in line)]
    values = {field.html_name: field.value() for field in fields if field.value() or field.value() == 0}
    return values | {"partner": getattr(values.get("partner"), "pk", "")}


def test_all_but_the_days_and_the_note_stands_there(signed_in, desk, settled):
    values = shown(signed_in, f"{NEW}?like={settled.pk}")
    assert {
        "partner": str(settled.partner_id), "what": "decorated seed packets", "at_least": 200, "at_most": 250,
        "carrier": "June", "plain_by": "them", "plain_carrier": "their van", "materials": "pens",
        "names_on_work": "grade", "give-0-what": "terracotta pots", "give-0-quantity": 60,
        "give-0-carrier": "they bring them", "agreed_on": date(2027, 2, 2),
    }.items() <= values.items()  # fmt: skip
    assert not {"due", "plain_due", "plain_what", "plain_quantity", "give-0-due", "note"} & values.keys()
    page = flat(signed_in.get(f"{NEW}?like={settled.pk}"))
    assert "Last time: December 4, 2026." in page
    assert "Left empty: on the day we deliver. Last time: April 9, 2027." in page
    assert desk.trades.count() == 1


def test_one_day_is_all_that_is_typed(signed_in, program, settled):
    values = shown(signed_in, f"{NEW}?like={settled.pk}")
    more = {"partner": "", "partner_pk": settled.partner_id, "due": "2027-04-09", "agreed_on": LATER}
    form = {"give-TOTAL_FORMS": "3", "give-INITIAL_FORMS": "1"}
    answer = signed_in.post(f"{NEW}?like={settled.pk}", {**values, **form, **more})
    trade = program.trades.exclude(pk=settled.pk).get()
    assert (answer.status_code, answer.url) == (302, trade.get_absolute_url())
    assert [(one.words, one.carrier) for one in trade.promises.order_by("part")] == [
        ("60 terracotta pots", "they bring them"), ("200 to 250 decorated seed packets", "June"),
        ("275 plain seed packets", "their van"),
    ]  # fmt: skip


def test_it_may_be_with_somebody_else_and_takes_no_project_that_is_over(signed_in, desk, settled):
    other = people.make_partner(desk.program, name="Mill Street Arts Center")
    over = add_project(desk=desk, title="Pots", ends_on=date(2026, 12, 18))
    settled.project = over
    settled.save()
    values = shown(signed_in, f"{NEW}?like={settled.pk}&partner={other.pk}")
    assert (values["partner"], "project" in values) == (str(other.pk), False)


def test_nothing_is_agreed_with_who_asked_to_be_forgotten(signed_in, program, settled):
    Partner.objects.update(name=REMOVED)
    values = shown(signed_in, f"{NEW}?like={settled.pk}")
    assert (values["what"], values["partner"]) == ("decorated seed packets", "")
    sent = {**values, "partner_pk": settled.partner_id, "due": "2027-04-09", "agreed_on": LATER}
    answer = signed_in.post(NEW, {**sent, "give-TOTAL_FORMS": "3", "give-INITIAL_FORMS": "1"})
    assert "They asked to be forgotten" in flat(answer)
    assert program.trades.count() == 1


def test_words_that_were_asked_about_are_asked_about_before_it_is_sent(signed_in, settled):
    settled.what = "banners"
    settled.save()
    assert 'name="heeded"' in flat(signed_in.get(f"{NEW}?like={settled.pk}"))


def test_the_way_there(signed_in, desk, settled):
    like = f"{NEW}?like={settled.pk}"
    for address in (settled.get_absolute_url(), settled.partner.get_absolute_url()):
        assert f'href="{like}"' in flat(signed_in.get(address))
    assert f"?partner={settled.partner_id}&amp;like={settled.pk}" in flat(
        signed_in.get(f"{NEW}?partner={settled.partner_id}")
    )
    going_on = make_trade(desk)
    assert f"like={going_on.pk}" not in flat(signed_in.get(going_on.get_absolute_url()))


@pytest.mark.parametrize("asked", ["like=x", "like=9999999999999999999", "like=5", "partner=x"])
def test_an_address_that_names_no_trade_begins_with_nothing(signed_in, asked):
    assert "Begin with the same" not in flat(signed_in.get(f"{NEW}?{asked}"))
    assert "what" not in shown(signed_in, f"{NEW}?{asked}")
