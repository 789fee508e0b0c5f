"""Invented facts of each worded sheet, for an example where the record has nothing yet and for looking at own words.

For every part there are facts that say it; `tests/outreach/test_own_words.py` holds them to that.
"""

from __future__ import annotations

from datetime import date

from outreach.documents import helper_note as helper_documents
from outreach.documents import leave_behind as asking
from outreach.page import Letterhead
from outreach.wording.counts import Item
from outreach.wording.own_words import Part

DAY, LATER = date(2026, 10, 6), date(2026, 11, 10)
SCHOOL = Letterhead(school="Millrace Elementary School", address=("100 Mill Street", "Alder Falls"), phone="555-0100")
TEACHER = "June Castellanos"


def leave_behind(language: str, part: Part) -> asking.Facts:
    nobody = part.path == "request_from"
    what = {"en": "terracotta pots", "es": "macetas de barro"}[language]
    grades = {"en": "kindergarten to grade 5", "es": "de kínder a grado 5"}[language]
    return asking.Facts(
        language=language,
        paper="letter",
        letterhead=SCHOOL,
        day=DAY,
        teacher=TEACHER,
        phone="555-0101",
        partner="" if nobody else "Riverbend Garden Center",
        contact="" if nobody else "Ana Lindqvist",
        grades="" if part.path == "serves_count" else grades,
        students=None if part.path == "serves_grades" else 604,
        asks=(Item(what, 120),),
        smaller=Item(what, 60),
        becomes={"en": "Planters for the front steps", "es": "Macetas para la entrada"}[language],
        needed_by=LATER,
        offer_back=None,
        last_year={"en": "Forty planters stood in town.", "es": "Cuarenta macetas en el pueblo."}[language],
        back_on=LATER,
    )


def helper_note(language: str, part: Part) -> helper_documents.Facts:
    return helper_documents.Facts(
        language=language,
        paper="letter",
        letterhead=SCHOOL,
        day=DAY,
        helper="Bea Fontaine",
        teacher=TEACHER,
        minutes=0 if part.path == "no_hours" else 150,
        jobs=({"en": "hanging a show", "es": "colgar una muestra"}[language],),
    )
