"""The facts of letters home, of the principal's sheet, of the copies, and of the thanks to all families."""

from __future__ import annotations

from datetime import date
from typing import Any

from django.db.models import Q

from outreach.documents import family_letter, family_thanks, letter_approval, letter_copies
from outreach.documents.family_letter import MOST_THINGS, Thing
from outreach.documents.letter_copies import Copies
from outreach.gathering.school import letterhead, taught
from outreach.wording.family_thanks import THANKS
from outreach.wording.household_es import spanish_of, with_note
from partners.gifts.dates import families_since
from partners.gifts.families import family_gifts, family_money
from partners.gifts.family_actions import families_thanked
from partners.gifts.models import GiftQuerySet, Source
from partners.letters.actions import draft_of
from partners.letters.models import LetterState
from partners.program.desk import Desk
from partners.school.approval_models import ApprovalFor
from partners.school.approvals import Standing, standing
from partners.school.models import School
from partners.wish_list.models import CannotUse, Need

SPARE = 2
DAYS = ("from_on", "until_on", "return_by")

Words = dict[str, Any]


def gather(desk: Desk, school: School, words: Words) -> family_letter.Facts:
    """`words` are the teacher's own; what they leave out comes from the wish list."""
    texts = (
        "drop_off",
        "drop_off_es",
        "own",
        "own_es",
        "other_language",
        "other_translator",
        "other_text",
        "other_slip",
    )
    approval = school.approvals.valid_on(desk.day, ApprovalFor.LETTERS_HOME).first()
    chosen = chosen_needs(desk, school, words)
    return family_letter.Facts(
        **sender(desk, school),
        things=tuple(thing(need, words) for need in chosen),
        left_out=tuple(english_of(need) for need in household_needs(desk, school) if need not in chosen),
        cannot_use=tuple(unwanted(one, words) for one in desk.cannot_use.all()),
        first=day_of(words, "from_on"),
        last=day_of(words, "until_on"),
        return_by=day_of(words, "return_by"),
        **{name: words.get(name, "") for name in texts},
        other_holds_promise=bool(words.get("other_holds_promise")),
        approved_by=approval.by if approval else "",
    )


def sender(desk: Desk, school: School) -> dict[str, Any]:
    program = desk.program
    return {
        "language": "en",
        "paper": program.paper,
        "letterhead": letterhead(school, desk),
        "day": desk.day,
        "teacher": desk.signs.teacher,
        "role": desk.signs.title,
        "phone": desk.signs.phone,
        "email": desk.signs.email,
    }


def household_needs(desk: Desk, school: School | None = None) -> list[Need]:
    """Open needs that are found in a household: of the school, and of no school in particular."""
    rows = desk.needs.open().filter(household=True)
    rows = rows.filter(Q(school=school) | Q(school=None)) if school else rows
    return list(rows.order_by("needed_by", "pk"))


def chosen_needs(desk: Desk, school: School, words: Words) -> list[Need]:
    """Those that were picked, in their order, while they are open; else the first ones of the wish list."""
    known = household_needs(desk, school)
    if "needs" not in words:
        return known[:MOST_THINGS]
    by_pk = {need.pk: need for need in known}
    return [by_pk[pk] for pk in words["needs"] if pk in by_pk][:MOST_THINGS]


def thing(need: Need, words: Words) -> Thing:
    return Thing(english_of(need), spanish_said(words, f"need-{need.pk}", need.what, need.wanted), need.wanted)


def english_of(need: Need) -> str:
    return f"{need.what} ({need.wanted})" if need.wanted else need.what


def unwanted(one: CannotUse, words: Words) -> Thing:
    spanish = spanish_said(words, f"cannot-{one.pk}", one.what, one.why)
    return Thing(f"{one.what} ({one.why})" if one.why else one.what, spanish, one.why)


def spanish_said(words: Words, key: str, english: str, note: str) -> str:
    """As the teacher typed it; what was kept just as it is known to the book has its note as it is now."""
    typed = words.get("spanish", {}).get(key, "")
    return typed if typed and typed != spanish_of(english) else with_note(english, note)


def day_of(words: Words, name: str) -> date | None:
    kept = words.get(name)
    return date.fromisoformat(kept) if kept else None


def gather_approval(desk: Desk, school: School, words: Words) -> letter_approval.Facts:
    """What the principal signs, of the letter as it is written now."""
    letter = gather(desk, school, letter_words(desk, school))
    other = letter.other_language if letter.other_printable else ""
    asked = standing(desk, school, ApprovalFor.LETTERS_HOME, letter.first)
    procedure = asked.procedure if asked else None
    return letter_approval.Facts(
        letter=letter,
        principal=school.principal,
        students=taught(desk, school, "en")["students"],
        classes=desk.classes.with_students().filter(school=school).count(),
        other_language=other,
        days_ahead=procedure.days_ahead or 0 if procedure else 0,
        sign_by=asked.ask_by if asked else None,
    )


def gather_copies(desk: Desk, school: School, words: Words) -> letter_copies.Facts:
    kept = letter_words(desk, school)
    letter = gather(desk, school, kept)
    return letter_copies.Facts(
        **{
            name: value
            for name, value in sender(desk, school).items()
            if name in ("language", "paper", "letterhead", "day")
        },
        classes=copies(desk, school, kept),
        pages=len(family_letter.sheets(letter)),
        draft=not letter.approved_by,
    )


def copies_shown(prepared: Any) -> letter_copies.Facts | None:
    """For the page of a letter home: how many copies the copier makes."""
    if prepared.slug != family_letter.SLUG:
        return None
    return gather_copies(prepared.desk, prepared.row, {})


def standing_shown(prepared: Any) -> Standing | None:
    """For the page of a letter home: who must say yes to it, and whether somebody did."""
    if prepared.slug != family_letter.SLUG:
        return None
    return standing(prepared.desk, prepared.row, ApprovalFor.LETTERS_HOME)


def copies(desk: Desk, school: School, words: Words) -> tuple[Copies, ...]:
    """How many letters each class takes: one for each student, and the spare ones."""
    spare = spare_of(words)
    rows = desk.classes.with_students().filter(school=school).order_by("grade", "label")
    return tuple(Copies(one.label, one.students, spare) for one in rows)


def spare_of(words: Words) -> int:
    kept = words.get("spare")
    return SPARE if kept is None else int(kept)


def letter_words(desk: Desk, school: School) -> Words:
    """The words of the school's letter that is being written, else of the one that last went out."""
    draft = draft_of(desk, family_letter.SLUG, school=school)
    return dict(draft.words) if draft else words_again(desk, school)


def words_again(desk: Desk, school: School) -> Words:
    """What the next letter begins with: the words of the one that went out last, without what was for days now over."""
    last = desk.letters.filter(document=family_letter.SLUG, school=school).exclude(state=LetterState.DRAFT)
    gone = last.order_by("-day", "-pk").first()
    words = dict(gone.words) if gone else {}
    days = {name: day for name in DAYS if (day := day_of(words, name))}
    over = bool(days) and max(days.values()) < desk.day
    return {name: value for name, value in words.items() if not over or name not in (*DAYS, "needs")}


def gather_thanks(desk: Desk, school: School, words: Words) -> family_thanks.Facts:
    """What came from all families of the school in the time; counts only."""
    gifts = thanked_for(desk, school, words)
    rows = dict(gifts.order_by().values_list("pk", "day"))
    spanish = words.get("spanish", {})
    came = tuple(
        family_thanks.Came(one.item, one.pieces, one.times, spanish.get(one.item) or spanish_of(one.item))
        for one in family_gifts(desk, gifts)
    )
    sums = sum(one.times for one in family_money(desk, gifts))
    if sums:
        came += (family_thanks.Came(THANKS["en"].money, 0, sums, THANKS["es"].money),)
    became = list(
        gifts.filter(project__isnull=False)
        .exclude(project__what_it_became="")
        .order_by("project__became_on")
        .values_list("project__what_it_became", flat=True)
        .distinct()
    )
    return family_thanks.Facts(
        **sender(desk, school),
        first=day_of(words, "from_on") or min(rows.values(), default=desk.day),
        last=day_of(words, "until_on") or max(rows.values(), default=desk.day),
        gifts=frozenset(rows),
        came=came,
        became=words.get("became", " ".join(dict.fromkeys(became))),
        became_es=words.get("became_es", ""),
    )


def thanked_for(desk: Desk, school: School, words: Words) -> GiftQuerySet:
    """What families are due to be thanked for; from a day that was typed on all that came, thanked for or not."""
    first, last = day_of(words, "from_on"), day_of(words, "until_on") or desk.day
    all_time: GiftQuerySet = desk.gifts.filter(school=school, source=Source.FAMILIES, day__lte=last)
    return all_time.filter(day__gte=first) if first else all_time.families_to_thank(families_since(desk.day))


def thanks_went_out(desk: Desk, school: School, facts: family_thanks.Facts) -> None:
    """The families are thanked for just what stood on the sheet, however much came meanwhile."""
    families_thanked(desk=desk, school=school, gifts=desk.gifts.filter(pk__in=facts.gifts), day=desk.day)
