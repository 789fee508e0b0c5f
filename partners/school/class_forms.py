"""Forms of classes: one class, a list out of a spreadsheet, lessons that are lost."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.translation import gettext_lazy as _

from partners.ground.forms import DeskForm, RowForm, RowsField
from partners.school.class_cells import MOST_STUDENTS, read_grade
from partners.school.class_words import day_choices, grade_choices
from partners.school.count_models import ClassCount
from partners.school.models import LostLesson, School, SchoolClass, monday_to_friday

LONGEST_PASTE = 1_000_000
LONGEST_LOSS = 120
# Of one school in one year.
MOST_CLASSES = 1000


class ClassForm(RowForm):
    """A class of the school that its instance names."""

    grade = forms.TypedChoiceField(label=_("Grade"), coerce=int)
    students = forms.IntegerField(label=_("Students"), min_value=0, max_value=MOST_STUDENTS)
    meets_on = forms.TypedMultipleChoiceField(
        label=_("Has art on"),
        coerce=int,
        required=False,
        widget=forms.CheckboxSelectMultiple(attrs={"class": "chips"}),
        help_text=_("Needed when a trade is planned: it says by when the class has to start."),
    )

    class Meta:
        model = SchoolClass
        fields = ["label", "grade", "students", "meets_on", "minutes"]
        labels = {"label": _("Class")}
        help_texts = {"label": _("As the school calls it, for example 4-A.")}
        widgets = {"label": forms.TextInput(attrs={"class": "short"})}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        grade: Any = self.fields["grade"]
        grade.choices = [("", "–"), *grade_choices()]
        school = self.instance.school if self.instance.school_id else School(weekdays=monday_to_friday())
        days: Any = self.fields["meets_on"]
        days.choices = day_choices(school.weekdays, school.cycle_length)
        if school.cycle_length:
            days.label = _("Has art on these days of the cycle")


class CountForm(RowForm):
    """How many there were in a past school year; the summary of that year tells it."""

    classes = forms.IntegerField(label=_("Classes"), min_value=1, max_value=MOST_CLASSES)
    students = forms.IntegerField(label=_("Students in all"), min_value=0, max_value=MOST_CLASSES * MOST_STUDENTS)

    class Meta:
        model = ClassCount
        fields = ["classes", "students"]


class PasteForm(DeskForm):
    """Rows of a spreadsheet. `looked_at` is the mark of the text that was last shown as a list."""

    rows = forms.CharField(
        label=_("Rows out of your spreadsheet"),
        max_length=LONGEST_PASTE,
        strip=False,
        widget=forms.Textarea(attrs={"rows": 12, "spellcheck": "false", "autocomplete": "off", "wrap": "off"}),
        error_messages={"required": _("Paste the rows here first.")},
    )
    looked_at = forms.CharField(required=False, max_length=64, widget=forms.HiddenInput)
    gone = RowsField(
        label=_("Take out what is gone"),
        queryset=SchoolClass.objects.all(),
        required=False,
        widget=forms.CheckboxSelectMultiple(attrs={"class": "chips"}),
        help_text=_("They stand in the book and not in this list. What is not ticked stays and counts."),
    )


class LostLessonForm(RowForm):
    """Days on which a school is open and some of its classes, or all, have no art."""

    whom = forms.ChoiceField(label=_("Which classes"), required=False)
    last = forms.DateField(label=_("Last day"), required=False, help_text=_("Empty: one day only."))

    class Meta:
        model = LostLesson
        fields = ["title", "first", "last"]

    field_order = ["title", "first", "last", "whom"]

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        classes = list(self.instance.school.classes.order_by("grade", "label")) if self.instance.school_id else []
        self.by_key: dict[str, SchoolClass] = {f"class-{row.pk}": row for row in classes}
        known = {row.grade for row in classes}
        grades = [(f"grade-{grade}", words) for grade, words in grade_choices() if grade in known]
        whom: Any = self.fields["whom"]
        whom.choices = [
            ("", _("all classes of the school")),
            (_("A grade"), grades),
            (_("One class"), [(key, row.label) for key, row in self.by_key.items()]),
        ]

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        first, last = values.get("first"), values.get("last")
        if first and not last and "last" not in self.errors:
            values["last"] = self.instance.last = first
        elif first and last and (last - first).days > LONGEST_LOSS:
            self.add_error("last", _("That is more than four months. Is the day typed right?"))
        return values

    def values(self) -> dict[str, Any]:
        whom = self.cleaned_data["whom"]
        grade = read_grade(whom.removeprefix("grade-")) if whom.startswith("grade-") else None
        return {**super().values(), "school_class": self.by_key.get(whom), "grade": grade}
