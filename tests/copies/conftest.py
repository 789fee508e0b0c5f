"""A book of its own in a folder of its own, standing in for the tests' database."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from django.db import connections

from partners.config.new_database import make_tables
from partners.copies.reading import empty_book
from partners.copies.standing_in import standing_in
from tests.migrated import another_database


@pytest.fixture
def folder(tmp_path: Path, settings: Any) -> Path:
    settings.DATA_DIR = tmp_path
    return tmp_path


@pytest.fixture
def own(folder: Path, django_db_setup: None, django_db_blocker: Any) -> Iterator[Any]:
    """Outside of any transaction, on the engine at hand, as a site has it."""
    with django_db_blocker.unblock(), another_database(folder, "own", tables) as made, standing_in(made):
        yield made


def tables(alias: str) -> None:
    if connections[alias].vendor == "sqlite":
        Path(connections[alias].settings_dict["NAME"]).write_bytes(empty_book())
    else:
        make_tables(alias)
