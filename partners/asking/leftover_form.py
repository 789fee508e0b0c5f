"""What is left, what packs cost, what is more important, what stays out. Sent with GET, so that it can be kept."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.http import QueryDict
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy, ngettext

from partners.asking.leftover import SHOWN, Missing, Wanted
from partners.ground.forms import CentsField, DeskForm
from partners.ground.money import format_cents

MOST_FIRST = 3


@dataclass(frozen=True)
class Choice:
    """A need on the page, with its three fields."""

    missing: Missing
    price: Any
    first: Any
    out: Any


class LeftoverForm(DeskForm):
    left = CentsField(
        label=gettext_lazy("How much is left"),
        help_text=gettext_lazy("Dollars and cents, such as 214.60."),
        error_messages={"required": gettext_lazy("Type how much is left, such as 214.60.")},
    )

    grant = forms.IntegerField(required=False, min_value=1, widget=forms.HiddenInput)

    def __init__(
        self, data: QueryDict | None = None, *args: Any, missing: Sequence[Missing] = (), **kwargs: Any
    ) -> None:
        self.missing = list(missing)
        super().__init__(data if data is None else self._with_prices(data), *args, **kwargs)
        for one in self.missing:
            price, first, out = _names(one)
            self.fields[price] = CentsField(label=_("%(what)s: price") % {"what": one.need}, required=False)
            self.fields[first] = forms.BooleanField(
                label=_("%(what)s: more important") % {"what": one.need}, required=False
            )
            self.fields[out] = forms.BooleanField(label=_("%(what)s: leave out") % {"what": one.need}, required=False)
            self.initial[price] = one.need.pack_cents

    def _with_prices(self, data: QueryDict) -> QueryDict:
        """An address that was kept knows nothing of a need that came later: it takes part at the book's price."""
        whole = data.copy()
        for one in self.missing:
            if one.need.pack_cents is not None:
                whole.setdefault(_names(one)[0], format_cents(one.need.pack_cents).lstrip("$"))
        return whole

    @property
    def cut_at(self) -> int:
        """How many are shown where there may be more, else 0."""
        return SHOWN if len(self.missing) >= SHOWN else 0

    def priced(self) -> list[Choice]:
        """The needs of which the book knows the price, the soonest first."""
        return [self._choice(one) for one in self.missing if one.need.pack_cents is not None]

    def unpriced(self) -> list[Choice]:
        return [self._choice(one) for one in self.missing if one.need.pack_cents is None]

    def unpriced_open(self) -> bool:
        """Whether they are shown at once: something is typed there, or there is nothing else."""
        typed = any(field.value() for one in self.unpriced() for field in (one.price, one.first, one.out))
        return typed or not self.priced()

    def _choice(self, one: Missing) -> Choice:
        price, first, out = (self[name] for name in _names(one))
        return Choice(one, price, first, out)

    def clean_left(self) -> int:
        left: int = self.cleaned_data["left"]
        if not left:
            raise ValidationError(_("With nothing left there is nothing to buy. Type an amount, such as 214.60."))
        return left

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        marked = [first for _price, first, out in map(_names, self.missing) if data.get(first) and not data.get(out)]
        for name in marked[MOST_FIRST:]:
            words = ngettext(
                "At most three can be more important; %(count)d is marked.",
                "At most three can be more important; %(count)d are marked.",
                len(marked),
            )
            self.add_error(name, words % {"count": len(marked)})
        for one in self.missing:
            price = _names(one)[0]
            if data.get(price) == 0:
                self.add_error(price, _("A pack costs more than nothing. Leave it empty if you do not know the price."))
        return data

    def wanted(self) -> list[Wanted]:
        """The needs that take part, once the form is valid."""
        data = self.cleaned_data
        return [
            Wanted(one, data[price], data[first])
            for one, (price, first, out) in zip(self.missing, map(_names, self.missing), strict=True)
            if data[price] is not None and not data[out]
        ]

    def not_looked_at(self) -> list[Missing]:
        """Those that would take part if they had a price."""
        data = self.cleaned_data
        return [
            one
            for one, (price, _first, out) in zip(self.missing, map(_names, self.missing), strict=True)
            if data[price] is None and not data[out]
        ]


def _names(one: Missing) -> tuple[str, str, str]:
    return f"price-{one.need.pk}", f"first-{one.need.pk}", f"out-{one.need.pk}"
