"""Forms of helpers: one person, what the office says of them, one slip of a stack."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django import forms
from django.core.exceptions import ValidationError
from django.utils.dates import WEEKDAYS
from django.utils.translation import gettext
from django.utils.translation import gettext_lazy as _

from partners.directory.forms import PhoneField, with_a_letter
from partners.ground.forms import DeskForm, Grouped, RowForm, choose_the_only
from partners.ground.names import fold
from partners.ground.plain import PlainError
from partners.helpers.class_words import seems_a_child
from partners.helpers.jobs import Job
from partners.helpers.models import Helper, SlipBatch
from partners.helpers.short_codes import (
    DAYS,
    JOBS,
    PLACES,
    WAYS,
    read_letters,
    read_name,
    read_often,
    read_one,
    read_yes,
)
from partners.helpers.words import SCHOOL_DAYS
from partners.program.desk import Desk
from partners.school.models import School


def room_seems_a_child(desk: Desk, room: str) -> bool:
    """Whether a child's name seems to stand where the class belongs; a class or a room of the book is none."""
    if not room or desk.helpers.filter(room__iexact=room).exists():
        return False
    return seems_a_child(room, {fold(label) for label in desk.classes.values_list("label", flat=True)})


class HelperForm(Grouped, RowForm):
    phone = PhoneField(required=False)
    room_is_class = forms.BooleanField(label=_("It is the class or room"), required=False)
    days = forms.TypedMultipleChoiceField(
        label=_("Days"),
        choices=[(day, WEEKDAYS[day]) for day in SCHOOL_DAYS],
        coerce=int,
        required=False,
        widget=forms.CheckboxSelectMultiple(attrs={"class": "chips"}),
    )
    jobs = forms.MultipleChoiceField(
        label=_("Jobs"), choices=Job, required=False, widget=forms.CheckboxSelectMultiple(attrs={"class": "chips"})
    )

    class Meta:
        model = Helper
        fields = [
            "name", "school", "room", "phone", "email", "best_way", "language", "at_school", "from_home", "show_day",
            "days", "times", "how_often", "jobs", "skills", "knows_rules", "unreadable", "note",
        ]  # fmt: skip

    GROUPS = (
        (_("Who"), ("name", "phone", "email", "best_way", "language")),
        (_("What they can do"), ("at_school", "from_home", "show_day", "jobs", "skills")),
        (_("When"), ("days", "times", "how_often")),
        (_("School"), ("school", "room", "knows_rules")),
        (_("Anything else"), ("unreadable", "note")),
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        choose_the_only(self, "school")
        way: Any = self.fields["best_way"]
        way.choices = [("", gettext("not said")), *way.choices[1:]]

    def groups(self) -> list[tuple[Any, list[forms.BoundField]]]:
        # Whether it is a class is asked only where that is in doubt.
        asked = self.is_bound and ("room" in self.errors or self.data.get("room_is_class"))
        after = {"room": ("room", "room_is_class")} if asked else {}
        return [
            (title, [self[each] for name in names for each in after.get(name, (name,))]) for title, names in self.GROUPS
        ]

    def clean_room(self) -> str:
        room: str = self.cleaned_data["room"]
        if not self.data.get("room_is_class") and room_seems_a_child(self.desk, room):
            sentence = gettext(
                "Is “%(room)s” a child? Only the class or room belongs here, and no child is ever written down. "
                "Take the name away, or tick below that it is the class."
            )
            raise ValidationError(sentence % {"room": room}, code="child")
        return room

    def clean_name(self) -> str:
        name: str = self.cleaned_data["name"]
        if name:
            with_a_letter(name)
        elif not self.instance.unreadable:
            raise ValidationError(gettext("Type the name."))
        return name


class ClearanceForm(RowForm):
    class Meta:
        model = Helper
        fields = ["cleared", "cleared_until", "cleared_by"]
        labels = {"cleared": _("The office says that they are cleared")}
        help_texts = {"cleared_until": _("Empty: without an end.")}

    def clean(self) -> dict[str, Any]:
        data: dict[str, Any] = super().clean() or self.cleaned_data
        if data.get("cleared") and not data.get("cleared_by"):
            self.add_error("cleared_by", gettext("Say who in the office confirmed it."))
        until = data.get("cleared_until")
        if data.get("cleared") and until and until < self.desk.day:
            self.add_error("cleared_until", gettext("That day is past, so they are not cleared any more."))
        return data


def decoded(read: Callable[[str], Any], typed: str) -> Any:
    """What the letters mean; a letter that means nothing is said at its field."""
    try:
        return read(typed)
    except PlainError as error:
        raise ValidationError(gettext(error.sentence) % error.facts) from error


def typed_field(label: Any, width: int, most: int = 120, **attrs: str) -> forms.CharField:
    given = {"autocomplete": "off", "spellcheck": "false", "style": "", "size": str(width), **attrs}
    del given["style"]
    return forms.CharField(label=label, required=False, max_length=most, widget=forms.TextInput(attrs=given))


class SlipForm(DeskForm):
    """One slip as a row of fields; Enter in any of them saves it. Ticks are letters."""

    name = typed_field(_("Name"), 22, autofocus="autofocus")
    room = typed_field(_("Class or room"), 9, 40)
    phone = PhoneField(required=False, widget=forms.TextInput(attrs={"autocomplete": "off", "size": "14"}))
    best_way = typed_field(_("Best way"), 3, 3)
    can = typed_field(_("Where"), 4, 8)
    days = typed_field(_("Days"), 5, 12)
    jobs = typed_field(_("Jobs"), 7, 24)
    email = forms.EmailField(
        label=_("E-mail"),
        required=False,
        max_length=254,
        widget=forms.TextInput(attrs={"autocomplete": "off", "inputmode": "email", "size": "22"}),
    )
    language = typed_field(_("Language"), 9, 40)
    times = typed_field(_("Times"), 10, 80)
    how_often = typed_field(_("How often"), 7, 40)
    skills = typed_field(_("Skills"), 14, 200)
    knows_rules = typed_field(_("Rules"), 3, 3)

    def __init__(self, *args: Any, batch: SlipBatch | None = None, **kwargs: Any) -> None:
        self.batch = batch
        super().__init__(*args, **kwargs)

    def clean_name(self) -> Any:
        name = read_name(self.cleaned_data["name"])
        if not name.text and not name.unreadable:
            raise ValidationError(gettext("Type the name, or a question mark where it cannot be read."))
        if name.text:
            with_a_letter(name.text)
        return name

    def clean_best_way(self) -> str:
        return str(decoded(lambda typed: read_one(typed, WAYS), self.cleaned_data["best_way"]))

    def clean_can(self) -> Any:
        return decoded(lambda typed: read_letters(typed, PLACES), self.cleaned_data["can"])

    def clean_days(self) -> Any:
        return decoded(lambda typed: read_letters(typed, DAYS), self.cleaned_data["days"])

    def clean_jobs(self) -> Any:
        return decoded(lambda typed: read_letters(typed, JOBS), self.cleaned_data["jobs"])

    def clean_knows_rules(self) -> bool:
        return bool(decoded(read_yes, self.cleaned_data["knows_rules"]))

    def clean_how_often(self) -> str:
        return gettext(read_often(self.cleaned_data["how_often"]))

    def values(self) -> dict[str, Any]:
        """The columns of a helper."""
        said = dict(self.cleaned_data)
        name, places = said.pop("name"), said.pop("can")
        ticks = {place: place in places for place in PLACES.values()}
        return {"name": name.text, "unreadable": name.unreadable, **said, **ticks}

    @property
    def seems_a_child(self) -> bool:
        return room_seems_a_child(self.desk, self.cleaned_data["room"])


class StackForm(DeskForm):
    school = forms.ModelChoiceField(
        label=_("School of these slips"),
        queryset=School._base_manager.all(),
        required=False,
        empty_label=_("several, or not said"),
    )

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        choose_the_only(self, "school")
