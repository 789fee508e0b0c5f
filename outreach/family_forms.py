"""The words of letters home that a teacher may change."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

from django import forms
from django.utils.translation import gettext_lazy as _
from django.utils.translation import ngettext

from outreach.documents.family_letter import MOST_THINGS
from outreach.forms import SheetWords
from outreach.gathering.family import SPARE, chosen_needs, day_of, english_of, household_needs, spare_of
from outreach.wording.family import SLIP_LINES, other_slip
from partners.ground.names import fold

if TYPE_CHECKING:
    from outreach.prepared import Prepared

UNKNOWN = "?"
# Fields that hold just what the facts hold.
AS_THEY_ARE = (
    "drop_off", "drop_off_es", "own", "own_es", "return_by", "other_language", "other_translator", "other_text",
    "other_slip", "other_holds_promise",
)  # fmt: skip


def lines_of(text: str) -> list[str]:
    return [line.strip() for line in text.splitlines() if line.strip()]


def as_lines(texts: list[str]) -> str:
    """One line for each; what is not known yet is a question mark, so that the order stays."""
    return "\n".join(text or UNKNOWN for text in texts)


def beside(keys: list[str], typed: str) -> dict[str, str]:
    """The lines by the keys in their order, without those that are still unknown."""
    pairs = zip(keys, (line.strip() for line in typed.splitlines()), strict=False)
    return {key: line for key, line in pairs if line not in ("", UNKNOWN)}


def long_text(label: Any, help_text: Any = "", rows: int = 4, most: int = 2000) -> forms.CharField:
    widget = forms.Textarea(attrs={"rows": rows})
    return forms.CharField(label=label, help_text=help_text, widget=widget, max_length=most, required=False)


class BothSides(SheetWords):
    """What English and Spanish sheets share: no single language to choose."""

    language = None  # type: ignore[assignment]

    def clean(self) -> dict[str, Any]:
        typed = super().clean() or {}
        first, last = typed.get("from_on"), typed.get("until_on")
        if first and last and last < first:
            self.add_error("until_on", _("That is before the first day."))
        return typed

    def plain(self) -> dict[str, Any]:
        """What was typed as it is kept: days as text."""
        return {
            name: value.isoformat() if isinstance(value, date) else value
            for name, value in self.cleaned_data.items()
            if name in self.fields
        }


class FamilyLetterWords(BothSides):
    things = long_text(
        _("What households may have"),
        _(
            "One on each line, in the order of the letter; take out what you leave for later. They come from the wish "
            "list, where they are marked as found in a household; at most ten."
        ),
        rows=8,
    )
    things_es = long_text(
        _("The same in Spanish"),
        _(
            "One on each line, in the same order; “?” for what you do not know yet. Common things are filled in: let a "
            "Spanish speaker read them."
        ),
        rows=8,
    )
    cannot_use_es = long_text(
        _("What we cannot use, in Spanish"), _("One on each line, in the order of your list of what you cannot use.")
    )
    drop_off = forms.CharField(label=_("Where things are left"), max_length=120, required=False)
    drop_off_es = forms.CharField(label=_("Where things are left, in Spanish"), max_length=120, required=False)
    from_on = forms.DateField(label=_("From which day"), required=False)
    until_on = forms.DateField(label=_("Until when"), required=False)
    return_by = forms.DateField(label=_("The slip comes back by"), required=False)
    own = long_text(
        _("A few words of your own"), _("Short ones. What is fixed in the letter stays whatever you write."), most=700
    )
    own_es = long_text(_("Your own words in Spanish"), most=900)
    spare = forms.IntegerField(label=_("Spare copies for each class"), min_value=0, max_value=30, initial=SPARE)
    other_language = forms.CharField(
        label=_("One more language"),
        help_text=_("A third page with a text from a qualified translator. Never ask a child to translate."),
        max_length=40,
        required=False,
    )
    other_translator = forms.CharField(label=_("Translated by"), max_length=120, required=False)
    other_text = long_text(_("The whole letter in that language"), rows=8, most=4000)
    other_slip = long_text(
        _("The slip in that language"),
        _(
            "Nineteen lines: heading, only if you want to, your name, class or room, best way to reach you, call, "
            "text, e-mail, phone or e-mail, best language, I can help, at school, from home, on show day, days and "
            "times, how often, what I like to do, sign-in rules, send back by {day}."
        ),
        rows=8,
    )
    other_holds_promise = forms.BooleanField(
        label=_(
            "The translator says: it holds that all is provided, nothing has to be sent, and no one will know who did"
        ),
        required=False,
    )

    @staticmethod
    def first(prepared: Prepared) -> dict[str, Any]:
        facts = prepared.facts
        return {
            **{name: getattr(facts, name) for name in AS_THEY_ARE},
            "things": "\n".join(thing.english for thing in facts.things),
            "things_es": as_lines([thing.spanish for thing in facts.things]),
            "cannot_use_es": as_lines([thing.spanish for thing in facts.cannot_use]),
            "from_on": facts.first,
            "until_on": facts.last,
            "spare": spare_of(prepared.words),
        }

    def clean_things(self) -> list[int]:
        """The needs that the lines mean, by number."""
        known = household_needs(self.desk)
        named = {fold(words): need.pk for need in known for words in (need.what, english_of(need))}
        lines = lines_of(self.cleaned_data["things"])
        for line in lines:
            if fold(line) not in named:
                raise forms.ValidationError(
                    _("“%(line)s” is not on the wish list as found in a household."), params={"line": line}
                )
        found = list(dict.fromkeys(named[fold(line)] for line in lines))
        if len(found) > MOST_THINGS:
            over = len(found) - MOST_THINGS
            raise forms.ValidationError(
                ngettext("That is %(over)d too many: ten at most.", "That are %(over)d too many: ten at most.", over),
                params={"over": over},
            )
        return found

    def clean_other_slip(self) -> str:
        typed: str = self.cleaned_data["other_slip"]
        if typed.strip() and other_slip(typed) is None:
            raise forms.ValidationError(
                _("These are %(typed)d lines, and the slip has %(wanted)d."),
                params={"typed": len(lines_of(typed)), "wanted": len(SLIP_LINES)},
            )
        if typed.strip() and "{day}" not in lines_of(typed)[-1]:
            raise forms.ValidationError(_("The last line needs {day}, where the day is printed."))
        return typed

    def kept(self, prepared: Prepared) -> dict[str, Any]:
        typed = self.plain()
        needs = typed.pop("things")
        unwanted = [f"cannot-{pk}" for pk in self.desk.cannot_use.values_list("pk", flat=True)]
        things_es = typed.pop("things_es")
        spanish = beside([f"need-{pk}" for pk in self._order_of(prepared, things_es, needs)], things_es)
        spanish |= beside(unwanted, typed.pop("cannot_use_es"))
        return {**typed, "needs": needs, "spanish": spanish}

    def _order_of(self, prepared: Prepared, things_es: str, needs: list[int]) -> list[int]:
        """The needs that the Spanish lines belong to: lines left as they were belong to those the page opened with."""
        shown = as_lines([thing.spanish for thing in prepared.facts.things])
        if lines_of(things_es) != lines_of(shown):
            return needs
        return [need.pk for need in chosen_needs(self.desk, prepared.row, prepared.words)]


class FamilyThanksWords(BothSides):
    from_on = forms.DateField(
        label=_("From which day"),
        help_text=_("Left empty: all that they are to be thanked for now. A day: all that came since."),
        required=False,
    )
    until_on = forms.DateField(label=_("Until when"), help_text=_("Left empty: to the last that came."), required=False)
    became = long_text(_("What it became"), _("One or two sentences, with no child’s and no family’s name."), most=600)
    became_es = long_text(_("What it became, in Spanish"), most=700)
    things_es = long_text(_("What came, in Spanish"), _("One on each line, in the order of the sheet."), rows=6)

    @staticmethod
    def first(prepared: Prepared) -> dict[str, Any]:
        facts = prepared.facts
        return {
            "from_on": day_of(prepared.words, "from_on"),
            "until_on": day_of(prepared.words, "until_on"),
            "became": facts.became,
            "became_es": facts.became_es,
            "things_es": as_lines([one.spanish for one in facts.came]),
        }

    def kept(self, prepared: Prepared) -> dict[str, Any]:
        typed = self.plain()
        lines = typed.pop("things_es")
        items = [one.item for one in prepared.gather({**prepared.words, **typed}).came]
        return {**typed, "spanish": beside(items, lines)}
