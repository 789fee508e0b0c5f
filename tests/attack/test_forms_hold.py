"""Whatever is typed into a form, a filter or the search, it is taken or refused in words; nothing is read as markup."""

from __future__ import annotations

from typing import Any

import pytest
from django.http import QueryDict
from django.template.loader import render_to_string
from django.utils.datastructures import MultiValueDict

from partners.directory.filters import PartnerFilter
from partners.directory.partner_field import PICKED
from partners.gifts.filters import GiftFilter
from partners.helpers.filters import HelperFilter, SessionFilter
from partners.program.desk import Desk
from partners.program.models import Membership
from partners.story.find import find
from tests import people
from tests.attack.inputs import Hand, assert_no_echo, hands, often, try_many
from tests.rows import make_book
from tests.whole_site.test_forms import FORMS, made

pytestmark = pytest.mark.django_db
OWN = 5_000_001
Fields = dict[type[Any], list[tuple[str, list[str]]]]
FILTERS = [PartnerFilter, GiftFilter, HelperFilter, SessionFilter]
LINES = [f"{line}-{number}-{what}" for line in ("line", "give") for number in (0, 1, 99)
         for what in ("what", "description", "quantity", "cents", "need", "planned", "shipping")]  # fmt: skip
ALIKE = ("1", "12", "2026-10-06", "15:30", "on", str(OWN), "Riverbend", "12.50", "(201) 555-0123", "a@example.org")


@pytest.fixture
def book(june: Membership) -> Desk:
    chosen = {"Contact": {"left_on": None}, "OutingStop": {"visit": None}, "Approval": {"what_for": "trades"}}
    make_book(june.program, OWN, "Ours ", **chosen)
    return people.make_desk(june.program, user=june.user)


def sensible(field: Any) -> list[str]:
    """Some values of a choice, so that what stands behind it is reached too."""
    choices = list(getattr(field, "choices", ()))[:8]
    return [str(value) for value, _label in choices if not isinstance(value, list | tuple)]


@pytest.fixture
def fields(book: Desk) -> Fields:
    return {
        kind: [(name, [*sensible(field), *ALIKE]) for name, field in made(kind, book).fields.items()] for kind in FORMS
    }


def sent_by(hand: Hand, fields: Fields, kind: type[Any]) -> QueryDict:
    """Something typed into each field of a form, much of it hostile."""
    sent: Any = QueryDict(mutable=True)
    for name, fitting in fields[kind]:
        sent.setlist(name, [hand.typed(fitting), *hand.some(fitting, 1)])
        if "partner" in name:
            sent[f"{name}{PICKED}"] = hand.typed(fitting)
    for name in hand.some(LINES, 4):
        sent[name] = hand.typed(ALIKE)
    return sent


@often
def test_any_form_takes_or_refuses_any_words(book: Desk, fields: Fields, times: int) -> None:
    def attempt(hand: Hand) -> None:
        kind = hand.one_of(FORMS)
        form = made(kind, book, sent_by(hand, fields, kind))
        assert form.is_valid() == (not form.errors)

    try_many(200, times, attempt, hand=hands)


@often
def test_any_form_is_shown_again_with_what_was_typed_as_words(book: Desk, fields: Fields, times: int) -> None:
    def attempt(hand: Hand) -> None:
        kind = hand.one_of(FORMS)
        form = made(kind, book, sent_by(hand, fields, kind))
        form.is_valid()
        assert_no_echo(render_to_string("_error_summary.html", {"form": form}))
        assert_no_echo(render_to_string("_form.html", {"form": form, "once_token": "x"}))

    try_many(16, times, attempt, hand=hands)


@often
def test_any_filter_and_the_search_find_something_or_nothing(book: Desk, times: int) -> None:
    def attempt(hand: Hand) -> None:
        kind = hand.one_of([None, *FILTERS])
        if kind is None:
            assert isinstance(list(find(book, hand.typed().strip()[:120])), list)
            return
        narrowed = kind(MultiValueDict({name: [hand.typed(ALIKE)] for name in kind.base_filters}), desk=book)
        assert isinstance(list(narrowed.qs[:3]), list)
        assert_no_echo(str(narrowed.form.errors))

    try_many(80, times, attempt, hand=hands)
