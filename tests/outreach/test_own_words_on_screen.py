"""Wording a sheet on the screen: kept as versions, printed, refused, gone back from."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from typing import Any

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext
from django.urls import reverse

from outreach.batch_making import make_thanks
from outreach.batches import BatchSheets
from outreach.preparing import prepare
from partners.agenda.actions import take_back
from partners.agenda.check_book import differences
from partners.gifts.actions import Line, receive
from partners.gifts.models import Gift
from partners.gifts.thanks_actions import owe_thanks
from partners.ground.models import Event
from partners.letters.actions import gone_out, keep_words
from partners.letters.own_words import reword
from partners.program.desk import Desk
from partners.program.models import Membership
from partners.school.project_actions import add_project, edit_project
from partners.story.find import find
from tests.ladder import enter, flat, status
from tests.people import make_partner

pytestmark = pytest.mark.django_db
PART = {"sheet": "gratitude-letter", "language": "en", "part": "given.goods"}
OWN = "Look what you gave us on [day], [giver]: [what came]! [what it became]"


@pytest.fixture
def gift(desk: Desk) -> Gift:
    lines = [Line(description="terracotta pots", quantity=60)]
    partner = make_partner(desk.program)
    return receive(desk=desk, source="partner", partner=partner, day=desk.day, form="goods", lines=lines)


def at(name: str = "own-words-part", **other: str) -> str:
    return reverse(f"outreach:{name}", kwargs={**PART, **other})


def word(desk: Desk, words: str, seen: int = 0, document: str = "gratitude-letter", part: str = "given.goods") -> Any:
    return reword(desk=desk, document=document, language="en", part=part, title="x", words=words, seen=seen)


def body(desk: Desk, gift: Gift) -> str:
    return str(prepare(desk, "gratitude-letter", gift.pk).facts.body[0])


@pytest.mark.parametrize("name", ["own-words-part", "own-words-try", "own-words-again"])
def test_only_teachers_word_sheets_and_only_parts_that_are(
    client: Client, june: Membership, grace: Membership, name: str
) -> None:
    method = "post" if name == "own-words-again" else "get"
    assert status(client, at(name), method) == 302
    assert status(enter(client, grace), at(name), method) == 403
    enter(client, june)
    for wrong in ({"sheet": "no-sheet"}, {"language": "fr"}, {"part": "__class__"}, {"part": "page"}):
        assert status(client, at(name, **wrong), method) == 404
    assert status(client, at(name), "get" if method == "post" else "put") == 405


def test_own_words_are_kept_printed_and_taken_back(signed_in: Client, desk: Desk, gift: Gift) -> None:
    house = body(desk, gift)
    signed_in.post(at(), {"words": OWN, "seen": 0})
    assert body(desk, gift) == "Look what you gave us on October 6, 2026, Riverbend Garden Center: 60 terracotta pots!"
    gaps = [str(gap.words) for gap in prepare(desk, "gratitude-letter", gift.pk).gaps()]
    assert "The blank [what it became] is empty this time: your sentence with it is left out." in gaps
    assert "(one part is yours)" in flat(signed_in.get(reverse("outreach:own-words")))
    assert find(desk, "look what you gave")[-1].found[0].url == at()
    take_back(desk=desk, event=Event.objects.latest("pk"))
    assert body(desk, gift) == house
    assert differences(desk.program) == []


@pytest.mark.parametrize(
    ("part", "words", "said"),
    [
        ("given.goods", "Thanks, [givr]!", "There is no blank [givr] here. Did you mean [giver]?"),
        ("given.goods", "Thanks for [what came] worth $180.", "names a value"),
        ("given.service", "Your tax-deductible time, [giver]!", "must not be called deductible"),
        ("closing.goods", "Could you give us soil next month, too?", "never holds another ask"),
        ("given.exchange", "You got nothing in return for [what came].", "must not say"),
        ("given.goods", "-", "cannot be left out"),
        ("given.goods", "Ευχαριστώ 🎨 [giver]", "no signs for"),
    ],
)
def test_what_such_a_letter_must_not_say_is_refused_with_the_reason(
    signed_in: Client, desk: Desk, part: str, words: str, said: str
) -> None:
    answer = signed_in.post(at(part=part), {"words": words, "seen": 0})
    assert said in flat(answer).replace("&#x27;", "'")
    assert words.split(",")[0] in flat(answer)
    assert not desk.wordings.exists()


def test_families_are_pressed_by_nobodys_words(signed_in: Client, desk: Desk) -> None:
    own = {"sheet": "family-letter", "part": "thanks"}
    assert "presses families" in flat(signed_in.post(at(**own), {"words": "Every family must send one.", "seen": 0}))
    assert status(signed_in, at(sheet="family-letter", part="no_one_knows")) == 404
    assert "No one will know who did." in flat(signed_in.get(at(**own)))


def test_versions_stay_and_an_earlier_one_stands_again(signed_in: Client, desk: Desk, gift: Gift) -> None:
    for number, words in enumerate(("First [what came].", "Second [what came].")):
        word(desk, words, seen=number)
    signed_in.post(at("own-words-again"), {"number": 1, "seen": 2})
    assert body(desk, gift) == "First 60 terracotta pots."
    signed_in.post(at("own-words-again"), {"number": 0, "seen": 3})
    assert body(desk, gift).startswith("Thank you for what you gave our students")
    assert [one.number for one in desk.wordings.order_by("number")] == [1, 2, 3, 4]
    stale = signed_in.post(at(), {"words": "Third [what came].", "seen": 1})
    assert stale.status_code == 409
    assert "Third [what came]." in flat(stale)


def test_looking_first_and_typing_keep_nothing(signed_in: Client, desk: Desk, gift: Gift) -> None:
    for answer in (
        signed_in.post(at(), {"words": "Hello {giver} & [giver].", "seen": 0, "look": "1"}),
        signed_in.get(at("own-words-try"), {"words": "Hello {giver} & [giver]."}),
    ):
        assert "Hello {giver} &amp; Riverbend Garden Center." in flat(answer)
        assert "From your book: Riverbend Garden Center." in flat(answer)
        assert "grade" in flat(answer)
    assert f'hx-get="{at("own-words-try")}"' in flat(signed_in.get(at()))
    assert not desk.wordings.exists()


def test_the_example_is_a_sheet_that_fills_most_blanks_and_no_letter_to_a_business_is_too_hard(
    signed_in: Client, desk: Desk, gift: Gift
) -> None:
    bakery = make_partner(desk.program, "Bluebird Bakery")
    bare = [Line(description="unquestionably extraordinary merchandise", quantity=2)]
    receive(desk=desk, source="partner", partner=bakery, day=desk.day, form="goods", lines=bare)
    project = add_project(desk=desk, title="Planters", students=20)
    edit_project(desk=desk, project=project, what_it_became="Planters stand on Main Street")
    Gift.objects.filter(pk=gift.pk).update(project=project)
    page = flat(signed_in.get(at("own-words-try"), {"words": "Extraordinary generosity! [what it became]"}))
    assert "From your book: Riverbend Garden Center." in page
    assert "harder than it should be" not in page


@pytest.mark.parametrize(("words", "why"), [("", "Write the words"), ("Hi [ ].", "Nothing stands between [ and ]")])
def test_what_cannot_be_kept_is_said_plainly(signed_in: Client, words: str, why: str) -> None:
    assert why in flat(signed_in.post(at(), {"words": words, "seen": 0}))


def test_another_language_and_another_program_keep_their_words(desk: Desk, gift: Gift, otto: Membership) -> None:
    word(desk, OWN)
    assert (
        prepare(desk, "gratitude-letter", gift.pk).gather({"language": "es"}).body[0].startswith("Gracias por lo que")
    )
    assert not otto.program.wordings.exists()


def test_a_run_of_many_sheets_reads_own_words_and_earlier_letters_once(desk: Desk, gift: Gift) -> None:
    word(desk, OWN)
    counted, lines = [], [Line(description="pots", quantity=6)]
    for more in (1, 3):
        for number in range(more):
            partner = make_partner(desk.program, name=f"Shop {more} {number}")
            receive(desk=desk, source="partner", partner=partner, day=desk.day, form="goods", lines=lines)
        batch = make_thanks(desk, desk.day.replace(day=1))
        assert batch is not None
        with CaptureQueriesContext(connection) as queries:
            sheets = BatchSheets(desk, batch)
            assert all("Look what" in one.prepared.facts.body[0] for one in sheets.looked_at(sheets.letters))
        asked = [one["sql"] for one in queries.captured_queries]
        counted.append(
            [sum(table in sql for sql in asked) for table in ("partners_wording", '"partners_letter"."day" >= ')]
        )
    assert counted == [[1, 1], [1, 1]]


def test_last_years_sentences_to_the_same_giver_are_named_before_printing(desk: Desk, gift: Gift) -> None:
    prepared = prepare(desk, "gratitude-letter", gift.pk)
    letter = keep_words(desk=desk, document="gratitude-letter", title="x", words=prepared.words_gone, language="en",
                        key="gift", **prepared.about)  # fmt: skip
    gone_out(desk=desk, letter=letter, state="mailed", day=desk.day, pdf=prepared.module.draw(prepared.facts))
    lines = [Line(description="cotton cloth in wide rolls", quantity=9)]
    later = replace(desk, day=desk.day + timedelta(days=30))
    again = receive(desk=later, source="partner", partner=gift.partner, day=later.day, form="goods", lines=lines)
    said = [str(gap.words) for gap in prepare(later, "gratitude-letter", again.pk).gaps() if gap.code == "said-before"]
    assert (
        "They read this before, in the letter of October 6, 2026: “You put good materials into children’s hands.”"
        in said
    )
    assert not [gap for gap in prepared.gaps() if gap.code in ("said-before", "last-words")]


def test_a_note_of_thanks_leads_to_the_words_of_its_own_kind(signed_in: Client, desk: Desk) -> None:
    owed = owe_thanks(desk=desk, partner=make_partner(desk.program), reason="promise", base=desk.day)
    page = signed_in.get(reverse("outreach:document-prepare", args=["thanks-note", owed.pk]))
    assert page.context["worded"] == [("thanks-note", "Thank-you note for a promise")]
