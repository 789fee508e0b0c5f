"""What a teacher chooses for the yearly summary: for whom, which year, what is needed next, which figures are told."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from django import forms
from django.utils.translation import gettext_lazy as _

from outreach.documents.yearly_summary import MOST_NEEDS
from outreach.forms import SheetWords
from outreach.gathering.year import needs_of_the_list
from outreach.wording.year_facts import BOARD, PARTNERS, PRINCIPAL
from partners.year.evidence import shelf
from partners.year.open_things import desk_of
from partners.year.span import spans

if TYPE_CHECKING:
    from outreach.prepared import Prepared

READERS = (
    (PRINCIPAL, _("the principal: stays in school")),
    (BOARD, _("the board: names only by consent")),
    (PARTNERS, _("partners: names only by consent, nothing of money, nothing asked")),
)


class YearWords(SheetWords):
    readers = forms.ChoiceField(label=_("For whom"), choices=READERS, widget=forms.RadioSelect)
    year = forms.ChoiceField(label=_("Which year"))
    needs = forms.CharField(
        label=_("Next year's three needs"),
        help_text=_(
            "One a line; left empty, the first three of the wish list. For partners they stay away: a sheet that "
            "thanks does not ask."
        ),
        widget=forms.Textarea(attrs={"rows": 3}),
        max_length=400,
        required=False,
    )
    research = forms.ChoiceField(label=_("What research says"), required=False)
    worth = forms.BooleanField(
        label=_("Say what the helpers' hours are worth"),
        help_text=_("Only where the settings or a published table have a figure, with its year and source."),
        required=False,
    )
    pocket = forms.BooleanField(label=_("Say what you paid yourself and was not repaid"), required=False)

    field_order = ("readers", "year", "needs", "research", "worth", "pocket", "language")

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        fields: Any = self.fields
        fields["year"].choices = [(str(one.year), one.name) for one in spans(self.desk)]
        quoted = [(one.key, f"{one.authors} ({one.year}), {one.kind}") for one in shelf()]
        fields["research"].choices = [("", _("nothing: my own counts are enough")), *quoted]

    def clean_needs(self) -> str:
        lines = [line for line in str(self.cleaned_data["needs"]).splitlines() if line.strip()]
        if len(lines) > MOST_NEEDS:
            raise forms.ValidationError(_("Three are enough: nobody remembers a fourth."))
        return "\n".join(lines)

    @staticmethod
    def first(prepared: Prepared) -> dict[str, Any]:
        facts, words = prepared.facts, prepared.words
        return {
            "readers": facts.readers,
            "year": str(facts.first.year),
            "needs": "\n".join(facts.needs),
            "research": words.get("research", ""),
            "worth": bool(words.get("worth")),
            "pocket": bool(words.get("pocket")),
            "language": facts.language,
        }

    def kept(self, prepared: Prepared) -> dict[str, Any]:
        """Needs just as they stand on the wish list are not kept, so that they go on following it."""
        typed = self.cleaned_data
        lines = [" ".join(line.split()) for line in typed["needs"].splitlines() if line.strip()]
        kept = {name: typed[name] for name in ("readers", "year", "research", "worth", "pocket", "language")}
        return kept if lines in ([], listed_needs(prepared)) else {**kept, "needs": lines}


def listed_needs(prepared: Prepared) -> list[str]:
    """As the wish list has them."""
    return needs_of_the_list(desk_of(prepared.desk, prepared.row))
