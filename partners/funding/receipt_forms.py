"""The form of a receipt: its items line by line, then shipping, discount, tax and total, which must agree."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from datetime import date
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.funding.buying_actions import Bought
from partners.funding.buying_forms import AUTHORIZED
from partners.funding.buying_models import LineKind, Payer, Purchase, PurchaseLine
from partners.funding.buying_warnings import grant_warnings
from partners.funding.grant_models import GrantLine
from partners.funding.receipt_fields import RateField, grant_line
from partners.ground.forms import CentsField, DeskForm, RowForm
from partners.ground.money import format_cents
from partners.promises.day_checks import been
from partners.promises.forms import how_many
from partners.wish_list.models import Need

PREFIX = "line"
AT_FIRST, MORE = 6, 4
# Lines that are in sight at once; what is empty beyond them is folded.
IN_SIGHT, EMPTY_IN_SIGHT = 3, 1
AT_MOST = 60


class ItemForm(DeskForm):
    """One item of the receipt. A line in which nothing was typed is no line. `of_grant`: the slip names a grant."""

    of_grant = False
    what = forms.CharField(label=gettext_lazy("What"), required=False, max_length=160)
    quantity = how_many(gettext_lazy("Pieces"))
    cents = CentsField(label=gettext_lazy("Amount"), required=False)
    need = forms.ModelChoiceField(
        Need.objects.all(),
        label=gettext_lazy("From the wish list"),
        required=False,
        empty_label=gettext_lazy("not on it"),
        help_text=gettext_lazy("The pieces count there as come: three packs of 24 are 72."),
    )
    grant_line = grant_line(gettext_lazy("Charged to"))
    untaxed = forms.BooleanField(label=gettext_lazy("This item is never taxed"), required=False)

    @property
    def typed(self) -> bool:
        """What it is charged to may only follow the line above."""
        return bool({"what", "quantity", "cents", "need", "untaxed"}.intersection(self.changed_data))

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        need = data.get("need")
        if need is not None and not data.get("what"):
            data["what"] = need.what
        if not data.get("what") and any(data.get(name) for name in ("quantity", "cents")):
            self.add_error("what", _("Say what it is."))
        if data.get("what") and data.get("cents") is None and "cents" not in self.errors:
            self.add_error("cents", _("Type what this line comes to."))
        return data

    @property
    def is_there(self) -> bool:
        return bool(self.cleaned_data.get("what"))

    @property
    def more(self) -> bool:
        """Whether something stands in, or is wrong with, what is folded."""
        folded = ("need", "untaxed") if self.of_grant else ("need", "grant_line", "untaxed")
        return any(name in self.errors or self[name].value() for name in folded)

    def bought(self) -> Bought:
        values = dict(self.cleaned_data)
        return Bought(taxable=not values.pop("untaxed"), **values)


class ItemFormSet(forms.BaseFormSet):  # type: ignore[type-arg]
    """All items; iterating gives the forms."""

    @property
    def in_sight(self) -> list[ItemForm]:
        return self.forms[: self._cut]

    @property
    def folded(self) -> list[ItemForm]:
        return self.forms[self._cut :]

    @property
    def _cut(self) -> int:
        typed = [place for place, form in enumerate(self.forms, 1) if self.is_bound and form.typed]
        return max(IN_SIGHT, max(typed, default=self.initial_form_count()) + EMPTY_IN_SIGHT)


def item_forms(desk: Any, data: Any = None, initial: Sequence[dict[str, Any]] = ()) -> ItemFormSet:
    extra = MORE if initial else AT_FIRST
    made: Any = forms.formset_factory(ItemForm, formset=ItemFormSet, extra=extra, max_num=AT_MOST, absolute_max=AT_MOST)
    found: ItemFormSet = made(data, prefix=PREFIX, initial=list(initial), form_kwargs={"desk": desk})
    return found


EXTRAS = (
    ("shipping", LineKind.SHIPPING, gettext_lazy("Shipping"), 1),
    ("discount", LineKind.DISCOUNT, gettext_lazy("Discount"), -1),
    ("tax_charged", LineKind.TAX, gettext_lazy("Sales tax"), 1),
)


def meant(what: str, lines: Sequence[GrantLine]) -> GrantLine | None:
    """The line that has the most words of a slip, if only one has so many."""
    said = set(re.findall(r"\w+", what.lower()))
    shared = {line: len(said.intersection(re.findall(r"\w+", line.what.lower()))) for line in lines}
    most = max(shared.values(), default=0)
    found = [line for line, count in shared.items() if count == most]
    return found[0] if most and len(found) == 1 else None


class ReceiptForm(RowForm):
    """A receipt whose lines come to its total; `words` are warnings that were shown and have to be heeded."""

    bought_on = forms.DateField(label=gettext_lazy("Bought on"))
    shipping = CentsField(label=gettext_lazy("Shipping"), required=False)
    shipping_taxed = forms.BooleanField(label=gettext_lazy("Shipping is taxed here"), required=False)
    discount = CentsField(label=gettext_lazy("Discount"), required=False)
    tax_charged = CentsField(label=gettext_lazy("Sales tax charged"), required=False)
    total_cents = CentsField(label=gettext_lazy("Total"), at_least=0)
    extras_line = grant_line(gettext_lazy("Shipping, discount and tax are charged to"))
    tax_rate = RateField(
        label=gettext_lazy("Sales tax (%)"), required=False, max_length=20, help_text=gettext_lazy("As 6.875.")
    )
    heeded = forms.BooleanField(label=gettext_lazy("It was bought all the same; write it down"), required=False)

    class Meta:
        model = Purchase
        fields = ["bought_on", "receipt_number", "payer", "authorised_agent", "total_cents", "tax_rate", "tax_per_item"]
        labels = {"authorised_agent": AUTHORIZED}
        widgets = {"payer": forms.RadioSelect(attrs={"class": "chips"})}

    def __init__(self, data: Any = None, *args: Any, items: ItemFormSet | None = None, **kwargs: Any) -> None:
        super().__init__(data, *args, **kwargs)
        self.items = items if items is not None else item_forms(self.desk, data)
        self.words: list[str] = []
        if self.instance.bought_on is None:
            for first in self.items.forms[:1]:
                first.initial.setdefault("what", self.instance.what)
                first.empty_permitted = False
            self._follow_first()
        if self.instance.grant_id:
            self._charge_grant()

    def _follow_first(self) -> None:
        """With script, what the first line is charged to goes for all below, until one is chosen there."""
        followed = self.items.add_prefix(0) + "-grant_line"
        for form, name in ((self, "extras_line"), *((item, "grant_line") for item in self.items.forms[1:])):
            form.fields[name].widget.attrs["data-follows"] = followed

    def _charge_grant(self) -> None:
        """Only lines of the slip's grant are offered; the only one, or the one the slip means, is chosen."""
        lines = self._lines_of_grant(self.fields["extras_line"].queryset)  # type: ignore[attr-defined]
        known = list(lines) if self.instance.bought_on is None else []
        likely = known[0] if len(known) == 1 else meant(self.instance.what, known)
        for form, name in ((self, "extras_line"), *((item, "grant_line") for item in self.items.forms)):
            form.fields[name].queryset = lines
            if likely:
                form.initial.setdefault(name, likely.pk)
        for item in self.items.forms:
            item.of_grant = True

    def _lines_of_grant(self, lines: Any) -> Any:
        """Those of the slip's grant, and whatever the receipt is charged to already."""
        charged = self.instance.lines.values("grant_line") if self.instance.pk else []
        everything = GrantLine.objects.filter(program=self.desk.program).select_related("grant")
        return lines.filter(grant=self.instance.grant_id) | everything.filter(pk__in=charged)

    def clean_bought_on(self) -> date:
        day = been(self.cleaned_data["bought_on"], self.desk.day)
        later = (
            ("handed_in_on", _("It was handed in before that day.")),
            ("repaid_on", _("It was repaid before that day.")),
            ("tax_back_on", _("The tax came back before that day.")),
        )  # fmt: skip
        for name, words in later:
            if (then := getattr(self.instance, name)) is not None and then < day:
                raise ValidationError(words)
        return day

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        if data.get("payer") != Payer.OWN:
            data["authorised_agent"] = False
        if not self.items.is_valid():
            self.add_error(None, _("Look at the lines of the receipt: one of them is not complete."))
        elif not any(line.is_there for line in self.items):
            for place, name in ((self, None), *((line, "what") for line in self.items.forms[:1])):
                place.add_error(name, _("Say what was bought, at least one line."))
        else:
            self._check_total(data)
            self._check_grants(data)
        return data

    @property
    def below(self) -> Iterable[forms.BaseForm]:
        return self.items

    def _check_grants(self, data: dict[str, Any]) -> None:
        """What speaks against charging it to a grant is said once, before it is saved."""
        if data.get("bought_on") is None or not {"tax_charged", "shipping", "discount"}.isdisjoint(self.errors):
            return
        self.words = grant_warnings(self.desk, self.instance, data["bought_on"], self.bought())
        if self.words and not data.get("heeded"):
            self.add_error("heeded", _("Read what speaks against it, and tick this to write it down all the same."))

    def _check_total(self, data: dict[str, Any]) -> None:
        """The lines come to the total, or the difference is named."""
        if any(name in self.errors for name in ("total_cents", *(name for name, *_rest in EXTRAS))):
            return
        together, total = sum(line.cents for line in self.bought()), data["total_cents"]
        if together < 0:
            self.add_error("discount", _("The discount is larger than everything that was bought."))
        elif together != total:
            facts = {"lines": format_cents(together), "total": format_cents(total)}
            facts["by"] = format_cents(abs(total - together))
            if together < total:
                words = _(
                    "The lines come to %(lines)s, the total is %(total)s: %(by)s is missing. "
                    "Is it an item, shipping or tax?"
                )
            else:
                words = _("The lines come to %(lines)s, the total is %(total)s: %(by)s is too much. Is it a discount?")
            self.add_error("total_cents", words % facts)
        self._check_refunds(total)

    def _check_refunds(self, total: int) -> None:
        if (repaid := self.instance.repaid_cents) is not None and repaid > total:
            words = _("%(repaid)s was repaid already, which is more than this total.")
            self.add_error("total_cents", words % {"repaid": format_cents(repaid)})
        if (back := self.instance.tax_back_cents) is not None and back > (self.cleaned_data.get("tax_charged") or 0):
            words = _("%(back)s of tax came back already, which is more than this.")
            self.add_error("tax_charged", words % {"back": format_cents(back)})

    def bought(self) -> list[Bought]:
        """All lines as the verb takes them: items first, then shipping, discount and tax."""
        data = self.cleaned_data
        lines = [line.bought() for line in self.items if line.is_there]
        for name, kind, label, sign in EXTRAS:
            if data.get(name):
                taxable = kind == LineKind.DISCOUNT or (kind == LineKind.SHIPPING and bool(data["shipping_taxed"]))
                own = {"kind": kind, "cents": sign * data[name], "taxable": taxable}
                lines.append(Bought(what=str(label), grant_line=data.get("extras_line"), **own))
        return lines

    def receipt(self) -> dict[str, Any]:
        """The purchase's own columns; its total follows from the lines."""
        return {name: value for name, value in self.values().items() if name != "total_cents"}


def as_typed(lines: Sequence[PurchaseLine]) -> tuple[dict[str, Any], list[dict[str, Any]]]:
    """A stored receipt as the form's first values: the form's own, and its items'."""
    items = [
        {
            "what": line.what, "quantity": line.quantity, "cents": line.cents, "need": line.need_id,
            "grant_line": line.grant_line_id, "untaxed": not line.taxable,
        }
        for line in lines
        if line.kind == LineKind.ITEM
    ]  # fmt: skip
    own: dict[str, Any] = {}
    for name, kind, _label, sign in EXTRAS:
        found = [line for line in lines if line.kind == kind]
        if found:
            own[name] = sign * sum(line.cents for line in found)
            own["extras_line"] = found[0].grant_line_id
        if found and kind == LineKind.SHIPPING:
            own["shipping_taxed"] = found[0].taxable
    return own, items
