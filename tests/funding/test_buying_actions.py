"""From the slip to the money back: what each step stores, what is due next, and that undo takes it back."""

from datetime import date, timedelta

import pytest

from partners.agenda.actions import edit_program, edit_school, take_back
from partners.agenda.check_book import differences
from partners.agenda.lines import BY_SLUG, due_lines
from partners.asking.progress import progress
from partners.funding import buying_actions as actions
from partners.funding.buying_actions import Bought
from partners.funding.buying_models import Purchase
from partners.funding.buying_page import repay_form
from partners.funding.buying_story import lines as story
from partners.funding.certificate_actions import add_certificate, end_certificate
from partners.funding.grant_models import Grant, GrantLine
from partners.ground.models import Event
from partners.wish_list.actions import add_need
from tests import people, whole_book

pytestmark = pytest.mark.django_db
DAY = people.TUESDAY
LATER = timedelta(days=1)


@pytest.fixture
def school(program):
    return people.make_school(program, state="MN", tax_rate=68750, claim_days=30, repay_days=20)


@pytest.fixture
def certificate(desk, school):
    return add_certificate(desk=desk, school=school, state="MN", number="EX-1", valid_until=DAY + timedelta(days=90))


@pytest.fixture
def slip(desk, school, certificate):
    """The school pays by order, and the shop is shown the certificate: exempt in Minnesota."""
    return actions.write_slip(
        desk=desk, vendor="Corner Art", what="clay", school=school, certificate=certificate, state="MN"
    )


CLAY = Bought(what="clay", cents=10_000, quantity=4)
TAX = Bought(what="Sales tax", cents=688, kind="tax", taxable=False)


def receipt(desk, slip, *lines, **values):
    given = {"bought_on": DAY, "tax_rate": 68750, **values}
    return actions.record_receipt(desk=desk, purchase=slip, lines=lines or [CLAY], **given)


def due(desk):
    return {line.source: line for line in due_lines(desk, until=date.max, limit=50)}


def test_what_the_shop_gave_back_is_not_asked_of_the_office_again(desk, slip):
    bought = receipt(desk, slip, CLAY, TAX, payer="own")
    actions.tax_came_back(desk=desk, purchase=bought, day=DAY, cents=600)
    bought.refresh_from_db()
    assert (bought.own_cents, repay_form(desk, bought)["cents"].value()) == (10_088, "100.88")


def test_tax_that_was_not_charged_is_saved(desk, slip):
    bought = receipt(desk, slip)
    # By hand: 100.00 at 6.875 % is 6.875, carried up to 6.88.
    assert (bought.total_cents, bought.tax_cents, bought.tax_saved_cents) == (10_000, 0, 688)
    assert (bought.claim_due, bought.repay_due, bought.tax_back_due) == (DAY + 30 * LATER, None, None)
    assert differences(desk.program) == []


def test_tax_charged_in_spite_of_the_certificate_is_due_to_be_asked_back_until_it_comes(desk, slip):
    bought = receipt(desk, slip, CLAY, TAX)
    assert (bought.total_cents, bought.tax_cents, bought.tax_saved_cents) == (10_688, 688, 0)
    assert due(desk)["funding.tax-back"].what == "$6.88 of tax: clay"
    actions.tax_came_back(desk=desk, purchase=bought, day=DAY, cents=600)
    assert bought.tax_saved_cents == 600
    assert "funding.tax-back" not in due(desk)
    assert differences(desk.program) == []


def test_own_money_is_taxed_there_so_nothing_is_asked_back(desk, slip):
    assert receipt(desk, slip, CLAY, TAX, payer="own").tax_back_due is None


def test_own_money_comes_back_after_the_receipt_is_handed_in(desk, slip):
    bought = receipt(desk, slip, CLAY, payer="own")
    assert "funding.repaid" not in due(desk)
    actions.hand_in(desk=desk, purchase=bought, day=DAY + LATER)
    assert due(desk)["funding.repaid"].due == DAY + 21 * LATER
    assert set(Purchase.objects.out_of_pocket()) == {bought}
    actions.repay(desk=desk, purchase=bought, day=DAY + 9 * LATER, cents=10_000)
    assert not {"funding.repaid", "funding.receipt"} & set(due(desk))
    assert not Purchase.objects.out_of_pocket()
    assert differences(desk.program) == []


def test_what_is_not_asked_back_is_due_no_more_and_stays_out_of_pocket(desk, slip):
    bought = receipt(desk, slip, CLAY, payer="own")
    actions.not_ask_back(desk=desk, purchase=bought)
    assert "funding.receipt" not in due(desk)
    assert set(Purchase.objects.out_of_pocket()) == {bought}


def test_other_days_of_the_school_and_another_fiscal_year_move_what_is_open(desk, school, slip):
    bought = receipt(desk, slip)
    edit_school(desk=desk, school=school, claim_days=60)
    bought.refresh_from_db()
    assert bought.claim_due == DAY + 60 * LATER
    edit_program(desk=desk, fiscal_year_starts=11)
    bought.refresh_from_db()
    assert bought.claim_due == date(2026, 10, 31)
    actions.move_claim(desk=desk, purchase=bought, due=date(2026, 11, 9))
    edit_program(desk=desk, fiscal_year_starts=7)
    bought.refresh_from_db()
    assert bought.claim_due == date(2026, 11, 9)
    assert differences(desk.program) == []


def test_a_receipt_put_right_keeps_its_lines_and_sums_every_grant_again(desk, slip, program):
    partner = people.make_partner(program)
    grants = [
        Grant.objects.create(program=program, partner=partner, title=title, state="awarded", awarded_cents=50_000)
        for title in ("Clay", "Tools")
    ]
    lines = [GrantLine.objects.create(program=program, grant=one, what="all", planned_cents=50_000) for one in grants]
    bought = receipt(desk, slip, Bought(what="clay", cents=900, grant_line=lines[0]), TAX)
    kept = bought.lines.first()
    receipt(desk, bought, Bought(what="tools", cents=800, grant_line=lines[1]))
    assert [(one.pk, one.what) for one in bought.lines.all()] == [(kept.pk, "tools")]
    assert [Grant.objects.get(pk=one.pk).spent_cents for one in grants] == [0, 800]
    assert (bought.total_cents, bought.tax_back_due) == (800, None)


def test_what_was_bought_counts_on_the_wish_list(desk, slip):
    need = add_need(desk=desk, what="brushes", quantity=72, pack_size=24)
    receipt(desk, slip, Bought(what="brushes", cents=1199, quantity=24, need=need))
    found = progress(desk, [need])[0]
    assert (found.received, found.still.pieces) == (24, 48)


def test_a_certificate_that_ends_is_renewed_or_needed_no_more(desk, school, certificate):
    assert due(desk)["funding.certificate"].due == certificate.valid_until
    second = add_certificate(desk=desk, school=school, follows=certificate, state="MN", number="EX-2", valid_until=DAY)
    assert due(desk)["funding.certificate"].pk == second.pk
    end_certificate(desk=desk, certificate=second)
    assert "funding.certificate" not in due(desk)


def test_the_partner_s_story_tells_what_was_bought_there(desk, slip, program):
    partner = people.make_partner(program)
    actions.edit_slip(desk=desk, purchase=slip, partner=partner)
    actions.tax_came_back(desk=desk, purchase=receipt(desk, slip, CLAY, TAX), day=DAY, cents=688)
    told = [str(line.what) for line in story(desk, partner)]
    assert {"We bought clay for $106.88", "They gave back $6.88 of sales tax"} <= set(told)


@pytest.mark.parametrize(
    ("source", "act"),
    [
        ("funding.receipt", "move"), ("funding.repaid", "let_go"), ("funding.tax-back", "done"),
        ("funding.certificate", "done"),
    ],
)  # fmt: skip
def test_a_due_line_is_settled_by_its_button_and_taken_back(desk, slip, certificate, source, act):
    bought = receipt(desk, slip, CLAY, TAX)
    if source == "funding.repaid":
        receipt(desk, bought, CLAY, payer="own")
        actions.hand_in(desk=desk, purchase=bought, day=DAY)
    line, before = due(desk)[source], whole_book.rows(desk.program)
    row = BY_SLUG[source].rows(desk).get(pk=line.pk)
    BY_SLUG[source].settle[act](desk=desk, row=row, day=DAY, **({"due": DAY + 99 * LATER} if act == "move" else {}))
    after = due(desk).get(source)
    assert after is None if act != "move" else after.due == DAY + 99 * LATER
    assert differences(desk.program) == []
    take_back(desk=desk, event=Event.objects.latest("pk"))
    assert whole_book.rows(desk.program) == before
