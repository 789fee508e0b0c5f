"""Published figures kept as data: fixtures/reference holds one JSON file per table, each with its sources.

Every file is an object with `title`, `source` and its tables; a figure whose source was not read says so in its row.
"""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

FOLDER = Path(__file__).resolve().parents[2] / "fixtures" / "reference"


@cache
def reference(name: str) -> dict[str, Any]:
    """The table of that name, read once. Not to be changed by who asks for it.

    Raises FileNotFoundError when there is no such table.
    """
    table: dict[str, Any] = json.loads((FOLDER / f"{name}.json").read_text(encoding="utf-8"))
    return table
