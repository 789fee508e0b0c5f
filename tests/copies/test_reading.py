"""What is refused and with which words, and copies of earlier steps of the schema."""

from __future__ import annotations

import json
import zipfile
from contextlib import closing

import pytest

from partners.copies import form, reading
from partners.copies.comparing import counted
from partners.copies.reading import beside, contents
from partners.copies.sealing import Sealed, seal, unseal
from partners.copies.standing_in import opened, scratch, standing_in
from partners.copies.tables import apps_at, newest_step
from partners.copies.writing import write_book
from partners.program.models import Program
from tests.copies.test_drill import AT
from tests.migrated import with_migrations


@pytest.fixture
def copy(folder, june):
    with (folder / "a.book").open("wb") as file:
        write_book(file=file, at=AT)
    return folder / "a.book"


def cut(path):
    path.write_bytes(path.read_bytes()[:-200])


def foreign(path):
    path.write_bytes(b"Dear Ms. Odell")


def another_zip(path):
    with zipfile.ZipFile(path, "w") as packed:
        packed.writestr("word/document.xml", "<w:document/>")


def changed_list(**values):
    def change(path):
        with zipfile.ZipFile(path, "a") as packed:
            told = json.loads(packed.read(form.LIST)) | values
            with pytest.warns(UserWarning, match="Duplicate name"):
                packed.writestr(form.LIST, json.dumps(told))

    return change


def changed_row(path):
    with zipfile.ZipFile(path, "a") as packed:
        rows = packed.read("rows/partners_user.jsonl").replace(b"June", b"Jane")
        with pytest.warns(UserWarning, match="Duplicate name"):
            packed.writestr("rows/partners_user.jsonl", rows)


@pytest.mark.parametrize(
    ("harm", "sentence"),
    [
        (cut, form.CUT),
        (foreign, form.FOREIGN),
        (another_zip, form.FOREIGN),
        (changed_list(format_version=2), form.NEWER),
        (changed_list(schema="0999_later"), form.NEWER),
        (changed_row, form.BROKEN),
    ],
)
def test_what_is_no_whole_copy_of_ours_is_refused_in_words(copy, folder, harm, sentence):
    harm(copy)
    with pytest.raises(form.Unreadable) as refused, beside(copy, folder / "made.sqlite3"):
        pass
    assert str(refused.value) == sentence


def test_a_locked_copy_opens_with_its_passphrase_alone(copy):
    plain = copy.read_bytes()
    copy.write_bytes(seal(copy, "four plain words here"))
    assert unseal(copy, "four plain words here") == plain
    with pytest.raises(Sealed, match="does not open"):
        unseal(copy, "four plain words there")


@pytest.mark.parametrize(
    "step", ["0005_post", *(pytest.param(name, marks=pytest.mark.nightly) for name in ("0003_helpers", "0004_money"))]
)
def test_a_copy_of_an_older_book_is_brought_forward(folder, step, django_db_blocker):
    """Made as today's command makes it from a book that no newer Partner Book has opened yet."""
    with with_migrations(), django_db_blocker.unblock():
        with closing(opened(scratch(folder / "old.sqlite3"))) as old, standing_in(old):
            reading.make_tables_of(old, step)
            then = apps_at(step)
            program = then.get_model("partners", "Program").objects.create(name="Alder Falls Art")
            place = then.get_model("partners", "Partner").objects.create(program=program, name="Riverbend")
            then.get_model("partners", "Gift").objects.create(program=program, partner=place, day="2026-03-04")
            with (folder / "old.book").open("wb") as file:
                write_book(file=file, at=AT, connection=old)
        assert contents(folder / "old.book").schema == step != newest_step()
        with beside(folder / "old.book", folder / "made.sqlite3") as (made, told):
            assert told.rows == sum(counted(made).values()) == 3
            assert Program.objects.get().gifts.get().partner.name == "Riverbend"
