"""The form that takes a file and carries its rows along until they are saved."""

from __future__ import annotations

from hashlib import sha256
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from partners.ground.csv_out import unguarded
from partners.ground.forms import DeskForm
from partners.ground.plain import PlainError
from partners.ground.table_in import MOST_BYTES, read_table
from partners.ground.table_rows import Table
from partners.story.columns import guessed, letters_of
from partners.story.kept_rows import pack, unpack
from partners.story.kinds import KINDS

OWED, DONE = "owed", "done"
COLUMN = "column-"
SAMPLES = 3


class ImportForm(DeskForm):
    """`kept` are the rows of the file; `of_kind` the kind for which the columns were chosen; `looked_at` the mark of
    what was shown last.
    """

    kind = forms.ChoiceField(label=_("What the list is about"))
    file = forms.FileField(
        label=_("The file"),
        required=False,
        allow_empty_file=True,
        help_text=_("A CSV or XLSX file of at most 10 MB and 20,000 rows. You see every row before anything is saved."),
        widget=forms.FileInput(attrs={"accept": ".csv,.tsv,.txt,.xlsx"}),
    )
    settled = forms.ChoiceField(
        label=_("Gifts for which the file does not say so"),
        choices=[
            (OWED, _("thanks are still owed; the office and the board still have to get them")),
            (DONE, _("were thanked for, accepted and handed in back then")),
        ],
        required=False,
        widget=forms.RadioSelect,
    )
    no_head = forms.BooleanField(label=_("The first row is a row like the others"), required=False)
    kept = forms.CharField(required=False, strip=False, widget=forms.HiddenInput)
    of_kind = forms.CharField(required=False, max_length=20, widget=forms.HiddenInput)
    looked_at = forms.CharField(required=False, max_length=64, widget=forms.HiddenInput)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        kind: Any = self.fields["kind"]
        kind.choices = [(slug, gettext(one.title)) for slug, one in KINDS.items()]
        self.table: Table | None = None
        self.chosen: dict[int, str] = {}

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        kind, sent = values.get("kind"), values.get("file")
        if not kind or self.errors:
            return values
        try:
            self._take(KINDS[kind], sent)
        except PlainError as error:
            raise ValidationError({"file": gettext(error.sentence) % error.facts}) from error
        return values

    def _take(self, kind: Any, sent: Any) -> None:
        """The rows out of the file that was sent, else those that came along; and what each column is."""
        values = self.cleaned_data
        if sent is not None:
            content = sent.read(MOST_BYTES + 1)
            self.table = read_table(content, lambda head: len(guessed(head, kind.columns)), kind.title)
            values["kept"] = pack(self.table)
        elif values["kept"]:
            self.table = unpack(values["kept"])
        else:
            raise ValidationError({"file": _("Choose a file first.")})
        if sent is not None or values["of_kind"] != kind.slug:
            self.chosen = guessed(self.table.rows[0], kind.columns)
        else:
            self.chosen = self._chosen(kind)

    def _chosen(self, kind: Any) -> dict[int, str]:
        names = {one.name for one in kind.columns}
        sent = {place: self.data.get(f"{COLUMN}{place}", "") for place in range(self.width)}
        return {place: name for place, name in sent.items() if name in names}

    @property
    def width(self) -> int:
        return max((len(row.cells) for row in self.table.rows), default=0) if self.table else 0

    @property
    def has_head(self) -> bool:
        return not self.cleaned_data["no_head"]

    def mark(self) -> str:
        """Tells whether the rows would be read otherwise than they were shown."""
        values = self.cleaned_data
        told = (values["kept"], values["kind"], values["no_head"], sorted(self.chosen.items()))
        return sha256(repr(told).encode()).hexdigest()

    def shown_again(self) -> dict[str, Any]:
        """What the page sends along next time."""
        values = self.cleaned_data
        own = {name: self.data.get(name, "") for name in ("kind", "once")}
        kept = {"kept": values["kept"], "of_kind": values["kind"], "looked_at": self.mark()}
        ticked = {"no_head": "on"} if values["no_head"] else {}
        return {**own, **kept, **ticked, "settled": values["settled"] or OWED}

    def columns(self) -> list[dict[str, Any]]:
        """Each column of the file, with what stands in it, and which of ours it may be."""
        if self.table is None:
            return []
        kind = KINDS[self.cleaned_data["kind"]]
        offered = [(one.name, gettext(one.label)) for one in kind.columns]
        first = self.table.rows[0]
        body = self.table.rows[1:] if self.has_head else self.table.rows
        found = []
        for place in range(self.width):
            cells = (unguarded(row.cell(place)) for row in body[:50])
            samples = [cell for cell in cells if cell][:SAMPLES]
            found.append(
                {
                    "name": f"{COLUMN}{place}",
                    "letters": letters_of(place),
                    "head": unguarded(first.cell(place)) if self.has_head else "",
                    "samples": [sample[:40] for sample in samples],
                    "offered": offered,
                    "chosen": self.chosen.get(place, ""),
                }
            )
        return found
