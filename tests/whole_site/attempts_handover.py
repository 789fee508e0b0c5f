"""What can be typed where a book is handed over."""

from __future__ import annotations

from tests.whole_site.attempt import Attempt

ATTEMPTS: dict[str, Attempt] = {
    "year:handover-carry-out": Attempt(
        {"teacher": "Priya Natarajan", "title": "Art teacher", "email": "", "phone": ""}
    ),
}
