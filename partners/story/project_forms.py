"""Forms of projects: what it is, which classes, who brings and teaches what, what it became."""

from __future__ import annotations

from typing import Any

from django import forms
from django.utils.text import get_text_list
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.directory.actions import add_partner
from partners.directory.models import PartnerKind
from partners.directory.partner_field import PartnerField
from partners.ground.forms import RowForm, choose_the_only
from partners.school.class_ticks import ClassTicks
from partners.school.class_words import grade_words
from partners.school.models import School
from partners.school.names_hint import names_hinted, words_of
from partners.school.project_models import Project, ProjectPart

MOST = 100_000


class ToldForm(RowForm):
    """With a sentence that others read: where a child's name seems to stand in it, that is asked before it is saved."""

    no_child = forms.BooleanField(label=gettext_lazy("That is no child's name"), required=False)

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.hinted: list[str] = []
        if self.is_bound and "what_it_became" in self.fields:
            self.hinted = names_hinted(self.data.get("what_it_became", ""), known_words(self.desk, self.instance))
        if not self.hinted:
            del self.fields["no_child"]

    def clean(self) -> dict[str, Any]:
        values: dict[str, Any] = super().clean() or self.cleaned_data
        if self.hinted and not values.get("no_child"):
            names = get_text_list([f"“{name}”" for name in self.hinted], _("and"))
            self.add_error(
                "what_it_became",
                _("%(names)s: is that a child's name? Take it out, or tick below that it is none.") % {"names": names},
            )
        return values


def known_words(desk: Any, project: Project) -> set[str]:
    """Words of the names that a sentence about the project may hold."""
    schools = [text for one in School.objects.filter(program=desk.program) for text in (one.name, one.city)]
    colleague = project.colleague.name if project.colleague else ""
    givers = desk.gifts.filter(project=project).values_list("partner__name", flat=True) if project.pk else ()
    own = (desk.program.name, desk.program.teacher, project.title, project.about, project.subject, colleague)
    return words_of(*own, *schools, *(name for name in givers if name))


class ProjectForm(ToldForm):
    colleague = PartnerField(
        label=gettext_lazy("Colleague who shares it"),
        required=False,
        new_allowed=True,
        help_text=gettext_lazy("Empty: it is yours alone. A name that is not in the book yet is added as a colleague."),
    )
    field_order = ("title", "about", "school", "colleague", "subject")

    class Meta:
        model = Project
        fields = [
            "title", "about", "school", "subject", "students", "begins_on", "ends_on", "shown_on", "what_it_became",
            "became_count",
        ]  # fmt: skip
        help_texts = {
            "students": gettext_lazy("Empty: as many as the classes you choose have."),
            "shown_on": gettext_lazy("From when others can see it, in a show or a window."),
        }

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        choose_the_only(self, "school")
        if not self.instance.pk:
            del self.fields["what_it_became"], self.fields["became_count"]
        self.fields["students"].max_value = MOST  # type: ignore[attr-defined]

    def save_colleague(self) -> dict[str, Any]:
        """The values of the form; a colleague who is new is added to the book."""
        values = self.values()
        typed = values.get("colleague")
        if isinstance(typed, str):
            values["colleague"] = add_partner(desk=self.desk, name=typed, kind=PartnerKind.COLLEAGUE)
        return values


class BecameForm(ToldForm):
    class Meta:
        model = Project
        fields = ["what_it_became", "became_count"]
        labels = {"what_it_became": gettext_lazy("In one sentence")}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.fields["what_it_became"].required = True
        self.fields["what_it_became"].widget = forms.Textarea(attrs={"rows": 3, "maxlength": 300})


class PartForm(RowForm):
    class Meta:
        model = ProjectPart
        fields = ["by", "does", "what", "due", "done_on"]
        widgets = {
            "by": forms.RadioSelect(attrs={"class": "chips"}),
            "does": forms.RadioSelect(attrs={"class": "chips"}),
        }
        labels = {"what": gettext_lazy("What")}

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        if not self.instance.pk:
            del self.fields["done_on"]


class ProjectClassesForm(ClassTicks):
    """Those that take part are ticked."""

    def __init__(self, *args: Any, project: Project | None = None, **kwargs: Any) -> None:
        self.project = project
        chosen = set(project.classes.values_list("school_class_id", flat=True)) if project is not None else set()
        super().__init__(*args, standing=chosen, **kwargs)
        for one in self.known:
            label = f"{one.label} · {grade_words(one.grade)} · {one.students}"
            self.fields[f"class-{one.pk}"] = forms.BooleanField(label=label, required=False, initial=one.pk in chosen)

    @property
    def at_school(self) -> int | None:
        return self.project.school_id if self.project is not None else None
