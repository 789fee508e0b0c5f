"""Sample data for the page that shows every part of the look. All of it is invented."""

from __future__ import annotations

from dataclasses import dataclass, fields
from datetime import UTC, date, datetime, time, timedelta
from typing import Any

import django_tables2  # type: ignore[import-untyped]
from django import forms
from django.utils.translation import gettext_lazy as _

from partners.ground.due import Act, DueLine, Hand, Words
from partners.ground.forms import CentsField, DateInput, TimeInput
from partners.ground.story import StoryLine
from partners.ground.tables import BookTable, configured


class SampleForm(forms.Form):
    """One field of every kind."""

    name = forms.CharField(label=_("Name"), help_text=_("As they write it."), max_length=120)
    happened = forms.ChoiceField(
        label=_("What happened"),
        choices=[("yes", _("Yes")), ("some", _("Some of it")), ("no", _("No")), ("hello", _("Just hello"))],
        widget=forms.RadioSelect(attrs={"class": "big"}),
    )
    back_on = forms.DateField(label=_("Back on"), required=False, widget=DateInput)
    at = forms.TimeField(label=_("Hour"), required=False, widget=TimeInput)
    met = forms.ChoiceField(
        label=_("Whom I met"),
        required=False,
        choices=[("1", "Dana Whitlock"), ("2", "Luis Abad"), ("3", "Pat Oduya")],
        widget=forms.RadioSelect(attrs={"class": "chips"}),
    )
    how_many = forms.IntegerField(label=_("How many"), required=False, min_value=1)
    amount = CentsField(label=_("Amount"), required=False)
    school = forms.ChoiceField(
        label=_("School"), choices=[("m", "Millrace Elementary"), ("n", "North Ridge Elementary")]
    )
    brings = forms.MultipleChoiceField(
        label=_("Bring"),
        required=False,
        choices=[("sheet", _("the sheet")), ("bag", _("a bag")), ("card", _("school ID"))],
        widget=forms.CheckboxSelectMultiple,
    )
    sheet_left = forms.BooleanField(label=_("I left a sheet"), required=False)
    note = forms.CharField(label=_("Note"), required=False, widget=forms.Textarea)


class SampleTable(BookTable):
    """A list the way every list looks."""

    name = django_tables2.Column(verbose_name=_("Name"), orderable=True)
    kind = django_tables2.Column(verbose_name=_("Kind"), orderable=True)
    last = django_tables2.DateColumn(verbose_name=_("Last visit"))
    waiting = django_tables2.Column(verbose_name=_("Waiting for"))

    caption = _("Partners of the sample book")

    class Meta(BookTable.Meta):
        empty_text = _("No partner yet. Log a visit, and the place is written down here.")


@dataclass
class ShownVerdict:
    """What the answer to "may I ask now?" looks like to a template."""

    allowed: bool
    earliest: date | None = None


@dataclass
class Promised:
    words: Words
    state: Words
    kept: bool = False


@dataclass(frozen=True)
class ShownLine(DueLine):
    """A due line with what Today and the review say of it besides."""

    late: Words = ""
    last_word: Words = ""
    settled: Words = ""
    undo_url: str = ""
    tick: Words = ""


def shown(line: DueLine, pk: int, **besides: Any) -> ShownLine:
    return ShownLine(**{**{one.name: getattr(line, one.name) for one in fields(line)}, "pk": pk, **besides})


def due_lines(day: date, first: int = 1) -> list[ShownLine]:
    """One to write, one at an hour, one that is late with what was said last, one that is settled."""
    tick = _("Settle this one")
    late = {"late": _("2 school days late"), "last_word": _("November 3, Maybe: Pat will put it to the owners.")}
    return [
        shown(thanks_line(day), first, tick=tick),
        shown(collect_line(day), first + 1, tick=tick),
        shown(call_line(day - timedelta(days=3)), first + 2, tick=tick, **late),
        shown(thanks_line(day - timedelta(days=4)), first + 3, settled=_("Done"), undo_url="#"),
    ]


DONE = Act(_("Done"), "#", code="done")
MOVE = Act(_("Move to…"), "#", code="move")


def thanks_line(due: date) -> DueLine:
    return DueLine(
        source="sample",
        pk=1,
        due=due,
        hand=Hand.WRITE,
        verb=_("Thank"),
        what="40 terracotta pots",
        why=_("They came on Monday and no letter has gone out."),
        who="Riverbend Garden Center",
        who_url="#",
        school="Millrace Elementary",
        acts=(Act(_("Write the letter"), "#", opens=True), DONE, MOVE),
    )


def collect_line(due: date) -> DueLine:
    return DueLine(
        source="sample",
        pk=2,
        due=due,
        hour=time(15, 30),
        hand=Hand.COLLECT,
        verb=_("Collect"),
        what="cake boxes, about 60",
        why=_("Dana Whitlock promised them for today."),
        who="Bluebird Bakery",
        who_url="#",
        school="North Ridge Elementary",
        phone="+12015550117",
        acts=(Act(_("It came"), "#"), Act(_("It never came"), "#"), MOVE),
    )


def call_line(due: date) -> DueLine:
    return DueLine(
        source="sample",
        pk=3,
        due=due,
        hand=Hand.CALL,
        verb=_("Follow up"),
        what="mat-board offcuts",
        why=_("You were told to call again this week."),
        who="Marigold Framing",
        who_url="#",
        phone="+12015550142",
        acts=(DONE, MOVE, Act(_("No reply, let rest"), "#")),
    )


def story_lines(day: date) -> list[StoryLine]:
    """A visit, a promise from each side, and a gift."""
    made = datetime(2026, 9, 1, tzinfo=UTC)
    return [
        StoryLine(
            day=day,
            written_at=made,
            what=_("Visit in person: yes"),
            detail="Dana Whitlock, owner",
            url="#",
            private="Come after the lunch hour; the loading door is on Canal Street.",
        ),
        StoryLine(day=day, written_at=made, what=_("40 terracotta pots"), side="them", open=True),
        StoryLine(day=day, written_at=made, what=_("a window of decorated seed packets"), side="us"),
        StoryLine(day=day - timedelta(days=400), written_at=made, what=_("Gift: 30 small clay saucers"), url="#"),
    ]


@dataclass
class Listed:
    name: str
    kind: Words
    last: date
    waiting: Words


def table_rows(day: date) -> list[Listed]:
    """Rows for the sample list."""
    return [
        Listed("Bluebird Bakery", _("business"), day - timedelta(days=3), _("cake boxes")),
        Listed("Alder Falls Public Library", _("library"), day - timedelta(days=40), ""),
        Listed("Lakeside Arts Guild", _("arts group"), day - timedelta(days=80), _("a place in the May show")),
    ]


def components(request: Any, day: date) -> dict[str, Any]:
    """The context of the components page; ?bound=yes shows the form as it looks when something is missing."""
    bound = "bound" in request.GET
    return {
        "day": day,
        "form": SampleForm(data={"name": "", "back_on": "not a day"} if bound else None),
        "lines": due_lines(day),
        "rows": due_lines(day, 11),
        "coming": [shown(call_line(day + timedelta(days=30)), 21)],
        "table": configured(request, SampleTable(table_rows(day)), per_page=2),
        "empty_table": SampleTable([]),
        "story": story_lines(day),
        "may": ShownVerdict(allowed=True),
        "not_yet": ShownVerdict(allowed=False, earliest=day + timedelta(days=21)),
        "why_not": [
            _("They rest until January, as they asked."),
            _("Thanks for the pots are still owed."),
        ],
        "theirs": [
            Promised(_("40 terracotta pots"), _("by May 3")),
            Promised(_("bags of soil"), _("kept May 1"), True),
        ],
        "ours": [Promised(_("decorated seed packets"), _("by May 20"))],
    }
