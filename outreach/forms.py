"""The words of a sheet that a teacher may change before it is printed."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Any

from django import forms
from django.utils.translation import gettext_lazy as _

from outreach.documents import trade_memo
from outreach.gathering.leave_behind import chosen_need, chosen_school
from partners.ground.forms import DeskForm
from partners.program.models import Language
from partners.school.models import School
from partners.wish_list.models import Need

if TYPE_CHECKING:
    from outreach.prepared import Prepared


class SheetWords(DeskForm):
    """What may be changed on any sheet. A document with more to change makes its own form from this one."""

    language = forms.ChoiceField(label=_("Language"), choices=Language)
    signed = forms.BooleanField(
        label=_("Print my signature"), help_text=_("Else there is room to sign by hand."), required=False
    )

    def __init__(self, *args: Any, signs: bool = False, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if not signs:
            del self.fields["signed"]

    @staticmethod
    def first(prepared: Prepared) -> dict[str, Any]:
        """What will be printed as it stands, by the names of the fields."""
        return {"language": prepared.facts.language}

    def kept(self, prepared: Prepared) -> dict[str, Any]:
        """The words of a valid form, as they are kept: rows by number, days as text."""
        typed = {name: self.cleaned_data[name] for name in self.fields}
        return {
            name: value.isoformat() if isinstance(value, date) else getattr(value, "pk", value)
            for name, value in typed.items()
        }

    def words(self, prepared: Prepared) -> dict[str, Any]:
        """All that is kept of a valid form: its words, and whether the signature is printed."""
        signed = {"signed": True} if self.cleaned_data.get("signed") else {}
        return {**{name: value for name, value in self.kept(prepared).items() if name != "signed"}, **signed}

    @staticmethod
    def gone(prepared: Prepared) -> dict[str, Any]:
        """The words as they went out."""
        return prepared.words


class LeaveBehindWords(SheetWords):
    need = forms.ModelChoiceField(label=_("What you ask for"), queryset=Need.objects.open(), required=False)
    quantity = forms.IntegerField(label=_("How many"), min_value=1, max_value=1_000_000, required=False)
    smaller = forms.CharField(label=_("A smaller alternative"), max_length=160, required=False)
    becomes = forms.CharField(label=_("What it becomes"), max_length=200, required=False)
    offer_back = forms.CharField(label=_("What you offer back"), max_length=200, required=False)
    last_year = forms.CharField(
        label=_("What their last gift became"), help_text=_("Only if it is true."), max_length=300, required=False
    )
    back_on = forms.DateField(label=_("The day you will be back"), required=False)
    school = forms.ModelChoiceField(
        label=_("On the letterhead of"),
        queryset=School.objects.all(),
        required=False,
        empty_label=_("all schools together"),
    )

    field_order = ("need", "quantity", "smaller", "becomes", "offer_back", "last_year", "back_on", "school", "language")

    @staticmethod
    def first(prepared: Prepared) -> dict[str, Any]:
        facts, desk = prepared.facts, prepared.desk
        need = chosen_need(desk, prepared.row, prepared.words)
        return {
            "need": need,
            "quantity": facts.asks[0].quantity if facts.asks else None,
            "smaller": facts.smaller.what if facts.smaller else "",
            "becomes": facts.becomes,
            "offer_back": facts.offered,
            "last_year": facts.last_year,
            "back_on": facts.back_on,
            "school": chosen_school(desk, need, prepared.words),
            "language": facts.language,
        }


class LetterWords(SheetWords):
    body = forms.CharField(
        label=_("The letter"),
        help_text=_("An empty line begins a new paragraph. Leave it all empty to have it worded anew."),
        widget=forms.Textarea(attrs={"rows": 14}),
        max_length=6000,
        required=False,
    )
    enclosures = forms.CharField(
        label=_("Enclosed"), help_text=_("Several with commas between."), max_length=200, required=False
    )

    field_order: tuple[str, ...] = ("body", "enclosures", "language")

    @staticmethod
    def first(prepared: Prepared) -> dict[str, Any]:
        facts = prepared.facts
        return {
            "body": "\n\n".join(facts.body),
            "enclosures": ", ".join(facts.enclosures),
            "language": facts.language,
        }

    def kept(self, prepared: Prepared) -> dict[str, Any]:
        """A body just as it is worded from the record is not kept, so that it goes on following it.

        One that was worded for another language or year, and then left alone, follows the change.
        """
        typed = self.cleaned_data
        parts = [" ".join(part.split()) for part in typed["body"].replace("\r", "").split("\n\n")]
        body = [part for part in parts if part]
        frames = ({**prepared.words, "paragraphs": []}, self.frame(prepared))
        untouched = body in [list(prepared.gather(frame).body) for frame in frames]
        return {
            "paragraphs": [] if untouched else body,
            "enclosures": [part.strip() for part in typed["enclosures"].split(",") if part.strip()],
            "language": typed["language"],
        }

    def frame(self, prepared: Prepared) -> dict[str, Any]:
        """The words beside the body, by which it is worded from the record."""
        return {"language": self.cleaned_data["language"]}

    @staticmethod
    def gone(prepared: Prepared) -> dict[str, Any]:
        """Also where nobody changed them: they are compared with the next letter."""
        return {**prepared.words, "paragraphs": list(prepared.facts.body)}


class MemoWords(SheetWords):
    more = forms.CharField(
        label=_("Also agreed"), help_text=_("What the trade itself has no place for."), max_length=200, required=False
    )

    field_order = ("more", "language")

    @staticmethod
    def first(prepared: Prepared) -> dict[str, Any]:
        return {"more": prepared.facts.more, "language": prepared.facts.language}

    @staticmethod
    def gone(prepared: Prepared) -> dict[str, Any]:
        """With what was agreed as a fingerprint: by it the next memo knows whether it is a new version."""
        facts = prepared.facts
        return {"more": facts.more, "language": facts.language, "terms": trade_memo.terms(facts)}
