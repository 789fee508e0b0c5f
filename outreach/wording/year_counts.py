"""The counts of a year as they are said on paper; what is nought is not said."""

from __future__ import annotations

from decimal import Decimal

from outreach.wording.counts import dollars, joined, number, sentence, students
from outreach.wording.year import YearWords, of_number
from outreach.wording.year_facts import Facts


def counted(facts: Facts, words: YearWords) -> tuple[tuple[str, str], ...]:
    rows = {
        "students": children(facts, words),
        "gifts": gifts(facts, words),
        "trades": trades(facts, words),
        "helpers": helped(facts, words),
        "again": words.again.format(again=facts.gave_again, before=facts.gave_before) if facts.gave_before else "",
        "thanks": thanks(facts, words),
        "grants": grants(facts, words) if facts.of_money else "",
        "pocket": words.pocket.format(amount=dollars(facts.pocket_cents))
        if facts.pocket_cents and facts.of_money
        else "",
    }
    return tuple((words.labels[name], sentence(said)) for name, said in rows.items())


def children(facts: Facts, words: YearWords) -> str:
    if not facts.students:
        return ""
    classes = of_number(words.classes, facts.classes)
    return words.children.format(students=students(facts.students, facts.language), classes=classes)


def gifts(facts: Facts, words: YearWords) -> str:
    said = joined([of_number(words.forms[form], count) for form, count in facts.gifts], facts.language)
    families = words.families.format(n=facts.families) if facts.families else ""
    return " ".join(part for part in (said, families) if part)


def trades(facts: Facts, words: YearWords) -> str:
    if not facts.trades:
        return ""
    if facts.trades_open == facts.trades:
        return words.going_on.format(n=facts.trades_open)
    both = words.both.format(part=facts.trades_kept, whole=facts.trades)
    return f"{both}, {words.going_on.format(n=facts.trades_open)}" if facts.trades_open else both


def helped(facts: Facts, words: YearWords) -> str:
    """Helpers and their hours; what these are worth only where somebody published it."""
    if not facts.helpers:
        return ""
    hours = (Decimal(facts.minutes) / 60).quantize(Decimal("0.1"))
    told = of_number(words.hours, 1 if hours == 1 else 2, "" if hours == 1 else number(hours))
    said = f"{of_number(words.helpers, facts.helpers)}, {told}"
    worth = facts.worth
    if worth is None or not facts.of_money:
        return said
    figures = {"amount": dollars(worth.cents), "each": dollars(worth.each_cents)}
    return f"{said}, {words.worth.format(source=worth.source, year=worth.year, **figures)}"


def thanks(facts: Facts, words: YearWords) -> str:
    if not facts.thanks_owed:
        return ""
    said = words.thanked.format(said=number(facts.thanks_said), owed=number(facts.thanks_owed))
    if facts.thanks_days is None:
        return said
    one = facts.thanks_days == 1
    return f"{said}, {of_number(words.within, 1 if one else 2, '' if one else number(facts.thanks_days))}"


def grants(facts: Facts, words: YearWords) -> str:
    asked = (
        words.grants.format(n=facts.grants_asked, asked=dollars(facts.grants_asked_cents)) if facts.grants_asked else ""
    )
    left = facts.grants_awarded_cents - facts.grants_spent_cents - facts.grants_back_cents
    money = {
        "amount": dollars(facts.grants_awarded_cents),
        "spent": dollars(facts.grants_spent_cents),
        "back": dollars(facts.grants_back_cents),
        "left": dollars(max(0, left)),
    }
    said = words.awarded_back if facts.grants_back_cents else words.awarded
    awarded = said.format(n=facts.grants_awarded, **money) if facts.grants_awarded else ""
    return "; ".join(part for part in (asked, awarded) if part)
