"""A batch: what goes in, in which order, gone out but for what is still here, and taken back whole."""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from partners.agenda.actions import take_back
from partners.agenda.check_book import differences
from partners.ground.changes import ChangedMeanwhile, change
from partners.ground.models import Event
from partners.letters.actions import keep_words, throw_away
from partners.letters.batch_actions import Wanted, batch_gone, fill_batch, leave_out
from partners.letters.delivery_order import delivery_key
from partners.letters.going import Going
from partners.letters.models import Batch, Letter, Sheet
from partners.program.desk import Desk
from tests import whole_book
from tests.people import make_partner

NAMES = ("Bluebird Bakery", "Tamarack Hardware", "Marigold Framing")


def sheets(desk: Desk, names: tuple[str, ...] = NAMES) -> list[Wanted]:
    found = [desk.partners.filter(name=name).first() or make_partner(desk.program, name) for name in names]
    return [
        Wanted(
            document="leave-behind", title=f"For {one.name}", key="partner", about={"partner": one}, language="en",
            order=(place,), words={"need": 7},
        )
        for place, one in enumerate(found)
    ]  # fmt: skip


def fill(desk: Desk, wanted: list[Wanted], **values: Any) -> Batch:
    batch = fill_batch(desk=desk, kind="outing", title="Sheets", wanted=wanted, **values)
    assert batch is not None
    return batch


def left(batch: Batch) -> list[str]:
    return list(batch.letters.filter(state="draft").order_by("place").values_list("title", flat=True))


@pytest.mark.django_db
def test_a_batch_holds_its_sheets_in_order_and_takes_a_draft_along_with_its_words(desk: Desk) -> None:
    wanted = sheets(desk)
    words: dict[str, Any] = {"becomes": "planters"}
    keep_words(desk=desk, document="leave-behind", title="Old", words=words, language="en", **wanted[1].about)
    batch = fill(desk, wanted[::-1])
    assert left(batch) == ["For Bluebird Bakery", "Old", "For Marigold Framing"]
    assert batch.letters.get(title="Old").words == {"need": 7, "becomes": "planters"}
    assert differences(desk.program) == []


@pytest.mark.django_db
def test_filling_again_brings_up_to_date_and_keeps_what_somebody_wrote(desk: Desk) -> None:
    wanted = sheets(desk)
    batch = fill(desk, wanted)
    batch.letters.filter(place=1).update(words={"becomes": "planters"})
    before = whole_book.rows(desk.program)
    assert fill(desk, sheets(desk, NAMES[2:])) == batch
    assert left(batch) == ["For Marigold Framing"]
    assert list(desk.letters.filter(batch=None).values_list("title", flat=True)) == ["For Bluebird Bakery"]
    assert differences(desk.program) == []
    take_back(desk=desk, event=Event.objects.latest("pk"))
    assert whole_book.rows(desk.program) == before


@pytest.mark.django_db
def test_what_stands_in_another_open_batch_stays_there(desk: Desk) -> None:
    first = fill(desk, sheets(desk), first=desk.day)
    assert fill_batch(desk=desk, kind="outing", title="Again", wanted=sheets(desk)) is None
    assert left(first) == [f"For {name}" for name in NAMES]


def gone(desk: Desk, batch: Batch, letters: list[Letter], at_once: int = 2) -> int:
    going = [Going(letter=one, pdf=f"%PDF {one.pk}".encode(), words={"gone": True}) for one in letters]
    parts = [going[start : start + at_once] for start in range(0, len(going), at_once)]
    return sum(batch_gone(desk=desk, batch=batch, parts=parts, state="mailed", day=desk.day))


@pytest.mark.django_db
def test_all_but_one_go_out_each_with_its_own_sheet_and_undo_puts_all_back(desk: Desk) -> None:
    batch = fill(desk, sheets(desk, (*NAMES, "Second Street Credit Union")))
    before = whole_book.rows(desk.program)
    assert gone(desk, batch, list(batch.letters.order_by("place"))[:3]) == 3
    batch.refresh_from_db()
    assert batch.settled_on is None
    assert left(batch) == ["For Second Street Credit Union"]
    assert {bytes(one.pdf).split()[1] for one in Sheet.objects.all()} == {
        str(one.pk).encode() for one in batch.letters.exclude(state="draft")
    }
    assert differences(desk.program) == []
    take_back(desk=desk, event=Event.objects.latest("pk"))
    assert whole_book.rows(desk.program) == before


@pytest.mark.django_db
@pytest.mark.parametrize("last", ["goes out", "is thrown away", "is left out"])
def test_a_batch_is_through_with_its_last_sheet(desk: Desk, last: str) -> None:
    batch = fill(desk, sheets(desk, NAMES[:1]))
    letter = batch.letters.get()
    if last == "goes out":
        gone(desk, batch, [letter])
    elif last == "is left out":
        leave_out(desk=desk, batch=batch, letters=[letter])
    else:
        throw_away(desk=desk, letter=letter)
    batch.refresh_from_db()
    assert batch.settled_on == desk.day
    assert differences(desk.program) == []


@pytest.mark.django_db
def test_nothing_is_saved_where_one_sheet_was_changed_meanwhile(desk: Desk) -> None:
    batch = fill(desk, sheets(desk))
    letters = list(batch.letters.order_by("place"))
    with change(desk, "meanwhile") as book:
        book.update(Letter.objects.get(pk=letters[2].pk), words={"becomes": "planters"})
    before = whole_book.rows(desk.program)
    with pytest.raises(ChangedMeanwhile):
        gone(desk, batch, letters)
    assert whole_book.rows(desk.program) == before


STREETS = st.sampled_from(["9 River Rd", "12 River Rd", "100 Elm St", "Elm Street", "", "12 río rd"])


@given(st.lists(st.tuples(st.sampled_from(["Alder Falls", "alder falls", "Oak", ""]), STREETS), max_size=12))
def test_a_round_goes_town_by_town_and_street_by_street(rows: list[tuple[str, str]]) -> None:
    """Walked as one would by hand (common practice): no town, and no street in a town, is entered twice."""
    ordered = sorted(rows, key=lambda row: delivery_key(city=row[0], postal_code="", street=row[1], name=""))
    towns = [city.casefold() for city, _street in ordered]
    assert [town for place, town in enumerate(towns) if town in towns[:place] and towns[place - 1] != town] == []
    assert towns == sorted(towns, key=lambda town: (not town, town))
    in_one = [street for city, street in ordered if city.casefold() == "alder falls" and street.endswith("River Rd")]
    assert in_one == sorted(in_one, key=lambda street: int(street.split()[0]))
