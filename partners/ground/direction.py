"""Signs that turn the direction of the text around them: kept in a name, they would turn its neighbours on every page.

Unicode Standard Annex 9, section 2: the embeddings and overrides U+202A to U+202E and the isolates U+2066 to U+2069
reach beyond the text they stand in. The marks of section 2.6 (U+200E, U+200F, U+061C) do not, and stay: people who
write from right to left need them.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

TURNING = dict.fromkeys([*range(0x202A, 0x202F), *range(0x2066, 0x206A)])


def unturned(text: str) -> str:
    """The text without signs that turn others."""
    return text.translate(TURNING)


def reading_unturned(read: Callable[[Any], Any]) -> Callable[[Any], Any]:
    """How a field reads what was typed, without such signs."""
    return lambda value: read(unturned(value) if isinstance(value, str) else value)
