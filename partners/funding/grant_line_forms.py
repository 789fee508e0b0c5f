"""The lines of a grant as a set of small forms: one thing each, with what it costs."""

from __future__ import annotations

from typing import Any

from django import forms
from django.db.models import Q
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.funding.grant_actions import LineEdit
from partners.funding.grant_models import Grant, GrantChange, GrantLine
from partners.ground.forms import CentsField, DeskForm
from partners.promises.forms import how_many
from partners.wish_list.models import Need

PREFIX = "line"
AT_FIRST = 4
MORE = 2
AT_MOST = 40
COST = gettext_lazy("Say what it costs, with its tax where you pay any.")


class GrantLineForm(DeskForm):
    """One thing the money is for. A line in which nothing was typed is no line; emptied, it is taken out."""

    row = forms.ModelChoiceField(GrantLine.objects.all(), required=False, widget=forms.HiddenInput)
    what = forms.CharField(label=gettext_lazy("What"), required=False, max_length=160)
    quantity = how_many(gettext_lazy("How many"))
    planned = CentsField(label=gettext_lazy("Costs in all, with tax"), required=False)
    shipping = CentsField(label=gettext_lazy("Shipping"), required=False)
    need = forms.ModelChoiceField(
        Need.objects.open(),
        label=gettext_lazy("From the wish list"),
        required=False,
        empty_label=gettext_lazy("not on it"),
    )

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        if self.is_emptied:
            self._check_free(data["row"])
            return data
        need = data.get("need")
        if need is not None and not data.get("what"):
            data["what"] = need.what
        typed = any(data.get(name) for name in ("quantity", "planned", "shipping"))
        if not data.get("what") and typed:
            self.add_error("what", _("Say what it is."))
        if data.get("what") and not data.get("planned") and "planned" not in self.errors:
            self.add_error("planned", COST)
        return data

    def _check_free(self, row: GrantLine) -> None:
        """Receipts may be charged to a line, and changes agreed, before its lines are fixed."""
        charged = row.program.purchase_lines.filter(grant_line=row).exists()
        if charged or GrantChange.objects.filter(Q(line=row) | Q(to_line=row)).exists():
            words = _("“%(line)s” stays: a receipt is charged to it, or a change of it was agreed.")
            self.add_error("what", words % {"line": row.what})

    @property
    def is_emptied(self) -> bool:
        """A line of the record whose name was taken away goes, whatever else still stands in it."""
        return bool(self.cleaned_data.get("row")) and not self.cleaned_data.get("what")

    @property
    def is_there(self) -> bool:
        return bool(self.cleaned_data.get("what")) or self.is_emptied

    def edit(self) -> LineEdit:
        data = self.cleaned_data
        if self.is_emptied:
            return LineEdit(what="", row=data["row"])
        return LineEdit(
            what=data["what"],
            quantity=data["quantity"],
            need=data["need"],
            planned_cents=data["planned"],
            shipping_cents=data["shipping"] or 0,
            row=data["row"],
        )


class GrantLineFormSet(forms.BaseFormSet):  # type: ignore[type-arg]
    """All lines of a grant; iterating gives the forms."""

    @property
    def first(self) -> list[GrantLineForm]:
        """Those that stand open: what is written down, and one line more."""
        return self.forms[: self.initial_form_count() + 1]

    @property
    def more(self) -> list[GrantLineForm]:
        return self.forms[self.initial_form_count() + 1 :]

    @property
    def is_more(self) -> bool:
        """Whether something stands in the lines that are folded away at first."""
        return self.is_bound and any(line.has_changed() or line.errors for line in self.more)

    def edits(self) -> list[LineEdit]:
        return [line.edit() for line in self.forms if line.is_there]


def grant_line_forms(desk: Any, grant: Grant | None, data: Any = None) -> GrantLineFormSet:
    """The lines as they are, and room for more: without script there is room for more again after saving."""
    rows = list(grant.lines.select_related("need")) if grant is not None and grant.pk else []
    initial = [
        {
            "row": row,
            "what": row.what,
            "quantity": row.quantity,
            "planned": row.planned_cents,
            "shipping": row.shipping_cents or None,
            "need": row.need,
        }
        for row in rows
    ]
    extra = max(MORE, AT_FIRST - len(rows))
    made: Any = forms.formset_factory(
        GrantLineForm, formset=GrantLineFormSet, extra=extra, max_num=AT_MOST, absolute_max=AT_MOST
    )
    found: GrantLineFormSet = made(data, prefix=PREFIX, initial=initial, form_kwargs={"desk": desk})
    own = GrantLine.objects.filter(pk__in=[row.pk for row in rows])
    needs = [row.need_id for row in rows if row.need_id]
    for form in found.forms:
        form.fields["row"].queryset = own
        # What is enough by now may stay where it was chosen.
        form.fields["need"].queryset = (desk.needs.open() | desk.needs.filter(pk__in=needs)).order_by("what", "pk")
    return found
