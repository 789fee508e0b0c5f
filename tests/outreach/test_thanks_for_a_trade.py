"""Thanks for what came in a trade: what we make is told, "nothing in return" never, and no value."""

from __future__ import annotations

from typing import Any

import pytest
from django.test import Client
from django.urls import reverse

from outreach.documents import gratitude_letter, thanks_note
from outreach.gathering.school import legal_name, school_meant
from outreach.preparing import prepare
from partners.exchanges.models import Trade
from partners.gifts.actions import Line, edit_gift, gave_back, receive, receive_promised
from partners.gifts.models import Gift, ThanksFor
from partners.gifts.thanks_actions import owe_thanks
from partners.program.desk import Desk
from partners.promises.actions import deliver
from tests.exchanges.trades import POTS, make_trade
from tests.outreach.sheets import FORMS, Printed, thanking
from tests.people import make_school

NOTHING = ("No goods or services", "No se entregaron bienes ni servicios", "nothing in return", "nada a cambio")
OURS = "200 to 250 decorated seed packets"


@pytest.fixture
def trade(desk: Desk) -> Trade:
    return make_trade(desk, school=make_school(desk.program, legal_name="Alder Falls School District"))


def received(desk: Desk, trade: Trade, **values: Any) -> Gift:
    (given,) = trade.side("give")
    gift = receive_promised(desk=desk, promise=given, day=desk.day)
    return edit_gift(desk=desk, gift=gift, **values) if values else gift


def letter_to(desk: Desk, gift: Gift, language: str = "en") -> str:
    prepared = prepare(desk, "gratitude-letter", gift.pk)
    return Printed(gratitude_letter.draw(prepared.gather({"language": language}))).text


@pytest.mark.parametrize("language", ["en", "es"])
@pytest.mark.parametrize("moment", ["promise", "delivery"])
@pytest.mark.parametrize("form", FORMS)
def test_in_whatever_form_it_came_ours_is_told_and_no_value(form, moment, language):
    given = {**FORMS[form], "back": "300 decorated packets", "part_of_trade": True, "back_estimate_cents": 4000}
    facts = thanking(language=language, moment=moment, form=form, **given)
    told = Printed(gratitude_letter.draw(facts)).text
    assert "300 decorated packets" in told
    assert not any(words in told for words in NOTHING)
    # Of money the amount is said, and what is left of it as a gift; anything else is never valued.
    assert ("$" in told) is (form == "money")
    assert not [gap for gap in gratitude_letter.gaps(facts) if gap.stops]


@pytest.mark.django_db
@pytest.mark.parametrize(("language", "ours"), [("en", OURS), ("es", "200 a 250 decorated seed packets")])
def test_the_letter_follows_from_the_trade(desk: Desk, trade: Trade, language: str, ours: str):
    told = letter_to(desk, received(desk, trade), language)
    assert ours in told
    assert "60 terracotta pots" in told
    assert not any(words in told for words in (*NOTHING, "EIN", "$"))


@pytest.mark.django_db
def test_nobodys_figure_is_printed(desk: Desk, trade: Trade):
    gift = received(desk, trade, given_value_cents=98700, gave_back_cents=43200)
    told = letter_to(desk, gift)
    assert not any(figure in told for figure in ("987", "432", "$"))


@pytest.mark.django_db
def test_without_words_of_ours_the_trade_gives_them_and_other_words_stay(desk: Desk, trade: Trade):
    assert OURS in letter_to(desk, received(desk, trade, gave_back=""))
    gift = desk.gifts.get()
    edit_gift(desk=desk, gift=gift, gave_back="packets with zinnias")
    assert "packets with zinnias" in letter_to(desk, gift)
    assert OURS not in letter_to(desk, gift)


@pytest.mark.django_db
def test_a_trade_nobody_wrote_down_is_one_all_the_same(desk: Desk, trade: Trade):
    lines = [Line(description="pots", quantity=9)]
    came = {"source": "partner", "partner": trade.partner, "form": "goods", "trade": True, "gave_back": "two windows"}
    told = letter_to(desk, receive(desk=desk, day=desk.day, lines=lines, **came))
    assert "two windows" in told
    assert not any(words in told for words in NOTHING)


@pytest.mark.django_db
def test_nothing_in_return_is_stopped_where_somebody_types_it(signed_in: Client, desk: Desk, trade: Trade):
    gift = received(desk, trade)
    page = reverse("outreach:document-prepare", args=["gratitude-letter", gift.pk])
    body = "Thank you for the 60 terracotta pots. No goods or services were given in return."
    answer = signed_in.post(page, {"body": body, "language": "en"})
    assert answer.status_code == 200
    assert "A trade gives something back" in answer.content.decode()
    assert not gift.letters.exists()


@pytest.mark.django_db
def test_thanks_at_the_promise_tell_both_sides(desk: Desk, trade: Trade):
    (given,) = trade.side("give")
    owed = owe_thanks(
        desk=desk, partner=trade.partner, reason=ThanksFor.PROMISE, base=desk.day, promise=given, school=trade.school
    )
    prepared = prepare(desk, "thanks-note", owed.pk)
    told = Printed(thanks_note.draw(prepared.facts)).text
    assert "your side of the trade" in told
    assert OURS in told
    assert POTS.what in told
    assert not [gap for gap in prepared.gaps() if gap.stops]


@pytest.mark.django_db
def test_once_ours_is_delivered_the_letter_tells_how_many_were(desk: Desk, trade: Trade):
    before = received(desk, trade)
    assert before.gave_back == OURS
    deliver(desk=desk, promise=trade.make, day=desk.day, quantity=260)
    told = letter_to(desk, before)
    assert "260 decorated seed packets" in told
    assert OURS not in told
    trade.make.refresh_from_db()
    assert gave_back(trade.make) == "260 decorated seed packets"


@pytest.mark.django_db
def test_of_several_schools_the_letter_names_none_where_the_gift_names_none(desk: Desk):
    names = {make_school(desk.program, name, legal_name="Alder Falls School District").name for name in ("A", "B")}
    told = letter_to(desk, received(desk, make_trade(desk, school=None)))
    assert desk.program.name in told
    assert "to Alder Falls School District" in told
    assert not names & set(told.split("\n"))


@pytest.mark.django_db
@pytest.mark.parametrize(("other", "name"), [("The district", "The district"), ("Another", "")])
def test_the_legal_name_is_said_where_all_schools_share_it(desk: Desk, other: str, name: str):
    make_school(desk.program, "A", legal_name="The district")
    make_school(desk.program, "B", legal_name=other)
    assert (legal_name(desk), school_meant(desk)) == (name, None)
