"""The leave-behind sheet: one side left at a place that was asked, readable in half a minute, with a strip to reply."""

from dataclasses import dataclass
from datetime import date
from functools import cached_property

from django.utils.functional import Promise
from django.utils.text import format_lazy
from django.utils.translation import gettext_lazy as _

from outreach.gap import Gap, found, missing_signs, unless, when
from outreach.page import (
    SHEET_LOOKS,
    Beside,
    Block,
    Book,
    Choice,
    CutStrip,
    Framed,
    Heading,
    Letterhead,
    Pairs,
    Paragraph,
    Qr,
    Run,
    Sheet,
    Span,
    Stack,
    Ticks,
    WriteIn,
    bold,
    contact_card,
    draw_sheet,
    flow_words,
    measured,
    on_paper,
    paper,
    text_width,
)
from outreach.wording.caution import claims_scores, says_just
from outreach.wording.counts import Item, counted, joined, sentence, students, with_kind
from outreach.wording.dates import spelled
from outreach.wording.leave_behind import NAME, SHEET, becoming, day_alone, needed, program
from outreach.wording.own_words import HOUSE, OwnWords, Voice
from partners.gifts.letter_phrases import value_in_text

SLUG = "leave-behind"
TITLE = _("Leave-behind sheet")
ABOUT = "partner"

WORDS_IN_HALF_A_MINUTE = 119
"""Silent reading of non-fiction in English, 238 words a minute (Brysbaert 2019, value from memory)."""
SMALLEST_WANTED = 12
"""The trade sets a sheet that is read standing in 12 to 14 points."""


@dataclass(frozen=True)
class Facts:
    """Everything the sheet says. Only `day`, `letterhead` and `teacher` are always there; what is empty vanishes.

    Contact lines are the teacher's at school, never private ones; `unapproved` are schools it speaks for where nobody
    said yes. Texts are printed as typed, never read as markup. Without an `offer_back` the standing one is offered;
    "" offers nothing.
    """

    language: str
    paper: str
    letterhead: Letterhead
    day: date
    teacher: str
    role: str = ""
    phone: str = ""
    email: str = ""
    partner: str = ""
    contact: str = ""
    grades: str = ""
    students: int | None = None
    asks: tuple[Item, ...] = ()
    smaller: Item | None = None
    becomes: str = ""
    becomes_students: int | None = None
    becomes_by: date | None = None
    needed_by: date | None = None
    we_collect: bool = True
    offer_back: str | None = ""
    last_year: str = ""
    tax_line: str = ""
    approved_by: str = ""
    approved_role: str = ""
    approved_on: date | None = None
    unapproved: tuple[str, ...] = ()
    back_on: date | None = None
    draft: bool = False
    wording: OwnWords = HOUSE

    @cached_property
    def say(self) -> Voice:
        """The words of the sheet, with what fills their blanks."""
        return Voice(
            NAME,
            self.language,
            SHEET[self.language],
            self.wording,
            {
                "partner": self.partner,
                "person": self.contact,
                "teacher": self.teacher,
                "school": self.letterhead.school,
                "children": students(self.students, self.language) if self.students else "",
                "grades": self.grades,
                "what we ask": joined([counted(one, self.language) for one in self.asks if one.what], self.language),
                "day": spelled(self.day, self.language),
            },
        )

    @property
    def offered(self) -> str:
        """What we offer back; as always, where nothing was typed for this sheet."""
        return self.say("offered") if self.offer_back is None else self.offer_back


def _book(facts: Facts) -> Book:
    return Book(
        paper(facts.paper),
        title=_title(facts),
        author=", ".join(part for part in (facts.teacher, facts.letterhead.school) if part),
        subject=", ".join(counted(item, facts.language) for item in facts.asks),
        language=facts.language,
    )


def _put(facts: Facts, book: Book) -> None:
    clean = on_paper(facts)
    draw_sheet(_sheet(clean), book)


_RUN = Run(_book, _put)
draw, draw_many, write_many, stream = _RUN.draw, _RUN.draw_many, _RUN.write_many, _RUN.stream


def words_to_read(facts: Facts) -> int:
    """How many words stand between the date and the strip to cut off."""
    return flow_words(_sheet(on_paper(facts)), paper(facts.paper))


def gaps(facts: Facts) -> tuple[Gap, ...]:
    """What the sheet lacks or should not say, in the order in which it reads."""
    clean = on_paper(facts)
    typed = clean.wording.said(NAME, clean.language)
    own = " ".join(
        (typed, clean.becomes, clean.offered, clean.last_year, clean.tax_line, *(i.kind for i in clean.asks))
    )
    arrangement = measured(_sheet(clean), paper(facts.paper))
    too_long = words_to_read(clean) > WORDS_IN_HALF_A_MINUTE
    reach = clean.phone or clean.email
    has_ask = any(item.what for item in clean.asks)
    return (
        *found(
            unless(clean.teacher, "no-teacher", _("Your name is missing."), "teacher"),
            unless(reach, "no-contact", _("No school phone or e-mail, so there is no code to scan."), "phone"),
            unless(clean.students or clean.grades, "no-program", _("How many students, and which grades?"), "students"),
            unless(has_ask, "no-ask", _("Nothing is asked for. Choose a need."), "asks"),
            unless(clean.smaller, "no-smaller", _("No smaller alternative that would also help."), "smaller"),
            unless(clean.becomes, "no-becomes", _("What will it become?"), "becomes"),
            unless(clean.needed_by, "no-needed-by", _("No day it is needed by."), "needed_by"),
            when(_gone_by(clean), "past-needed-by", _("The day it is needed by has gone by."), "needed_by"),
            unless(clean.offered, "no-offer", _("Nothing is offered back."), "offer_back"),
            unless(clean.tax_line, "no-tax-line", _("The district’s sentence about taxes is missing."), "tax_line"),
            unless(clean.approved_by, "no-approval", _("No approval is recorded for asking."), "approved_by"),
            when(clean.unapproved, "no-approval-there", _not_at(clean), "approved_by"),
            unless(clean.back_on, "no-return-day", _("No day on which you will be back."), "back_on"),
            when(value_in_text(own), "amount", _("An amount of money stands in the text; a sheet names none."), ""),
            when(says_just(own), "just", _("Leave out the word “just”: it makes the request small."), ""),
            when(claims_scores(own), "scores", _("Do not claim that art raises test scores."), ""),
            when(too_long, "long-read", _("It takes more than half a minute to read. Shorten it."), ""),
            when(len(arrangement.pages) > 1, "second-page", _("It runs over one side. Shorten the texts."), ""),
            when(arrangement.look.size < SMALLEST_WANTED, "small-type", _("So much text needs small type."), ""),
        ),
        *missing_signs(facts),
    )


def _not_at(facts: Facts) -> Promise:
    return format_lazy(_("No approval for asking is recorded at {schools}."), schools=", ".join(facts.unapproved))


def _gone_by(facts: Facts) -> bool:
    return facts.needed_by is not None and facts.needed_by < facts.day


def _title(facts: Facts) -> str:
    return facts.say("request_to" if facts.partner else "request_from")


def _sheet(facts: Facts) -> Sheet:
    words, code = SHEET[facts.language], _code(facts)
    return Sheet(
        title=_title(facts),
        head=(facts.letterhead, _from_whom(facts)),
        flow=(
            Stack(
                (
                    Heading(_title(facts), before=0),
                    Paragraph(facts.say("attention") if facts.contact else "", before=0.1),
                ),
            ),
            Paragraph(program(facts.say, facts.students, facts.grades)),
            _box(facts),
            _what_follows(facts),
            Beside(left=(Paragraph(sentence(facts.tax_line)), _approval(facts)), right=code, wide=code.wide),
        ),
        foot=(_reply(facts),),
        looks=SHEET_LOOKS,
        running=f"{_title(facts)}, {spelled(facts.day, facts.language)}",
        page_words=words.page,
        watermark=words.draft if facts.draft else "",
    )


def _from_whom(facts: Facts) -> Block:
    who = (bold(facts.teacher), Span(f", {facts.role}" if facts.role else ""))
    reach = " · ".join(part for part in (facts.phone, facts.email) if part)
    day = spelled(facts.day, facts.language)
    row = Beside(left=(Paragraph(who),), right=Paragraph(day, side="right"), wide=text_width(day) + 2, gutter=14)
    return Stack((row, Paragraph(reach, before=0)), before=0.7)


def _box(facts: Facts) -> Block:
    say, language = facts.say, facts.language
    asks = [item for item in facts.asks if item.what]
    if not asks:
        return Framed(())
    smaller = with_kind(facts.smaller, language) if facts.smaller else ""
    lines: list[Block] = [Paragraph(say("asking"))]
    if len(asks) == 1:
        lines.append(Paragraph((bold(counted(asks[0], language)),), step=5, before=0.2))
        lines.append(Paragraph(asks[0].kind, before=0))
    for item in asks if len(asks) > 1 else ():
        kind = f", {item.kind}" if item.kind else ""
        lines.append(Paragraph((bold(counted(item, language)), Span(kind)), step=2, before=0.25))
    lines.append(Paragraph(say("smaller", something_smaller=smaller) if smaller else "", before=0.55))
    return Framed(tuple(lines))


def _what_follows(facts: Facts) -> Block:
    say, language = facts.say, facts.language
    label, when, taken = needed(say, facts.needed_by, facts.we_collect and bool(facts.asks))
    when_words = tuple(span for span in (bold(when), Span(f" {taken}" if when else taken)) if span.text)
    return Pairs(
        (
            becoming(say, facts.becomes, facts.becomes_students, facts.becomes_by, language),
            (label, when_words),
            (say("offer"), sentence(facts.offered)),
            (say("last_year"), sentence(facts.last_year)),
            (say("back"), (bold(day_alone(facts.back_on, language)),) if facts.back_on else ""),
        )
    )


def _approval(facts: Facts) -> Block:
    words = SHEET[facts.language]
    who = ", ".join(part for part in (facts.approved_by, facts.approved_role) if part)
    approved = ""
    if facts.approved_by:
        pattern = words.approved_on if facts.approved_on else words.approved
        approved = pattern.format(who=who, day=spelled(facts.approved_on, facts.language) if facts.approved_on else "")
    return Paragraph(approved, before=0.5)


def _code(facts: Facts) -> Qr:
    if not (facts.phone or facts.email) or not facts.teacher:
        return Qr("")
    card = contact_card(facts.teacher, facts.letterhead.school, facts.phone, facts.email)
    return Qr(card, SHEET[facts.language].contact)


def _reply(facts: Facts) -> Block:
    words = SHEET[facts.language]
    where = " · ".join(part for part in (facts.letterhead.school, facts.phone) if part)
    answers = (Choice(words.yes), Choice(words.maybe, line=110), Choice(words.not_this_year), Choice(words.never))
    may_we = Ticks((Choice(words.name_yes), Choice(words.name_no)), question=words.name_you)
    reply_to = words.reply_to.format(teacher=facts.teacher)
    return CutStrip(
        (
            Paragraph((bold(reply_to), Span(f", {where}" if where else "")), before=0),
            WriteIn(words.reply_from, facts.partner, before=0.4),
            Ticks(answers),
            Beside(left=(may_we,), right=WriteIn(words.your_name), wide=190, before=0.6),
        ),
        side=paper(facts.paper).side,
    )
