"""The buttons of a due line are put together as text: nothing that was typed may become a part of the page."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import Any

import pytest
from django.utils.safestring import SafeString

from partners.agenda.buttons import Page, buttons
from partners.agenda.shown import Shown
from partners.ground.due import Act, DueLine, Hand

TYPED = 'Tom & <b>"Jo\'s"</b>'
WRITTEN = "Tom &amp; &lt;b&gt;&quot;Jo&#x27;s&quot;&lt;/b&gt;"
PAGE = Page(writes=True, csrf=SafeString("<input>"), here='/review/?a="1"&b=2', in_place=True)
LINE = DueLine(
    source="visits.follow-up",
    pk=7,
    due=date(2026, 10, 6),
    hand=Hand.CALL,
    verb=f"Call {TYPED}",
    what=f"pots {TYPED}",
    why="",
    who=f"who {TYPED}",
    phone="+12015550123",
    acts=(
        Act(f"Done {TYPED}", '/settle/"7"/', code="done"),
        Act(f"Open {TYPED}", '/open/?a=1&b="2"', opens=True),
        Act("Move to…", '/settle/"7"/', code="move"),
    ),
)
SHOWN = Shown.of(LINE, late="", last_word="")


@pytest.mark.parametrize("line", [LINE, SHOWN, replace(SHOWN, settled=f"Done {TYPED}", undo_url='/undo/"7"/')])
def test_what_was_typed_stands_there_as_words(line: Any) -> None:
    drawn = buttons(line, PAGE, back='in-"7"')
    assert "<b>" not in drawn
    assert '"7"' not in drawn
    assert '"2"' not in drawn
    assert f"who {WRITTEN}" in drawn
    assert "&amp;amp;" not in drawn


def test_a_guest_only_calls() -> None:
    drawn = buttons(SHOWN, replace(PAGE, writes=False))
    assert "tel:" in drawn
    assert "<form" not in drawn
    assert "<button" not in drawn


def test_the_day_stands_in_a_form_of_its_own_and_each_form_has_its_token() -> None:
    drawn = buttons(SHOWN, PAGE)
    assert drawn.count("<form") == drawn.count("</form>") == drawn.count(PAGE.csrf) == 2
    assert 'required form="moving-visits-follow-up-7"' in drawn
    assert '<form id="moving-visits-follow-up-7"' in drawn


def test_a_line_about_nobody_names_its_buttons_by_what_it_is_about() -> None:
    drawn = buttons(replace(LINE, who="", verb="Deliver", what="bags"), PAGE)
    assert '<span class="unseen">: bags</span>' in drawn
    assert '<span class="unseen">: Deliver bags</span>' in drawn
