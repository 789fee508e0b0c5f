"""The sheet on which the principal approves a letter home, with what the letter says and asks."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from django.utils.translation import gettext_lazy as _

from outreach.documents import family_letter
from outreach.gap import Gap, found, missing_signs, unless
from outreach.page import (
    LETTER_LOOKS,
    Beside,
    Block,
    Book,
    Choice,
    Framed,
    Heading,
    Pairs,
    Paragraph,
    Run,
    Sheet,
    Stack,
    Ticks,
    WriteIn,
    bold,
    draw_sheet,
    on_paper,
    paper,
)
from outreach.wording.counts import students
from outreach.wording.dates import spelled
from outreach.wording.family import WORDS
from outreach.wording.readability import grade

SLUG = "letter-approval"
TITLE = _("Approval sheet for the letter home")
ABOUT = "school"
HEADING = "Approval of a letter home"
LAW = (
    "Information for parents goes out in a language they can understand, as far as practicable: Elementary and "
    "Secondary Education Act, section 1116(e)(5) (20 U.S.C. 6318(e)(5)). See also Title VI of the Civil Rights Act "
    "of 1964 (42 U.S.C. 2000d) and the Equal Educational Opportunities Act of 1974 (20 U.S.C. 1703(f)). The "
    "district's own rules and counsel come first. Children are never asked to translate."
)


@dataclass(frozen=True)
class Facts:
    """The letter as it stands, and to how many it goes.

    `sign_by` is so many school days before the collecting begins (`days_ahead`) as the school's procedure wants.
    """

    letter: family_letter.Facts
    principal: str = ""
    students: int | None = None
    classes: int = 0
    other_language: str = ""
    days_ahead: int = 0
    sign_by: date | None = None

    @property
    def language(self) -> str:
        return "en"


def _book(facts: Facts) -> Book:
    return Book(paper(facts.letter.paper), title=HEADING, author=facts.letter.teacher, language="en")


def _put(facts: Facts, book: Book) -> None:
    draw_sheet(_sheet(on_paper(facts)), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many = _RUN.draw, _RUN.draw_many, _RUN.write_many


def gaps(facts: Facts) -> tuple[Gap, ...]:
    return (
        *found(
            unless(facts.principal, "no-principal", _("The principal’s name is not written down."), "principal"),
            unless(facts.students, "no-students", _("No classes are entered for this school."), "students"),
            unless(facts.letter.things, "no-things", _("The letter asks for nothing yet."), "letter"),
        ),
        *missing_signs(facts.letter),
    )


def _sheet(facts: Facts) -> Sheet:
    letter = facts.letter
    return Sheet(
        title=HEADING,
        head=(letter.letterhead,),
        flow=(
            Heading(HEADING, before=0),
            Paragraph(_to(facts), before=0.3),
            Paragraph(_about(facts)),
            Pairs(_rows(facts)),
            Paragraph((bold("Why more than one language"),), heads=True),
            Paragraph(LAW, before=0.1),
            _answer(facts),
            Paragraph(
                "The letter itself is attached. Until this is signed it prints DRAFT across the page.", before=0.6
            ),
        ),
        looks=LETTER_LOOKS,
        running=HEADING,
    )


def _to(facts: Facts) -> str:
    to = f"To {facts.principal}" if facts.principal else "To the principal"
    who = ", ".join(part for part in (facts.letter.teacher, facts.letter.role) if part)
    return f"{to}, from {who}, {spelled(facts.letter.day, 'en')}" if who else to


def _about(facts: Facts) -> str:
    many = f" of {students(facts.students, 'en')}" if facts.students else ""
    rooms = f" in {facts.classes} {'class' if facts.classes == 1 else 'classes'}" if facts.classes else ""
    return (
        f"I would like to send the attached letter to the families{many}{rooms}. It asks for things a household may "
        "have to spare, and for helpers. Giving is free: no target, no list of who gave, no reward."
    )


def _rows(facts: Facts) -> tuple[tuple[str, str], ...]:
    letter, words = facts.letter, WORDS["en"]
    read = grade(family_letter.read_texts(letter)["en"])
    languages = ("English", "Spanish", facts.other_language)
    slip = "name, the child’s class or room and nothing else of the child, how to reach them, how they can help"
    days = [
        f"from {spelled(letter.first, 'en')}" if letter.first else "",
        f"until {spelled(letter.last, 'en')}" if letter.last else "",
    ]
    return (
        ("It always says", words.promise),
        ("It asks for", ", ".join(thing.english for thing in letter.things)),
        ("Not wanted", ", ".join(thing.english for thing in letter.cannot_use)),
        ("Left where", letter.drop_off),
        ("When", " ".join(part for part in days if part)),
        _sign_by(facts),
        ("The slip asks", slip),
        ("Languages", ", ".join(filter(None, languages))),
        ("Reading grade", f"{max(read, 1):.0f} (Flesch–Kincaid, the English side)" if read is not None else ""),
    )


def _sign_by(facts: Facts) -> tuple[str, str]:
    """Nothing once the collecting has begun."""
    letter, by = facts.letter, facts.sign_by
    if letter.first is None or letter.first <= letter.day:
        return "Sign before", ""
    if by is None:
        return "Sign before", f"{spelled(letter.first, 'en')}, when the collecting begins"
    days = "1 school day" if facts.days_ahead == 1 else f"{facts.days_ahead} school days"
    ahead = f"{days} before the collecting begins"
    if by < letter.day:
        return "Sign by", f"today, if you can: {ahead} was {spelled(by, 'en')}"
    return "Sign by", f"{spelled(by, 'en')}, {ahead}"


def _answer(facts: Facts) -> Block:
    return Framed(
        (
            Stack(
                (
                    Ticks(
                        (Choice("Approved"), Choice("Approved with these changes"), Choice("Not approved")), 3, before=0
                    ),
                    WriteIn("Changes"),
                    Beside((WriteIn("For letters home from"),), WriteIn("until"), wide=190),
                    Beside((WriteIn("Signature"),), WriteIn("Date"), wide=190, before=1.6),
                    WriteIn("Name", facts.principal),
                )
            ),
        )
    )
