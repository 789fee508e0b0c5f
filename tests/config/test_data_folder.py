"""Where the book lives is its owner's to read."""

from __future__ import annotations

import os
import stat
from pathlib import Path

import pytest

from partners.config import environment


@pytest.mark.skipif(os.name == "nt", reason="Windows keeps rights another way")
def test_a_new_data_folder_is_open_to_its_owner_only(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PARTNER_BOOK_DATA", str(tmp_path / "book"))
    assert stat.S_IMODE(environment.data_folder().stat().st_mode) == 0o700


def test_a_folder_that_is_there_keeps_the_rights_it_was_given(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    tmp_path.chmod(0o750)
    before = tmp_path.stat().st_mode
    monkeypatch.setenv("PARTNER_BOOK_DATA", str(tmp_path))
    assert environment.data_folder().stat().st_mode == before
