"""What holds for the file of every sheet of a trade, whatever stands on it."""

from __future__ import annotations

from dataclasses import FrozenInstanceError, replace
from datetime import date

import pytest

from outreach.documents import class_plan, trade_memo, trade_receipt, wall_plan
from tests.outreach.sheets import Printed
from tests.outreach.trades import MEMO, PLAN, RECEIPT

EVERY = pytest.mark.parametrize(
    ("module", "facts"), [(trade_memo, MEMO), (class_plan, PLAN), (wall_plan, PLAN), (trade_receipt, RECEIPT)]
)


@EVERY
def test_the_same_facts_give_the_same_bytes_and_none_can_be_changed(module, facts):
    assert module.draw(facts) == module.draw(replace(facts))
    assert module.draw(facts) != module.draw(replace(facts, day=date(2027, 2, 17)))
    with pytest.raises(FrozenInstanceError):
        facts.day = date(2027, 2, 17)


@EVERY
def test_unknown_paper_is_refused(module, facts):
    with pytest.raises(ValueError, match="letter, a4"):
        module.draw(replace(facts, paper="legal"))


@EVERY
def test_fonts_are_embedded_and_only_black_and_white_are_used(module, facts):
    printed = Printed(module.draw(facts))
    assert printed.fonts()
    assert all(printed.fonts().values())
    for page in printed.reader.pages:
        content = page.get_contents()
        assert content is not None
        words = content.get_data().split()
        assert not {b"rg", b"RG", b"k", b"K"} & set(words)
        assert {float(words[place - 1]) for place, word in enumerate(words) if word in (b"g", b"G")} <= {0.0}


@EVERY
@pytest.mark.parametrize("language", ["en", "es"])
def test_the_file_says_its_title_and_its_language(module, facts, language):
    reader = Printed(module.draw(replace(facts, language=language))).reader
    assert reader.metadata is not None
    assert reader.metadata.title
    assert str(reader.root_object["/Lang"]) == language
