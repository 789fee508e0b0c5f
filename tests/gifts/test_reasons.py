import re
from collections.abc import Mapping
from datetime import date
from typing import Any, get_args

import pytest

from partners.gifts import reasons
from partners.gifts.gift_facts import GiftFacts
from partners.gifts.letter_check import ProblemCode
from partners.gifts.letter_rules import Code, Reason, Source, Verdict, decide

FACTS = GiftFacts(form="money", day=date(2026, 6, 1), governmental=True, amount_cents=100_00, back="a mug")


@pytest.mark.parametrize(
    ("codes", "words"),
    [
        (Verdict, reasons.VERDICTS),
        (Code, reasons.SENTENCES),
        (Reason, reasons.REASONS),
        (Source, reasons.SOURCES),
        (ProblemCode, reasons.PROBLEMS),
    ],
)
def test_every_code_has_its_words(codes: Any, words: Mapping[str, Any]) -> None:
    assert set(words) == set(get_args(codes))
    assert all(str(text).strip() for text in words.values())


def test_placeholders_are_named_after_the_facts() -> None:
    tables = (reasons.SENTENCES, reasons.REASONS, reasons.PROBLEMS)
    names = {name for table in tables for text in table.values() for name in re.findall(r"%\((\w+)\)s", str(text))}
    assert names == set(reasons.fillings(FACTS, decide(FACTS), "en-us", "snippet"))


def test_placeholders_are_filled_from_the_gift() -> None:
    filled = reasons.fillings(FACTS, decide(FACTS), "en-us")
    assert (filled["amount"], filled["back"], filled["year"]) == ("$100.00", "a mug", "2026")
    assert filled["back_estimate"] == filled["gift_part"] == "not known yet"


def test_the_caution_defers_to_the_district_and_the_adviser() -> None:
    assert "district" in str(reasons.CAUTION)
    assert "adviser" in str(reasons.CAUTION)
