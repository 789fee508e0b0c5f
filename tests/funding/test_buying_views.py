"""The screens of buying: what is typed, warned of, refused and shown."""

from functools import partial

import pytest
import time_machine
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from partners.funding import buying_actions as actions
from partners.funding.buying_actions import Bought
from partners.funding.buying_models import Purchase
from partners.funding.certificate_actions import add_certificate
from partners.funding.grant_models import Grant, GrantLine
from partners.program.models import Opened
from tests import people
from tests.ladder import UNKNOWN, enter, flat, status

pytestmark = pytest.mark.django_db
NEW, LIST, CERTIFICATES = (reverse(f"funding:{name}") for name in ("purchase-new", "purchase-list", "certificate-list"))
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


@pytest.fixture
def slip(desk, school, certificate):
    return actions.write_slip(
        desk=desk, vendor="Corner Art", what="clay", school=school, certificate=certificate, state="MN", note="Ask Bo"
    )


def at(name, purchase):
    return reverse(f"funding:purchase-{name}", args=[purchase.pk])


def typed(*lines, **values):
    """A receipt as the browser sends it: lines as (what, amount)."""
    data = {"line-TOTAL_FORMS": "3", "line-INITIAL_FORMS": "0", "bought_on": TODAY, "payer": "order"}
    for place, (what, amount) in enumerate(lines):
        data |= {f"line-{place}-what": what, f"line-{place}-cents": amount}
    return data | values


def test_a_slip_says_by_the_state_s_rule_whether_tax_is_due(signed_in, school, certificate):
    said = {"shop": "Corner Art", "what": "clay", "school": school.pk, "certificate": certificate.pk}
    page = flat(signed_in.post(NEW, {**said, "payer": "order", "estimate_cents": "120"}, follow=True))
    purchase = Purchase.objects.get()
    written = (purchase.state, purchase.vendor, purchase.partner, purchase.estimate_cents)
    assert written == ("MN", "Corner Art", None, 12_000)
    assert "No sales tax is due" in page
    assert "Sales Tax Fact Sheet 111" in page
    assert "No approval and no order number is written down." in page
    page = flat(signed_in.post(at("edit", purchase), {**said, "payer": "own", "seen": "1"}, follow=True))
    assert "Your own money or card is taxed, also when the school pays you back." in page
    assert "This is not tax advice." in page


def test_a_shop_that_is_a_partner_is_known_as_one(signed_in, program):
    partner = people.make_partner(program)
    signed_in.post(NEW, {"shop": "riverbend garden center", "what": "soil", "payer": "order"})
    assert Purchase.objects.get().partner == partner
    assert "Riverbend Garden Center" in flat(signed_in.get(f"{NEW}?partner={partner.pk}"))


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"shop": ""}, "Say where you buy it."),
        ({"state": "Jersey"}, "Jersey is no state. Type two letters, such as MN."),
        ({"state": "WI", "certificate": True}, "That certificate is for Minnesota, and this is bought in Wisconsin."),
        ({"estimate_cents": "-5"}, "Type the amount without a minus sign."),
        ({"estimate_cents": "60,000,000"}, "more than this book keeps"),
        ({"approved_on": "2026-10-07", "approved_by": "Bo"}, "That day is still ahead."),
        ({"approved_on": TODAY}, "Say who approved it."),
    ],
)
def test_a_slip_that_cannot_be_is_refused_in_words(signed_in, certificate, changed, words):
    changed = {name: certificate.pk if value is True else value for name, value in changed.items()}
    page = flat(signed_in.post(NEW, {"shop": "Corner Art", "what": "white clay", "payer": "order", **changed}))
    assert words in page
    assert "white clay" in page
    assert not Purchase.objects.exists()


def test_a_receipt_shows_tax_saved_and_how_many_days_are_left(signed_in, slip):
    page = flat(
        signed_in.post(at("receipt", slip), typed(("clay", "100"), total_cents="100", tax_rate="6.875"), follow=True)
    )
    assert "$6.88 of sales tax saved." in page
    assert "By Thursday, November 5, 2026: 30 days are left." in page
    assert "The school gives 30 days from the day of buying." in page


@pytest.mark.parametrize(
    ("lines", "values", "words"),
    [
        (
            [("clay", "40.00")],
            {"total_cents": "42.20"},
            "The lines come to $40.00, the total is $42.20: $2.20 is missing.",
        ),
        ([("clay", "40.00")], {"total_cents": "38"}, "$2.00 is too much. Is it a discount?"),
        ([("clay", "40"), ("", "3")], {"total_cents": "43"}, "Say what it is."),
        ([("clay", "")], {"total_cents": "43"}, "Type what this line comes to."),
        ([], {"total_cents": "43"}, "Say what was bought, at least one line."),
        ([("clay", "40")], {"total_cents": "40", "bought_on": "2026-10-07"}, "That day is still ahead."),
        ([("clay", "40")], {"total_cents": "40", "tax_rate": "600"}, "600% is no sales tax"),
        ([("clay", "40")], {"total_cents": "40", "discount": "50"}, "The discount is larger than everything"),
        ([("clay", "-40")], {"total_cents": "40"}, "Type the amount without a minus sign."),
    ],
)
def test_a_receipt_that_does_not_add_up_is_refused_and_nothing_is_lost(signed_in, slip, lines, values, words):
    page = flat(signed_in.post(at("receipt", slip), typed(*lines, receipt_number="No. 8812", **values)))
    assert words in page
    assert "No. 8812" in page
    assert all(what in page for what, _amount in lines)
    slip.refresh_from_db()
    assert slip.bought_on is None


def test_the_summary_leads_to_the_line_that_is_wrong(signed_in, slip):
    page = signed_in.post(at("receipt", slip), typed(("clay", "40"), ("glaze", ""), total_cents="43")).content.decode()
    assert 'href="#id_line-1-cents"' in page


def test_six_lines_fit_at_once_and_what_was_typed_is_never_folded(signed_in, slip):
    items = signed_in.get(at("receipt", slip)).context["form"].items
    assert (len(items.in_sight), len(items.folded)) == (3, 3)
    sent = typed(*[(f"thing {n}", "1") for n in range(4)], total_cents="5", **{"line-TOTAL_FORMS": "6"})
    items = signed_in.post(at("receipt", slip), sent).context["form"].items
    assert [form["what"].value() or "" for form in items.in_sight] == ["thing 0", "thing 1", "thing 2", "thing 3", ""]
    assert len(items.folded) == 1


def test_what_speaks_against_charging_a_grant_is_said_before_saving_and_stays_on_the_page(signed_in, program, slip):
    grant = Grant.objects.create(
        program=program, partner=people.make_partner(program), title="Clay days", state="awarded", awarded_cents=5_000,
        buy_from="2026-10-20",
    )  # fmt: skip
    line = GrantLine.objects.create(program=program, grant=grant, what="clay", planned_cents=3_000)
    sent = typed(("clay", "40"), total_cents="40", **{"line-0-grant_line": line.pk})
    page = flat(signed_in.post(at("receipt", slip), sent))
    early = "Bought too early: the grant pays only for what is bought from October 20, 2026 on."
    against = (early, "goes over by $10.00")
    assert all(words in page for words in against)
    assert not slip.lines.exists()
    page = flat(signed_in.post(at("receipt", slip), {**sent, "heeded": "on"}, follow=True))
    assert all(words in page for words in against)
    grant.refresh_from_db()
    assert grant.spent_cents == 4_000
    assert "Clay days: only" not in page
    # Awarded in part: 35.00, although the line stands at 30.00 and another could hold the rest.
    Grant.objects.update(awarded_cents=3_500)
    assert "Clay days: only" not in flat(signed_in.get(slip.get_absolute_url()))
    GrantLine.objects.update(planned_cents=9_000)
    assert "Clay days: only $35.00 of the grant is left for it. This goes over by $5.00." in flat(
        signed_in.get(slip.get_absolute_url())
    )
    # Lines that come to more than the award can still be brought down; others stand once a receipt is on them.
    edit = reverse("funding:grant-edit", args=[grant.pk])
    assert "line-0-planned" in flat(signed_in.get(edit))
    GrantLine.objects.update(planned_cents=3_000)
    assert "line-0-planned" not in flat(signed_in.get(edit))
    # Putting it right by less, on a later day, is no second charge, and the page has the day of buying.
    with time_machine.travel("2026-10-09 15:00 -0400", tick=False):
        assert 'value="2026-10-06"' in flat(signed_in.get(at("receipt", slip)))
    signed_in.post(at("receipt", slip), {**sent, "heeded": "on", "line-0-cents": "30", "total_cents": "30"})
    assert "goes over" not in flat(signed_in.get(slip.get_absolute_url()))


def test_the_slip_s_grant_is_charged_or_the_page_says_that_it_learns_of_nothing(signed_in, desk, program, slip):
    grant = Grant.objects.create(program=program, partner=people.make_partner(program), title="Clay", state="asked")
    line = GrantLine.objects.create(program=program, grant=grant, what="clay", planned_cents=3_000)
    actions.edit_slip(desk=desk, purchase=slip, grant=grant)
    form = signed_in.get(at("receipt", slip)).context["form"]
    # What the slip means is charged for every line; another choice in the first goes for those below.
    assert [item["grant_line"].value() for item in form.items.in_sight] == [line.pk] * len(form.items.in_sight)
    assert 'data-follows="line-0-grant_line"' in str(form.items.forms[1]["grant_line"])
    sent = typed(("clay", "20"), total_cents="20", heeded="on", **{"line-1-grant_line": line.pk})
    words = "$20.00 of it is charged to no line of “Clay”"
    assert words in flat(signed_in.post(at("receipt", slip), sent, follow=True))
    charged = {**sent, "line-0-grant_line": line.pk}
    assert words not in flat(signed_in.post(at("receipt", slip), charged, follow=True))
    slip.refresh_from_db()
    actions.edit_slip(desk=desk, purchase=slip, grant=None)
    assert "Corner Art: clay" in flat(signed_in.get(grant.get_absolute_url()))


def test_a_slip_without_the_school_s_certificate_says_that_there_is_one(signed_in, desk, slip, certificate):
    words = "Millrace Elementary has certificate EX-1."
    assert words not in flat(signed_in.get(slip.get_absolute_url()))
    actions.edit_slip(desk=desk, purchase=slip, certificate=None)
    assert words in flat(signed_in.get(slip.get_absolute_url()))
    # In Minnesota a teacher's own money is taxed whatever is shown.
    actions.edit_slip(desk=desk, purchase=slip, payer="own")
    assert words not in flat(signed_in.get(slip.get_absolute_url()))
    actions.record_receipt(desk=desk, purchase=slip, lines=[Bought(what="clay", cents=100)], bought_on=people.TUESDAY)
    assert "hand in by Nov 5, 2026" in flat(signed_in.get(LIST))


def test_two_who_put_the_same_receipt_right_do_not_overwrite_each_other(signed_in, slip):
    signed_in.post(at("receipt", slip), typed(("clay", "20"), total_cents="20"))
    slip.refresh_from_db()
    again = [typed((what, "20"), total_cents="20", seen=slip.version) for what in ("red clay", "white clay")]
    assert [signed_in.post(at("receipt", slip), sent).status_code for sent in again] == [302, 409]
    assert slip.lines.get().what == "red clay"


def test_what_stands_on_a_slip_stands_in_its_form_and_more_tax_never_came_back_than_was_charged(signed_in, desk, slip):
    assert 'value="Corner Art"' in flat(signed_in.get(at("edit", slip)))
    taxed = [Bought(what="clay", cents=2_000), Bought(what="tax", kind="tax", cents=150)]
    bought = actions.record_receipt(desk=desk, purchase=slip, lines=taxed, bought_on=people.TUESDAY)
    actions.tax_came_back(desk=desk, purchase=bought, day=people.TUESDAY, cents=150)
    less = typed(("clay", "20"), tax_charged="1", total_cents="21")
    less |= {"line-INITIAL_FORMS": "1"}
    assert "$1.50 of tax came back already, which is more than this." in flat(signed_in.post(at("receipt", slip), less))


def test_a_receipt_begins_with_what_the_slip_says_and_the_line_it_names(signed_in, desk, program, slip):
    grant = Grant.objects.create(program=program, partner=people.make_partner(program), title="Art", state="asked")
    add = partial(GrantLine.objects.create, program=program, grant=grant, planned_cents=3)
    tools, clay = add(what="loop tools"), add(what="white clay, 25 lb")
    actions.edit_slip(desk=desk, purchase=slip, grant=grant)
    page = flat(signed_in.get(at("receipt", slip)))
    assert 'name="line-0-what" value="clay"' in page
    # The six lines, and shipping with them.
    assert (page.count(f'"{clay.pk}" selected'), page.count(f'"{tools.pk}" selected')) == (7, 0)


def test_days_out_of_order_and_too_much_money_are_refused(signed_in, desk, slip):
    bought = actions.record_receipt(
        desk=desk, purchase=slip, lines=[Bought(what="clay", cents=4_000)], bought_on=people.TUESDAY, payer="own"
    )
    page = flat(signed_in.post(at("repaid", bought), {"back-cents": "40.01", "back-day": "2026-10-05"}))
    assert "That is before it was bought." in page
    assert "That is more than the $40.00 that were paid." in page
    assert "That is before it was bought." in flat(signed_in.post(at("handed-in", bought), {"in-day": "2026-10-05"}))
    bought.refresh_from_db()
    assert (bought.handed_in_on, bought.repaid_on) == (None, None)


def test_a_guest_reads_neither_who_paid_nor_notes(client, grace, desk, slip):
    grace.opened = [Opened.MONEY]
    grace.save()
    bought = actions.record_receipt(
        desk=desk, purchase=slip, lines=[Bought(what="clay", cents=4_000)], bought_on=people.TUESDAY, payer="own"
    )
    actions.hand_in(desk=desk, purchase=bought, day=people.TUESDAY)
    enter(client, grace)
    for page in (flat(client.get(bought.get_absolute_url())), flat(client.get(LIST))):
        assert "clay" in page
        assert not any(words in page.lower() for words in ("own money", "repaid", "ask bo", "pocket"))
    assert status(client, CERTIFICATES) == 403
    assert status(client, at("repaid", bought), "post") == 403


def test_the_ladder(client, june, otto, slip):
    assert status(client, LIST) == 302
    enter(client, otto)
    posts = ("handed-in", "repaid", "not-asked", "tax-back", "tax-let-go", "call-off")
    for name in ("detail", "edit", "receipt", *posts):
        assert status(client, at(name, slip), "post" if name in posts else "get") == 404
    enter(client, june)
    assert status(client, reverse("funding:purchase-detail", args=[UNKNOWN])) == 404
    assert [status(client, at(name, slip)) for name in posts] == [405] * len(posts)


def test_the_list_and_a_page_ask_a_fixed_number_of_questions(signed_in, desk, slip):
    actions.record_receipt(desk=desk, purchase=slip, lines=[Bought(what="clay", cents=1)], bought_on=people.TUESDAY)
    counts = []
    for many in (1, 12):
        lines = [Bought(what=f"clay {number}", cents=number + 1) for number in range(many)]
        for _more in range(many):
            actions.write_slip(desk=desk, vendor="Corner Art", what="clay", school=slip.school)
        actions.record_receipt(desk=desk, purchase=slip, lines=lines, bought_on=people.TUESDAY)
        with CaptureQueriesContext(
            connection,
        ) as asked:
            signed_in.get(LIST)
            signed_in.get(slip.get_absolute_url())
        counts.append(len(asked))
    assert counts[0] == counts[1]
