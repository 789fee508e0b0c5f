"""Facts for the sheets of helpers, all of invented Alder Falls."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, time
from typing import Any

from outreach.documents import call_sheet, helper_note, job_card, night_before, sign_in_sheet
from outreach.documents.call_sheet import Person
from outreach.documents.night_before import Coming, PanelsOf
from partners.helpers.job_cards import caution_words, ready_card
from tests.outreach.sheets import LONG_NAME, LONG_PERSON, LONG_SCHOOL, SCHOOL

DAY = date(2027, 3, 16)
AT = {"day": DAY, "starts": time(13), "ends": time(14, 30)}


def card(job: str = "hanging", language: str = "en", **changes: Any) -> job_card.Facts:
    """A ready card at Millrace."""
    ready = ready_card(job, language)
    assert ready is not None
    facts = job_card.Facts(
        language=language,
        paper="letter",
        title=ready.title,
        **AT,
        school="Millrace Elementary",
        place="Front hall",
        sign_in="Sign in at the office and wear the badge.",
        room="Room 14, end of the left hall",
        toilet="Across the hall; water in the room",
        exits="Hall door, and the door to the yard",
        whom_to_call="Ms. Odell at the office, (201) 555-0101",
        at_office="A small thank-you waits there: factory-sealed, label kept, nut-free.",
        allergies="No food in the art room. Wash your hands when you come.",
        steps=ready.steps,
        with_what=ready.with_what,
        where_it_goes=ready.where_it_goes,
        looks_done=ready.looks_done,
        cautions=caution_words(ready.cautions, ready.steps, language),
        teacher="June Castellanos",
    )
    return replace(facts, **changes)


CARD = card()
LONG_TEXT = (
    "everything that was left over from the last class, with its label still on it, sorted by size and color " * 3
)
LONG_CARD = card(
    title="Hanging the winter show of both schools in the front hall, the stairs and the library"[:120],
    school=LONG_SCHOOL.school,
    place=LONG_NAME[:120],
    sign_in=LONG_TEXT[:200],
    room=LONG_TEXT[:160],
    toilet=LONG_TEXT[:160],
    exits=LONG_TEXT[:160],
    whom_to_call=f"{LONG_PERSON}, (201) 555-0101"[:160],
    at_office=LONG_TEXT[:200],
    allergies=LONG_TEXT[:200],
    steps=tuple(f"Step {number}: {LONG_TEXT}"[:160] for number in range(7)),
    with_what=LONG_TEXT[:300],
    where_it_goes=LONG_TEXT[:300],
    looks_done=LONG_TEXT[:300],
    cautions=caution_words(["ladder", "cutter", "kiln", "hot_glue", "needles", "pictures"], [], "en"),
)
SIGN_IN = sign_in_sheet.Facts(
    language="en",
    paper="letter",
    letterhead=SCHOOL,
    **AT,
    place="Art room",
    job="hanging",
    names=("Ana Prado", "Ben Ostrowski", "Priya Natarajan", LONG_PERSON),
    sign_in="Sign in at the office and wear the badge.",
)
CROWD = tuple(f"{LONG_PERSON} {number}" for number in range(1, 31))
LONG_SIGN_IN = replace(SIGN_IN, letterhead=LONG_SCHOOL, names=CROWD)
ANA = Person("Ana Prado", "(201) 555-0141", "ana.prado@example.org", "text", "Spanish")
BEN = Person("Ben Ostrowski", "(201) 555-0142", "", "phone", "")
LONG_ONE = Person(
    LONG_PERSON,
    "(201) 555-0143 ext. 1234, after six",
    "maximiliana.featherstonehaugh-castellanos@alderfallsschools.example.org",
    "email",
    "Portuguese and some Spanish",
)
CALLS = call_sheet.Facts(
    language="en",
    paper="letter",
    **AT,
    place="Art room",
    job="hanging",
    needed=5,
    asked=(ANA, LONG_ONE),
    said_yes=(replace(BEN, cleared=False, cleared_until=date(2027, 3, 1)),),
    teacher="June Castellanos",
)
LONG_CALLS = replace(CALLS, asked=(LONG_ONE,) * 14, said_yes=(LONG_ONE, ANA, BEN) * 5)
NIGHT = night_before.Facts(
    language="en",
    paper="letter",
    title="Winter lights",
    opens_on=date(2027, 3, 18),
    opens_at=time(18),
    works=240,
    works_per_panel=12,
    panels=20,
    place="Front hall, Millrace Elementary",
    bring=("String", "tape or clips for these walls", "step ladder", "the plan of the panels"),
    sessions=(
        Coming(DAY, time(13), time(14, 30), "labelling", ("Ana Prado",)),
        Coming(date(2027, 3, 17), time(8, 30), time(11), "hanging", ("Ana Prado", "Ben Ostrowski", LONG_PERSON)),
        Coming(date(2027, 3, 17), time(15), time(17), "hanging"),
    ),
    order=ready_card("hanging", "en").steps,
    phones=(
        ("Millrace Elementary", "(201) 555-0101"),
        ("Ana Prado", "(201) 555-0141"),
        (LONG_PERSON, "(201) 555-0143"),
    ),
    classes=tuple(PanelsOf(f"{grade}-{letter}", 17, 2) for grade in "K12345" for letter in "AB"),
    teacher="June Castellanos",
)
LONG_NIGHT = replace(
    NIGHT,
    title="W" * 60 + " " + LONG_NAME[:59],
    sessions=tuple(
        Coming(date(2027, 3, 1 + number), time(8, 30), time(11, 15), "taking_down", CROWD[:6]) for number in range(14)
    ),
    phones=tuple((f"{LONG_PERSON} {number}", "(201) 555-0143") for number in range(14)),
    classes=tuple(PanelsOf(f"{number}-Birch, {LONG_SCHOOL.school}", 17, 2) for number in range(26)),
)
NOTE = helper_note.Facts(
    language="en",
    paper="letter",
    letterhead=SCHOOL,
    day=DAY,
    helper="Ana Prado",
    teacher="June Castellanos",
    role="Art teacher",
    minutes=330,
    jobs=("hanging “Winter lights”", "cutting and trimming", "sewing and kits at home"),
)
LONG_NOTE = replace(
    NOTE, helper=LONG_PERSON, letterhead=LONG_SCHOOL, teacher=LONG_PERSON, text=("Every word counts. " * 40,) * 6
)
EVERY: dict[Any, tuple[Any, Any]] = {
    job_card: (CARD, LONG_CARD),
    sign_in_sheet: (SIGN_IN, LONG_SIGN_IN),
    call_sheet: (CALLS, LONG_CALLS),
    night_before: (NIGHT, LONG_NIGHT),
    helper_note: (NOTE, LONG_NOTE),
}
