"""Lists that are read in through the screen: looked at, saved once, taken back; refused in plain words."""

from __future__ import annotations

import re
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse

from partners.agenda.check_book import differences
from partners.ground.models import Event
from partners.ground.table_rows import Table
from partners.program.models import Membership, Opened, Program
from partners.story import file_views
from partners.story.kept_rows import pack
from partners.story.kinds import KINDS
from tests import people, whole_book
from tests.ladder import enter, flat
from tests.story.files import csv_file, fill, xlsx_file

pytestmark = pytest.mark.django_db
PLACE = "/files/read-in/"
SHOPS = csv_file(
    ["Business name", "Owner", "Phone #", "Favorite color"],
    ["Copper Kettle Diner", "Pat Oduya", "201-555-0123", "blue"],
    ["مكتبة <b>النهر</b>", "", "(201) 555-0144", ""],
)


def look(client: Client, content: bytes, kind: str = "partners", **typed: Any) -> Any:
    return client.post(PLACE, {"kind": kind, "file": SimpleUploadedFile("list.csv", content), "look": "again", **typed})


def sent_on(shown: Any, **typed: Any) -> dict[str, Any]:
    """What the page sends when Save is pressed."""
    chosen = {column["name"]: column["chosen"] for column in shown.context["columns"]}
    return {**shown.context["form"].data, **chosen, **typed}


def save(client: Client, content: bytes, kind: str = "partners", **typed: Any) -> Any:
    return client.post(PLACE, sent_on(look(client, content, kind), **typed), follow=True)


def test_a_list_is_looked_at_then_saved_and_taken_back(signed_in: Client, program: Program) -> None:
    before = whole_book.rows(program)
    page = flat(look(signed_in, SHOPS))
    assert "2 rows were read: 2 to add, 0 to change, 0 in the book already." in page
    assert "مكتبة &lt;b&gt;النهر" in page
    assert whole_book.rows(program) == before
    assert "2 rows added." in flat(save(signed_in, SHOPS))
    assert list(program.partners.values_list("name", "phone", "people_key")) == [
        ("Copper Kettle Diner", "+12015550123", "pat oduya"),
        ("مكتبة <b>النهر</b>", "+12015550144", ""),
    ]
    assert differences(program) == []
    signed_in.post(reverse("story:undo", args=[Event.objects.latest("pk").pk]))
    assert whole_book.rows(program) == before


def test_the_same_file_again_adds_nothing(signed_in: Client, program: Program) -> None:
    save(signed_in, SHOPS)
    assert "Nothing was changed." in flat(save(signed_in, SHOPS))
    assert (program.partners.count(), Event.objects.count()) == (2, 1)


def test_a_place_without_a_kind_is_what_its_name_tells(signed_in: Client, program: Program) -> None:
    save(signed_in, b"name,phone\nAlder Falls Library,(201) 555-0144\n")
    assert program.partners.get().kind == "library"


def test_a_form_sent_twice_is_saved_once(signed_in: Client, program: Program) -> None:
    sent = sent_on(look(signed_in, SHOPS), once="a token")
    for _time in range(2):
        assert signed_in.post(PLACE, sent).status_code == 302
    assert (program.partners.count(), Event.objects.count()) == (2, 1)


def test_columns_are_changed_on_the_screen_and_stay(signed_in: Client, program: Program) -> None:
    sent = sent_on(look(signed_in, SHOPS), **{"column-1": "", "column-3": "notes"})
    again = signed_in.post(PLACE, sent)
    assert again.status_code == 200
    assert [column["chosen"] for column in again.context["columns"]] == ["name", "", "phone", "notes"]
    signed_in.post(PLACE, sent_on(again))
    assert program.partners.first().notes == "blue"
    assert not program.contacts.exists()


def test_what_changed_since_it_was_looked_at_is_looked_at_again(signed_in: Client, program: Program) -> None:
    shown = look(signed_in, SHOPS)
    assert signed_in.post(PLACE, sent_on(shown, kept=pack(Table(shown.context["table"].rows[:2])))).status_code == 200
    assert not program.partners.exists()


def test_a_row_is_refused_with_its_cell_and_nothing_is_saved(signed_in: Client, program: Program) -> None:
    gifts = csv_file(
        ["Date", "From", "Item"], ["31/31/2026", "Copper Kettle Diner", "bags"], ["10/1/2026", "x", "#REF!"]
    )
    page = re.sub("&[a-z#0-9]+;", "", flat(save(signed_in, gifts, "gifts")))
    assert "Cell A2 (Date): “31/31/2026” is no day of the calendar." in page
    assert "Cell C3 (Item): “#REF!” is a mistake that the spreadsheet reports." in page
    assert "2 rows need mending." in page
    assert not program.partners.exists()


@pytest.mark.parametrize("settled", ["owed", "done"])
def test_old_gifts_are_settled_where_the_teacher_says_so(signed_in: Client, program: Program, settled: str) -> None:
    gifts = csv_file(
        ["Date", "Donor", "Item", "Cash"], ["10/1/2025", "Elm Deli", "", "20"], ["10/2/2025", "families", "yarn", ""]
    )
    shown = look(signed_in, gifts, "gifts")
    assert signed_in.post(PLACE, sent_on(shown, settled=settled)).status_code == 302
    gift = program.gifts.get(source="partner")
    assert (gift.amount_cents, gift.thanks.done_on is None, gift.handed_in_on is None) == (
        2000,
        settled == "owed",
        settled == "owed",
    )
    assert differences(program) == []


def test_a_known_partner_takes_what_the_file_says_otherwise(signed_in: Client, program: Program) -> None:
    save(signed_in, SHOPS)
    mended = (
        SHOPS.replace(b"Favorite color", b"Town").replace(b"blue", b"Alder Falls").replace(b"555-0123", b"555-0199")
    )
    page = flat(look(signed_in, mended))
    assert "0 to add, 1 to change" in page
    assert "Phone: (201) 555-0123 → (201) 555-0199" in page
    save(signed_in, mended)
    assert program.partners.values_list("city", "phone_key")[0] == ("Alder Falls", "+12015550199")
    assert differences(program) == []


def test_a_long_list_tells_how_far_it_is(signed_in: Client, program: Program, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(file_views, "LONG", 1)
    answer = signed_in.post(PLACE, sent_on(look(signed_in, SHOPS), once="a token"))
    page = b"".join(answer.streaming_content).decode()
    assert page.index("0 of 2 rows") < page.index("2 of 2 rows") < page.index("All is saved.") < page.index("</html>")
    assert program.partners.count() == 2


def test_who_leaves_a_long_list_has_saved_nothing(
    signed_in: Client, program: Program, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(file_views, "LONG", 1)
    answer = signed_in.post(PLACE, sent_on(look(signed_in, SHOPS)))
    lines = iter(answer.streaming_content)
    assert b"2 of 2 rows" in [next(lines) for _line in range(3)][2]
    # As the server does for a reader who is gone; what else it does then would close the test's database.
    for close in answer._resource_closers:
        close()
    assert not program.partners.exists()
    assert not Event.objects.exists()


def test_guests_neither_read_in_nor_write_out(client: Client, grace: Membership) -> None:
    Membership.objects.filter(pk=grace.pk).update(opened=Opened.values)
    enter(client, grace)
    names = ("files", "import", "export-csv", "export-xlsx", "export-json")
    assert {client.get(reverse(f"story:{name}")).status_code for name in names} == {403}
    assert "Read in a file" not in flat(client.get(reverse("directory:partner-list")))


def test_the_whole_book_is_written_out_under_its_day(signed_in: Client, program: Program) -> None:
    fill(people.make_desk(program))
    for name, start in (("export-csv", b"PK"), ("export-xlsx", b"PK"), ("export-json", b'{"program"')):
        answer = signed_in.get(reverse(f"story:{name}"))
        assert answer.streaming
        assert b"".join(answer.streaming_content).startswith(start)
        assert 'attachment; filename="partner-book-2' in answer["Content-Disposition"]


def test_a_sheet_is_found_by_its_name_or_its_heads(signed_in: Client) -> None:
    shown = look(signed_in, xlsx_file(["Name", "Phone"], ["Elm Deli", 2015550123], title="Partners"))
    assert "Read from the sheet “Partners”." in flat(shown)
    assert shown.context["plan"].rows[0].values == {"name": "Elm Deli", "phone": "+12015550123"}


def test_what_came_back_is_checked_anew(signed_in: Client, program: Program) -> None:
    for kept in ("nonsense", "eJyrVkrLz1eyUkpKLFKqBQAh9ATP", "x" * 3):
        page = flat(signed_in.post(PLACE, {"kind": "partners", "kept": kept, "of_kind": "partners"}))
        assert "The rows did not come back whole." in page
    assert not program.partners.exists()


def test_every_kind_has_its_own_heads(signed_in: Client) -> None:
    for kind in KINDS:
        assert signed_in.get(PLACE, {"kind": kind}).context["form"]["kind"].value() == kind
