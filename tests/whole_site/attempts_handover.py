"""What can be typed where a book is handed over."""

from __future__ import annotations

from tests.whole_site.attempt import Attempt, set_to

# The number of the rows in `make_book` that the forms name.
OWN = 5_000_001
ATTEMPTS: dict[str, Attempt] = {
    "year:handover-carry-out": Attempt(
        {"teacher": "Priya Natarajan", "title": "Art teacher", "email": "", "phone": ""}
    ),
    "outreach:introductions": Attempt(
        {"partner": [OWN + 1], "state": "mailed"}, before=set_to("partners", never_ask=False, notes="")
    ),
}
