"""Invented facts of each worded sheet, for an example where the record has nothing yet and for looking at own words.

For every part there are facts that say it; `tests/outreach/test_own_words.py` holds them to that.
"""

from __future__ import annotations

from datetime import date
from typing import Any

from outreach.documents import (
    colleague_invitation,
    family_letter,
    family_thanks,
    grant_report,
    gratitude_letter,
    introduction_letter,
    talk_card,
    trade_memo,
    year_end_note,
)
from outreach.documents import helper_note as helper_documents
from outreach.documents import leave_behind as asking
from outreach.page import Letterhead
from outreach.wording import year_facts
from outreach.wording.counts import Item
from outreach.wording.grant_facts import BudgetLine
from outreach.wording.gratitude import Thanks
from outreach.wording.introduction import Introduction, Stands
from outreach.wording.own_words import Part
from outreach.wording.year_end import Given

DAY, LATER, LAST = date(2026, 10, 6), date(2026, 11, 10), date(2027, 6, 30)
SCHOOL = Letterhead("Millrace Elementary", ("100 Mill Street", "Alder Falls"), "(201) 555-0100")
TEACHER, SHOP, PERSON = "June Castellanos", "Riverbend Garden Center", "Ana Lindqvist"
BOTH: dict[str, dict[str, str]] = {
    "en": {
        "pots": "terracotta pots",
        "grades": "kindergarten to grade 5",
        "planters": "Your pots became planters at the school door.",
        "job": "hanging a show",
        "cards": "24 thank-you cards",
        "tiles": "clay tiles for the hall",
        "thread": "thread",
    },
    "es": {
        "pots": "macetas de barro",
        "grades": "de kínder a grado 5",
        "planters": "Sus macetas adornan la entrada de la escuela.",
        "job": "colgar una muestra",
        "cards": "24 tarjetas de agradecimiento",
        "tiles": "mosaicos para el pasillo",
        "thread": "hilo",
    },
}


def sender(language: str) -> dict[str, Any]:
    return {"language": language, "paper": "letter", "letterhead": SCHOOL, "day": DAY, "teacher": TEACHER}


def leave_behind(language: str, part: Part) -> asking.Facts:
    nobody, words = part.path == "request_from", BOTH[language]
    return asking.Facts(
        **sender(language),
        phone="(201) 555-0101",
        partner="" if nobody else SHOP,
        contact="" if nobody else PERSON,
        grades="" if part.path == "serves_count" else words["grades"],
        students=None if part.path == "serves_grades" else 604,
        asks=(Item(words["pots"], 120),),
        smaller=Item(words["pots"], 60),
        becomes=words["planters"],
        needed_by=LATER,
        offer_back=None,
        last_year=words["planters"],
        back_on=LATER,
    )


_FORMS: dict[str, Any] = {"help_reaches": "service", "see_help": "service", "back_by": "loan", "our_side": "exchange"}
_FORMS |= {"what_for": "money", "meant_for": "money", "part_reaches": "exchange", "part_will_reach": "exchange"}


def _thanks(language: str, part: Part, moment: Any) -> Thanks:
    """As the part needs it: `given.money` is a gift of money, `back_by` a loan."""
    words = BOTH[language]
    form: Any = part.path.partition(".")[2] or _FORMS.get(part.path, "goods")
    money, trade = form == "money", form == "exchange"
    return Thanks(
        language=language,
        moment=moment,
        form=form,
        day=DAY,
        partner="" if part.path in ("to_nobody", "to_person") else SHOP,
        contact="" if part.path in ("to_nobody", "to_business") else PERSON,
        items=() if money else (Item(words["pots"], 120),),
        amount_cents=15_000 if money else None,
        part_of_trade=trade,
        back=words["cards"] if trade else "",
        becomes=words["planters"] if moment == "delivery" else "",
        students=104,
        expected_on=LATER if moment == "promise" else None,
        we_collect=part.path == "expect_us",
        return_on=LAST if form == "loan" else None,
        purpose=words["tiles"] if part.path == "what_for" else "",
        meant_for=words["tiles"] if part.path == "meant_for" else "",
        receiver="Alder Falls School District",
        teacher=TEACHER,
        school=SCHOOL.school,
    )


def _letter(thanks: Thanks, note: Any = "thanks", grant: str = "") -> gratitude_letter.Facts:
    return gratitude_letter.Facts("letter", SCHOOL, DAY, thanks, TEACHER, note=note, grant=grant)


def delivery(language: str, part: Part) -> gratitude_letter.Facts:
    return _letter(_thanks(language, part, "delivery"))


def promise(language: str, part: Part) -> gratitude_letter.Facts:
    return _letter(_thanks(language, part, "promise"))


def after_a_no(language: str, part: Part) -> gratitude_letter.Facts:
    return _letter(Thanks(language, "promise", "goods", DAY, SHOP, PERSON, school=SCHOOL.school), "considering")


def award(language: str, part: Part) -> gratitude_letter.Facts:
    money = _thanks(language, Part("given.money", ""), "promise")
    return _letter(money, "award", BOTH[language]["tiles"])


def year_end(language: str, part: Part) -> year_end_note.Facts:
    """Of a year in which something was given, lent, or both, and became something or not."""
    words, only_lent, plain = BOTH[language], part.path == "lent", part.path in ("ends", "over")
    given = Given(
        language=language,
        year="2026–27",
        partner="" if part.path in ("to_nobody", "to_person") else SHOP,
        contact="" if part.path in ("to_nobody", "to_business") else PERSON,
        items=() if only_lent else (Item(words["pots"], 120),),
        lent=(Item(words["tiles"], 12),),
        became=() if plain else (words["planters"],),
        reached=104,
        taught=604,
        is_over=part.path.startswith("over"),
        teacher=TEACHER,
        school=SCHOOL.school,
    )
    return year_end_note.Facts("letter", SCHOOL, DAY, given, TEACHER)


def report(language: str, part: Part) -> grant_report.Facts:
    told = {"some_left": 40_000, "rest_back": 40_000, "too_much": 52_000, "none_spent": 0, "thanks_unspent": 0}
    spent, words = told.get(part.path, 50_000), BOTH[language]
    return grant_report.Facts(
        **sender(language),
        partner="Alder Falls Education Fund",
        title=words["tiles"],
        awarded=50_000,
        awarded_on=DAY,
        asked=60_000,
        became=words["planters"],
        students=104,
        lines=(BudgetLine(words["tiles"], planned=50_000, spent=spent),),
        rest_back_on=LAST if part.path == "rest_back" else None,
    )


def helper_note(language: str, part: Part) -> helper_documents.Facts:
    minutes = 0 if part.path == "no_hours" else 150
    return helper_documents.Facts(
        **sender(language), helper="Bea Fontaine", minutes=minutes, jobs=(BOTH[language]["job"],)
    )


def letter_home(language: str, part: Part) -> family_letter.Facts:
    none = part.path == "if_nothing"
    things = () if none else (family_letter.Thing(BOTH["en"]["thread"], BOTH["es"]["thread"]),)
    return family_letter.Facts(**sender("en"), things=things, first=DAY, last=LATER, return_by=LATER)


def thanks_home(language: str, part: Part) -> family_thanks.Facts:
    none = part.path == "nothing"
    came = () if none else (family_thanks.Came(BOTH["en"]["thread"], 40, 3, BOTH["es"]["thread"]),)
    became, became_es = BOTH["en"]["planters"], BOTH["es"]["planters"]
    last = DAY if part.path == "on_one_day" else LATER
    return family_thanks.Facts(**sender("en"), first=DAY, last=last, came=came, became=became, became_es=became_es)


def invitation(language: str, part: Part) -> colleague_invitation.Facts:
    return colleague_invitation.Facts(
        **sender(language),
        title=BOTH[language]["tiles"],
        colleague="" if part.path == "no_name" else "Theo Brandt",
        subject="" if part.path == "first" else {"en": "science", "es": "ciencias"}[language],
        classes="3-A, 3-B",
        children=49,
        begins_on=DAY,
        ends_on=LATER,
        shown_on=LATER,
        ours=(("brings", BOTH[language]["pots"]),),
        theirs=(("brings", BOTH[language]["thread"]),),
    )


def memo(language: str, part: Part) -> trade_memo.Facts:
    words = BOTH[language]
    return trade_memo.Facts(
        **sender(language),
        agreed_on=DAY,
        school=SCHOOL.school,
        partner=SHOP,
        contact=PERSON,
        make=trade_memo.Part(Item(words["cards"]), LATER),
        gives=(trade_memo.Part(Item(words["pots"], 120), LATER),),
        materials=words["thread"],
        display_from=LATER,
        afterwards=words["planters"],
        if_late=words["planters"],
        more=words["planters"],
    )


def introduction(language: str, part: Part) -> introduction_letter.Facts:
    words, path = BOTH[language], part.path
    stands = (Stands(Item(words["pots"], 60), LATER),)
    about = Introduction(
        language,
        TEACHER,
        SCHOOL.school,
        former="" if path == "begins" else "Otto Halvorsen",
        partner="" if path in ("to_nobody", "to_person") else SHOP,
        contact="" if path in ("to_nobody", "to_business") else PERSON,
        form=path if path in ("money", "trade", "help") else "goods",
        came=(Item(words["pots"], 120),),
        came_on=DAY,
        theirs=stands,
        ours=stands,
        phone="(201) 555-0101",
        email="june.castellanos@example.org",
    )
    return introduction_letter.Facts("letter", SCHOOL, LATER, about)


def the_year(language: str, part: Part) -> year_facts.Facts:
    readers = part.path.removeprefix("readers.") if part.path.startswith("readers.") else year_facts.BOARD
    return year_facts.Facts(
        **{**sender(language), "day": date(2027, 7, 1) if part.path == "whole" else LATER},
        year="2026–27",
        first=date(2026, 7, 1),
        last=LAST,
        readers=readers,
        students=604,
        classes=26,
        gifts=(("goods", 23), ("money", 2)),
        families=0 if part.path == "gifts" else 4,
        promised=(21, 9),
        kept=(17, 9),
        helpers=14,
        minutes=6150,
        thanks_owed=38,
        thanks_said=36,
        became=(BOTH[language]["planters"],),
        needs=() if readers == year_facts.PARTNERS else (BOTH[language]["pots"],),
        names=(SHOP,),
    )


def a_talk(language: str, part: Part) -> talk_card.Facts:
    """Only four sentences and the need are told; those after them where the ones before have nothing to say."""
    return talk_card.Facts(the_year(language, part))
