"""Spending what is left, through its page."""

from __future__ import annotations

from html import unescape
from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from partners.funding.grant_models import Grant
from partners.ground.models import Event
from partners.program.desk import Desk
from partners.program.models import Membership, Program
from partners.promises.actions import promise
from partners.wish_list.models import Need
from tests.ladder import enter, flat, status
from tests.people import TUESDAY, make_partner

pytestmark = pytest.mark.django_db
PAGE, LIST = reverse("wish_list:leftover"), reverse("wish_list:need-list")


@pytest.fixture
def needs(program: Program) -> dict[str, Need]:
    """Brushes at 12.00 (3 packs), paint at 9.00 (2 packs), pots at 1.50 (10), clay without a price (2 packs)."""
    wished: dict[str, dict[str, Any]] = {
        "brushes": {"quantity": 72, "pack_size": 24, "pack_cents": 1200},
        "paint": {"quantity": 12, "pack_size": 6, "pack_cents": 900},
        "pots": {"quantity": 10, "pack_cents": 150},
        "clay": {"quantity": 4, "pack_size": 2},
    }
    return {what: Need.objects.create(program=program, what=what, **values) for what, values in wished.items()}


def asked(client: Client, left: str, **typed: str) -> Any:
    return client.get(PAGE, {"left": left, **typed})


def words(answer: Any) -> str:
    return unescape(flat(answer))


def bought(answer: Any) -> dict[str, int]:
    return {str(line.wanted.missing.need): line.packs for line in answer.context["answer"].bought}


def test_most_packs_are_bought_and_what_remains_is_said(signed_in: Client, needs: dict[str, Need]) -> None:
    # By hand: ten pots are 15.00, two packs of paint 18.00; the 7.00 that remain buy no brushes at 12.00.
    answer = asked(signed_in, "40.00")
    assert bought(answer) == {"paint": 2, "pots": 10}
    for said in ("With $40.00", "$18.00", "$33.00", "$7.00", "3 of 3, at $12.00 each"):
        assert said in words(answer)


def test_what_is_more_important_comes_before_all_others(signed_in: Client, needs: dict[str, Need]) -> None:
    # By hand: three packs of brushes are 36.00; two pots take 3.00 of the 4.00 left.
    answer = asked(signed_in, "40", **{f"first-{needs['brushes'].pk}": "on"})
    assert bought(answer) == {"brushes": 3, "pots": 2}
    assert "more important" in words(answer)


def test_the_next_best_and_one_more_dollar_are_said(signed_in: Client, needs: dict[str, Need]) -> None:
    # By hand: 15.00 + 9.00 of 32.50 leave 8.50; 50 cents more buy a second pack of paint.
    page = words(asked(signed_in, "32.50"))
    assert "1 pack of brushes instead of 1 pack of paint. That costs $27.00 in all and leaves $5.50." in page
    assert "$0.50 more would do: it brings 1 pack of paint." in page


def test_a_step_beyond_a_dollar_is_said_to_be_one(signed_in: Client, needs: dict[str, Need]) -> None:
    page = words(asked(signed_in, "40"))
    assert "It would change nothing. The next step is $5.00 more: it brings 1 pack of brushes." in page


def test_everything_that_is_missing_needs_no_choice(signed_in: Client, needs: dict[str, Need]) -> None:
    page = words(asked(signed_in, "1,000"))
    assert "nothing has to be chosen" in page
    assert "$931.00" in page
    assert "What does not fit" not in page


def test_a_price_is_typed_for_this_page_only(signed_in: Client, needs: dict[str, Need]) -> None:
    clay = needs["clay"]
    assert [str(one.need) for one in asked(signed_in, "2").context["unpriced"]] == ["clay"]
    assert "Without a price, so not looked at" in words(asked(signed_in, "2"))
    assert bought(asked(signed_in, "2", **{f"price-{clay.pk}": "1.00"})) == {"clay": 2}
    clay.refresh_from_db()
    assert clay.pack_cents is None
    assert not Event.objects.exists()


def test_what_is_left_out_is_not_bought(signed_in: Client, needs: dict[str, Need]) -> None:
    assert bought(asked(signed_in, "40", **{f"out-{needs['pots'].pk}": "on"})) == {"brushes": 1, "paint": 2}


def test_what_is_promised_is_no_longer_missing(signed_in: Client, desk: Desk, needs: dict[str, Need]) -> None:
    said: dict[str, Any] = {"desk": desk, "partner": make_partner(desk.program), "side": "them", "what": "pots"}
    promise(**said, quantity=8, due=TUESDAY, made_on=TUESDAY, need=needs["pots"])
    assert bought(asked(signed_in, "5")) == {"pots": 2}


def test_too_little_for_anything_names_the_cheapest(signed_in: Client, needs: dict[str, Need]) -> None:
    page = words(asked(signed_in, "1.20"))
    assert "The cheapest is pots at $1.50." in page
    assert "$0.30 more would do: it brings 1 × pots." in page


@pytest.mark.parametrize(
    ("left", "sentence"),
    [
        ("", "Type how much is left, such as 214.60."),
        ("0", "With nothing left there is nothing to buy."),
        ("-5", "without a minus sign"),
        ("lots", "lots is not an amount"),
        ("12,5", "can be read in two ways"),
        ("60,000,000", "more than this book keeps"),
        ("9" * 40, "is not an amount"),
        ("<b>5</b>", "is not an amount"),
    ],
)
def test_a_bad_amount_is_one_sentence_and_nothing_is_lost(
    signed_in: Client, needs: dict[str, Need], left: str, sentence: str
) -> None:
    answer = asked(signed_in, left, **{f"price-{needs['clay'].pk}": "3.33", f"first-{needs['pots'].pk}": "on"})
    page = words(answer)
    assert sentence in page
    assert 'value="3.33"' in page
    assert page.count(" checked") == 1
    assert "answer" not in answer.context
    assert "<b>5" not in flat(answer)


@pytest.mark.parametrize(
    ("price", "sentence"), [("0", "more than nothing"), ("-1", "minus"), ("cheap", "not an amount")]
)
def test_a_bad_price_stands_at_its_need(signed_in: Client, needs: dict[str, Need], price: str, sentence: str) -> None:
    answer = asked(signed_in, "40", **{f"price-{needs['pots'].pk}": price})
    assert list(answer.context["form"].errors) == [f"price-{needs['pots'].pk}"]
    assert sentence in words(answer)


def test_at_most_three_are_more_important(signed_in: Client, needs: dict[str, Need]) -> None:
    answer = asked(signed_in, "40", **{f"first-{need.pk}": "on" for need in needs.values()})
    assert "At most three can be more important; 4 are marked." in words(answer)


def test_without_any_price_it_says_what_to_do(signed_in: Client, program: Program) -> None:
    Need.objects.create(program=program, what="clay", quantity=4)
    assert "No need that takes part has a price." in words(asked(signed_in, "40"))


@pytest.mark.parametrize("typed", [{}, {"left": "40"}])
def test_an_empty_wish_list_says_what_to_do_first(signed_in: Client, typed: dict[str, str]) -> None:
    assert "Write down on the wish list how many you need" in words(signed_in.get(PAGE, typed))


def test_the_page_says_what_it_cannot_know(signed_in: Client, needs: dict[str, Need]) -> None:
    for page in (words(signed_in.get(PAGE)), words(asked(signed_in, "40"))):
        assert "with its tax and shipping, as it will be charged" in page
        assert "the rules of the grant or of the office decide" in page


def test_the_wish_list_leads_there(signed_in: Client) -> None:
    assert PAGE in flat(signed_in.get(LIST))


def test_any_number_of_needs_takes_the_same_queries(
    signed_in: Client, program: Program, django_assert_num_queries: Any
) -> None:
    for number in range(30):
        Need.objects.create(program=program, what=f"Need {number}", quantity=5, pack_cents=100 + number)
    # Session, person, membership; needs; promised; received; bought.
    with django_assert_num_queries(7):
        assert asked(signed_in, "14.60").context["answer"].packs == 14


def test_the_page_is_for_teachers_of_this_program(
    client: Client, omar: Membership, grace: Membership, otto: Membership, needs: dict[str, Need]
) -> None:
    assert status(client, PAGE) == 302
    assert status(enter(client, grace), PAGE) == 403
    assert "brushes" not in words(enter(client, otto).get(PAGE, {"left": "40"}))
    assert status(enter(client, omar), PAGE) == 200
    assert status(client, PAGE, "post") == 405


def test_what_is_to_be_bought_leads_to_its_slip_and_keeps_the_grant(signed_in: Client, needs: dict[str, Need]) -> None:
    grant = Grant.objects.create(
        program=needs["pots"].program, partner=make_partner(needs["pots"].program), title="Art"
    )
    answer = asked(signed_in, "40.00", grant=str(grant.pk))
    assert f'name="grant" value="{grant.pk}"' in flat(answer)
    slip = signed_in.get(answer.context["slip_url"]).context["form"]
    assert slip["what"].value() == "2 packs of paint, 10 × pots"
    assert slip.initial["grant"] == grant


def test_without_anything_to_buy_there_is_no_slip(signed_in: Client, needs: dict[str, Need]) -> None:
    assert asked(signed_in, "1.00").context["slip_url"] == ""
