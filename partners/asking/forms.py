"""The forms of logging a visit and planning an outing."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import date, timedelta
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.asking.said import Said
from partners.directory.meanwhile import refuse_the_forgotten
from partners.directory.models import Contact, Partner
from partners.directory.partner_field import BEFORE, PICKED, PartnerField
from partners.directory.same_partner import LikelyPartner, likely_partners
from partners.ground.forms import CentsField, DeskForm
from partners.ground.names import name_key
from partners.promises.models import Every
from partners.school.models import School
from partners.visits.models import Happened, How, OutingStop
from partners.wish_list.models import Need

MOST = 1_000_000
YEARS_BACK = 5
YEARS_AHEAD = 3

AGREED = (Happened.YES, Happened.SOME, Happened.OFFERED)
COMING_BACK = (Happened.MAYBE, Happened.AWAY)
MAY_NAME = ("contact_name", "note", "reason", "our_promise")


def picked(queryset: Any, label: Any, sorry: Any) -> forms.ModelChoiceField[Any]:
    """One row of the desk, drawn as buttons by the template."""
    return forms.ModelChoiceField(
        queryset, required=False, label=label, error_messages={"invalid_choice": sorry}, widget=forms.HiddenInput
    )


def words(label: Any, most: int, **kwargs: Any) -> forms.CharField:
    return forms.CharField(required=False, label=label, max_length=most, **kwargs)


def how_many(label: Any) -> forms.IntegerField:
    too_many = gettext_lazy("This book counts to one million. Is that number right?")
    return forms.IntegerField(
        required=False, label=label, min_value=1, max_value=MOST, error_messages={"max_value": too_many}
    )


class WhereField(PartnerField):
    """The picked partner stands among the buttons that the page offers anyway, not below the typed name again."""

    def prepare_value(self, value: Any) -> Any:
        found = self.box.found
        shown = super().prepare_value(value)
        self.box.found = found
        return shown


class VisitForm(DeskForm):
    """Log a visit. Where and what happened are required; everything else is asked as answered, or assumed."""

    partner = WhereField(
        new_allowed=True,
        label=gettext_lazy("Another place: type its name"),
        error_messages={"required": gettext_lazy("Say where you were: choose a place or type its name.")},
    )
    happened = forms.ChoiceField(
        label=gettext_lazy("What happened"),
        choices=Happened.choices,
        widget=forms.RadioSelect(attrs={"class": "big"}),
        error_messages={"required": gettext_lazy("Say what happened: tap one of the seven.")},
    )
    need = picked(
        Need.objects.all(), gettext_lazy("From the wish list"), gettext_lazy("That is not on your wish list.")
    )
    what = words(gettext_lazy("Something else"), 160)
    quantity = how_many(gettext_lazy("How many"))
    part = how_many(gettext_lazy("How many of it"))
    offer = words(gettext_lazy("What they offered"), 160)
    offered = how_many(gettext_lazy("How many"))
    amount = CentsField(required=False, label=gettext_lazy("Or money"), at_least=1)
    collect_by = forms.DateField(required=False, label=gettext_lazy("Collect by"))
    collect_at = forms.TimeField(required=False, label=gettext_lazy("Hour"))
    they_bring = forms.BooleanField(required=False, label=gettext_lazy("They bring it"))
    every = forms.ChoiceField(
        required=False,
        label=gettext_lazy("How often"),
        choices=Every.choices,
        widget=forms.RadioSelect(attrs={"class": "chips"}),
    )
    ends_on = forms.DateField(required=False, label=gettext_lazy("Until"))
    our_promise = words(gettext_lazy("What we promised"), 160)
    our_promise_by = forms.DateField(required=False, label=gettext_lazy("By"))
    back_on = forms.DateField(required=False, label=gettext_lazy("Back on"))
    from_now_on = forms.ChoiceField(
        required=False,
        label=gettext_lazy("From now on"),
        choices=[("this_year", gettext_lazy("Not this year")), ("never", gettext_lazy("Never ask again"))],
        widget=forms.RadioSelect(attrs={"class": "chips"}),
    )
    reason = words(gettext_lazy("Their reason, if they said one"), 200)
    contact = picked(
        Contact.objects.filter(left_on=None),
        gettext_lazy("Whom I met"),
        gettext_lazy("That person is not in your book."),
    )
    contact_name = words(gettext_lazy("Somebody else: type the name"), 120)
    sheet_left = forms.BooleanField(required=False, label=gettext_lazy("I left the sheet"))
    note = words(
        gettext_lazy("One line of note"),
        2000,
        help_text=gettext_lazy("The owner may read it; records can be requested."),
    )
    day = forms.DateField(required=False, label=gettext_lazy("Day"))
    how = forms.ChoiceField(required=False, label=gettext_lazy("How"), choices=How.choices)
    school = picked(
        School.objects.all(), gettext_lazy("For which school"), gettext_lazy("That school is not in your book.")
    )
    stop = picked(OutingStop.objects.all(), gettext_lazy("Outing"), gettext_lazy("That outing is not in your book."))
    new_place = forms.CharField(required=False, widget=forms.HiddenInput)

    def __init__(self, data: Any = None, *args: Any, back_on: date | None = None, **kwargs: Any) -> None:
        self.likely: list[LikelyPartner] = []
        self.usual_back_on = back_on
        super().__init__(one_of(data), *args, **kwargs)
        self.fields["offer"].widget.attrs["list"] = "wanted"
        # A page that is come back to fills in what stood there before; the next place has not answered yet.
        self.fields["happened"].widget.attrs |= {"aria-required": "true", "autocomplete": "off"}

    def clean_day(self) -> date:
        day: date = self.cleaned_data["day"] or self.desk.day
        if day > self.desk.day:
            raise ValidationError(_("That day is still ahead. A visit is logged once it has been."))
        if day < self.desk.day - timedelta(days=366 * YEARS_BACK):
            raise ValidationError(_("That is more than five years ago. Is the year right?"))
        return day

    def clean_how(self) -> str:
        return self.cleaned_data["how"] or How.IN_PERSON

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        place, happened, day = data.get("partner"), data.get("happened"), data.get("day")
        if isinstance(place, str) and name_key(data.get("new_place", "")) != name_key(place):
            self._warn_if_known(place)
        self._typed_wins("need", "what")
        self._typed_wins("contact", "contact_name")
        refuse_the_forgotten(self, place, [isinstance(place, str), *(data.get(name) for name in MAY_NAME)])
        contact = data.get("contact")
        if contact is not None and isinstance(place, Partner) and contact.partner_id != place.pk:
            self.add_error("contact", _("That person is at %(other)s.") % {"other": contact.partner})
        if day is not None and happened in AGREED:
            self._ahead("collect_by", day)
            self._ahead("ends_on", data.get("collect_by") or day)
        if day is not None and happened in COMING_BACK:
            self._ahead("back_on", day + timedelta(days=1))
        if day is not None and data.get("our_promise"):
            self._ahead("our_promise_by", day)
        return data

    def said(self) -> Said:
        """What was said, without what the answer makes pointless. Only for a valid form."""
        data = self.cleaned_data
        happened = data["happened"]
        about = happened != Happened.HELLO
        agreed = happened in AGREED
        named = data["back_on"] if data["back_on"] != self.usual_back_on else None
        return Said(
            where=data["partner"],
            happened=happened,
            day=data["day"],
            how=data["how"],
            stop=self._stop(),
            school=data["school"],
            **self._about(happened),
            amount_cents=data["amount"] if agreed else None,
            due=data["collect_by"] if agreed else None,
            due_hour=data["collect_at"] if agreed else None,
            they_bring=data["they_bring"],
            every=data["every"] if happened == Happened.OFFERED else "",
            ends_on=data["ends_on"] if data["every"] else None,
            our_promise=data["our_promise"] if about else "",
            our_due=data["our_promise_by"],
            back_on=named if happened in COMING_BACK else None,
            never_again=happened == Happened.NO and data["from_now_on"] == "never",
            reason=data["reason"] if happened == Happened.NO else "",
            contact=data["contact"],
            met=data["contact_name"],
            sheet_left=data["sheet_left"],
            note=data["note"],
        )

    def _about(self, happened: str) -> dict[str, Any]:
        """What it was about, and how many: the planned ask, or what they offered instead."""
        data = self.cleaned_data
        if happened == Happened.HELLO:
            return {}
        if happened == Happened.OFFERED:
            return {"what": data["offer"], "need": self._need_called(data["offer"]), "quantity": data["offered"]}
        quantity = {Happened.YES: data["quantity"], Happened.SOME: data["part"]}.get(Happened(happened))
        return {"what": data["what"], "need": data["need"], "quantity": quantity}

    def _stop(self) -> OutingStop | None:
        """The place on an outing that this visit ticks: the one it was opened from, or one of that day's outing."""
        place, stop = self.cleaned_data["partner"], self.cleaned_data["stop"]
        if not isinstance(place, Partner):
            return None
        if stop is not None and stop.partner_id == place.pk:
            return stop if stop.visit_id is None else None
        open_stops = self.desk.outing_stops.filter(partner=place, visit=None, outing__day=self.cleaned_data["day"])
        found: OutingStop | None = open_stops.select_related("outing").first()
        return found

    def _warn_if_known(self, name: str) -> None:
        self.likely = likely_partners(self.desk, name=name)
        if self.likely:
            self.add_error("partner", _("A place with a name like this is in your book. Is it one of these?"))

    def _typed_wins(self, pick: str, typed: str) -> None:
        """What was typed beside a button that was picked before, and still is, was typed to say something else."""
        still = self.data.get(pick, "") == self.data.get(f"{pick}{BEFORE}", "")
        if self.cleaned_data.get(typed) and self.cleaned_data.get(pick) is not None and still:
            self.cleaned_data[pick] = None
        if pick == "need" and self.cleaned_data.get("what") and self.cleaned_data.get("need") is None:
            self.cleaned_data["need"] = self._need_called(self.cleaned_data["what"])

    def _need_called(self, what: str) -> Need | None:
        if not what:
            return None
        return next((need for need in self.desk.needs.open() if name_key(need.what) == name_key(what)), None)

    def _ahead(self, name: str, day: date) -> None:
        typed = self.cleaned_data.get(name)
        if typed is not None and typed < day:
            self.add_error(name, _("That day is not after the visit."))
        elif typed is not None and typed > self.desk.day + timedelta(days=366 * YEARS_AHEAD):
            self.add_error(name, _("That is more than three years ahead. Is the year right?"))


def one_of(data: Mapping[str, Any] | None) -> Any:
    """ "Is it one of these?" answered by a button: the partner is picked and the typed name is done with."""
    if not data or not data.get("one_of"):
        return data
    changed = data.copy()  # type: ignore[attr-defined]
    changed[f"partner{PICKED}"], changed["partner"] = data["one_of"], ""
    return changed
