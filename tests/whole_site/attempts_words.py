"""What is typed into the forms of the teacher's own words."""

from __future__ import annotations

from tests.whole_site.attempt import Attempt

ATTEMPTS = {
    "outreach:own-words-part": Attempt({"words": "Could you spare this for us?"}),
    "outreach:own-words-again": Attempt({"number": 0}, page="outreach:own-words-part"),
}
