"""The forms of agreeing on a trade and of putting it right."""

from __future__ import annotations

from collections.abc import Iterable
from datetime import date
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.formats import date_format
from django.utils.text import get_text_list
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.directory.meanwhile import refuse_the_forgotten
from partners.directory.partner_field import PartnerField
from partners.directory.same_partner import LikelyPartner, likely_partners, picked_of_likely
from partners.exchanges.actions import Given, PlainItems
from partners.exchanges.give_forms import GiveFormSet, give_forms
from partners.exchanges.models import Trade
from partners.exchanges.promotion import promoting
from partners.exchanges.ready_day import check_ready
from partners.ground.forms import RowForm
from partners.ground.names import name_key
from partners.ground.plain import PlainError
from partners.promises.day_checks import been, to_come
from partners.promises.forms import MOST, TOO_FEW, TOO_MANY, how_many
from partners.promises.models import Side
from partners.school.clock import clock
from partners.school.models import ClosureKind, School
from partners.visits.models import Visit

NOBODY = "none"
PLAIN = ("plain_what", "plain_quantity", "plain_due", "plain_carrier")
FOLDED = (
    "size", "materials", "carrier", "plain_what", "plain_carrier", "spare_percent", "minutes_per_item",
    "finishing_days", "lesson_limit", "minimum", "names_on_work", "display_from", "display_until", "afterwards",
    "if_late", "agreed_on", "project", "note",
)  # fmt: skip


class TradeForm(RowForm):
    """Both sides of a trade; what they give stands in `gives`."""

    at_least = forms.IntegerField(
        label=gettext_lazy("How many, at least"),
        min_value=1,
        max_value=MOST,
        error_messages={"max_value": TOO_MANY, "min_value": TOO_FEW},
    )
    at_most = how_many(gettext_lazy("Up to"))
    due = forms.DateField(label=gettext_lazy("We deliver by"))
    carrier = forms.CharField(label=gettext_lazy("Who takes them there"), required=False, max_length=80)
    plain_by = forms.ChoiceField(
        label=gettext_lazy("Who supplies the plain items"),
        choices=[
            (Side.THEM, gettext_lazy("They do")),
            (Side.US, gettext_lazy("We do")),
            (NOBODY, gettext_lazy("None are needed")),
        ],
        widget=forms.RadioSelect(attrs={"class": "chips"}),
    )
    plain_what = forms.CharField(
        label=gettext_lazy("What the plain items are"),
        required=False,
        max_length=160,
        help_text=gettext_lazy("For example: blank seed packets."),
    )
    plain_quantity = how_many(
        gettext_lazy("How many plain items"),
        help_text=gettext_lazy("Left empty: the larger number and the spares."),
    )
    plain_due = forms.DateField(
        label=gettext_lazy("Plain items by"),
        required=False,
        help_text=gettext_lazy("Left empty: ten school days from now, or half the time."),
    )
    plain_carrier = forms.CharField(label=gettext_lazy("Who brings the plain items"), required=False, max_length=80)
    heeded = forms.BooleanField(
        label=gettext_lazy("The subject is neutral and the lesson comes first; the principal decides"), required=False
    )

    class Meta:
        model = Trade
        fields = [
            "what", "size", "school", "agreed_on", "project", "materials", "spare_percent", "minutes_per_item",
            "finishing_days", "lesson_limit", "minimum", "names_on_work", "display_from", "display_until",
            "afterwards", "if_late", "note",
        ]  # fmt: skip

    def __init__(self, data: Any = None, *args: Any, gives: GiveFormSet | None = None, **kwargs: Any) -> None:
        super().__init__(data, *args, **kwargs)
        self.gives = gives if gives is not None else give_forms(self.desk, data)
        self.words: list[str] = []
        school: Any = self.fields["school"]
        school.empty_label = _("several schools")
        self.fields["note"].widget.attrs["rows"] = 3

    @property
    def more_errors(self) -> bool:
        """Whether something is wrong with what the page keeps folded."""
        return any(name in self.errors for name in FOLDED) if self.is_bound else False

    @property
    def more_gives(self) -> bool:
        """Whether more than one thing stands in what they give."""
        return any(line.errors or line["what"].value() for line in self.gives.forms[1:])

    def clean_agreed_on(self) -> date:
        return been(self.cleaned_data["agreed_on"], self.desk.day)

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        least, most = data.get("at_least"), data.get("at_most")
        if least and most and most < least:
            self.add_error("at_most", _("The range is upside down: the smaller number comes first."))
        if data.get("due"):
            self._check_due(data["due"])
        self._check_show(data)
        self._check_plain(data)
        self._check_gives(data)
        self._check_words(data)
        return data

    def _check_due(self, due: date) -> None:
        if due == self.initial.get("due"):
            return
        school = self.cleaned_data.get("school")
        program = self.desk.program
        years = program.school_days.filter(kind=ClosureKind.YEAR)
        years = years.filter(school=school) if school is not None else years
        try:
            to_come(due, self.desk.day)
            ends = list(years.values_list("last", flat=True))
            check_ready(due, self.desk.day, clock(program, school.pk if school else None), ends)
        except PlainError as error:
            facts = {name: spelled(fact) if isinstance(fact, date) else fact for name, fact in error.facts.items()}
            self.add_error("due", _(error.sentence) % facts)
        except ValidationError as error:
            self.add_error("due", error)

    def _check_show(self, data: dict[str, Any]) -> None:
        first, due = data.get("display_from"), data.get("due")
        if first and due and first < due:
            self.add_error("display_from", _("The show begins before the work is to be delivered."))

    def _check_plain(self, data: dict[str, Any]) -> None:
        if data.get("plain_by") == NOBODY:
            data |= dict.fromkeys(PLAIN)
            return
        due, plain_due, count = data.get("due"), data.get("plain_due"), data.get("plain_quantity")
        if due and plain_due is None and "plain_due" not in self.errors:
            school = data.get("school")
            data["plain_due"] = plain_due = self._usual_plain_day(school, due)
        if due and plain_due and plain_due > due:
            self.add_error("plain_due", _("The plain items come after the day on which the finished ones are due."))
        if count and data.get("at_least") and count < data["at_least"]:
            self.add_error("plain_quantity", _("That is fewer than the items to be made of them."))

    def _usual_plain_day(self, school: School | None, due: date) -> date:
        """Ten school days from now (common practice), and never later than half the way: the work takes time, too."""
        calendar, today = clock(self.desk.program, school.pk if school else None), self.desk.day
        return calendar.add(today, min(10, calendar.count(today, due) // 2))

    @property
    def below(self) -> Iterable[forms.BaseForm]:
        return self.gives

    def _check_gives(self, data: dict[str, Any]) -> None:
        if not self.gives.is_valid():
            self.add_error(None, _("Look at what they give: one of the lines is not complete."))
            return
        if not any(line.is_there for line in self.gives):
            sentence = _("Say what they give. Without it this is a promise of ours and no trade.")
            self.gives.forms[0].add_error("what", sentence)
            self.add_error(None, sentence)
        for line in self.gives:
            day = line.cleaned_data.get("due")
            if day and day != line.initial.get("due"):
                try:
                    to_come(day, self.desk.day, data.get("agreed_on"))
                except ValidationError as error:
                    line.add_error("due", error)
                    self.add_error(None, _("Look at what they give: one of the lines is not complete."))

    def _check_words(self, data: dict[str, Any]) -> None:
        """Words that sound like promoting the business are asked about once, before they are saved."""
        self.words = promoting_words(data)
        if self.words and not data.get("heeded"):
            named = get_text_list([f"“{word}”" for word in self.words], _("and"))
            sentence = _("%(words)s sounds like promoting the business. Change the subject, or tick the line below.")
            self.add_error("what", sentence % {"words": named})

    def agreed(self) -> dict[str, Any]:
        """What the verbs are told."""
        data = self.cleaned_data
        plain = None
        if data["plain_by"] != NOBODY:
            own = {name: data[f"plain_{name}"] for name in ("what", "quantity", "due", "carrier")}
            plain = PlainItems(side=data["plain_by"], **own)
        promised = {name: data[name] for name in ("at_least", "at_most", "due", "carrier")}
        return {**self.values(), **promised, "plain": plain, "gives": self._given(data["due"])}

    def _given(self, our_day: date) -> list[Given]:
        lines = [line.given() for line in self.gives if line.is_there or line.cleaned_data.get("row")]
        return [line if line.due else Given(**{**vars(line), "due": our_day}) for line in lines]


class AgreeForm(TradeForm):
    """A new trade, with whom, and whether the school's approval goes with it."""

    partner = PartnerField(
        label=gettext_lazy("With whom"),
        new_allowed=True,
        error_messages={"required": gettext_lazy("Say with whom: choose a partner or type the name.")},
    )
    new_name = forms.CharField(required=False, widget=forms.HiddenInput)
    visit = forms.ModelChoiceField(Visit.objects.all(), required=False, widget=forms.HiddenInput)
    attach = forms.BooleanField(label=gettext_lazy("Attach the school's approval for trades"), required=False)

    def __init__(self, data: Any = None, *args: Any, **kwargs: Any) -> None:
        self.likely: list[LikelyPartner] = []
        super().__init__(picked_of_likely(data), *args, **kwargs)

    def clean(self) -> dict[str, Any]:
        data = super().clean()
        partner = data.get("partner")
        if isinstance(partner, str) and name_key(data.get("new_name", "")) != name_key(partner):
            self.likely = likely_partners(self.desk, name=partner)
            if self.likely:
                self.add_error("partner", _("Is it one of those below? If not, say that it is a new one."))
        refuse_the_forgotten(self, partner, [])
        return data


def promoting_words(values: dict[str, Any]) -> list[str]:
    return promoting(*(values.get(name) or "" for name in ("what", "size", "names_on_work", "afterwards")))


def spelled(day: date) -> str:
    return date_format(day, "DATE_FORMAT")
