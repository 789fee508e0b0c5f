"""A whole book into another database: on SQLite into another file, on PostgreSQL from a file and back."""

from __future__ import annotations

import pytest

from partners.config import environment
from partners.config.new_database import make_tables
from partners.copies.comparing import unequal
from partners.copies.moving import CannotMove, move
from partners.copies.reading import empty_book
from partners.copies.standing_in import opened, standing_in
from partners.program.models import Program
from tests.copies.test_drill import filled


@pytest.fixture
def file(tmp_path):
    (tmp_path / "book.sqlite3").write_bytes(empty_book())
    made = opened(environment.sqlite(tmp_path))
    yield made
    made.close()


def test_a_moved_book_is_equal_in_every_cell_and_back(own, file, tmp_path):
    with standing_in(file):
        filled()
    counts = move(file, own, lambda: None)
    assert sum(counts.values()) > 55
    assert Program.objects.get().gifts.get().partner.name.startswith("“Ño”")
    (tmp_path / "back").mkdir()
    back = opened(environment.sqlite(tmp_path / "back"))
    assert move(own, back, make_tables) == counts
    assert list(unequal(file, back)) == []
    back.close()
    with pytest.raises(CannotMove, match="a book already"):
        move(file, own, lambda: None)


def test_a_single_cell_that_differs_is_found(own, file):
    for book in (file, own):
        with standing_in(book):
            filled()
    Program.objects.get().needs.update(on_hand=77)
    assert [words.split(" from ")[0] for words in unequal(file, own) if "need" in words] == ["partners_need differs"]
