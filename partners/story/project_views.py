"""Projects: the list, one project's page, its classes and parts, and what it became. Joins the school room's names."""

from __future__ import annotations

from typing import Any

from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from partners.ground.changes import change
from partners.ground.said import said
from partners.program.access import DeskRequest, readers, teachers
from partners.program.models import Opened
from partners.school import project_actions as actions
from partners.school.project_models import Project, ProjectPart
from partners.story.project_forms import BecameForm, PartForm, ProjectClassesForm, ProjectForm
from partners.story.project_page import context


@require_GET
@readers(Opened.PROJECTS)
def project_list(request: DeskRequest) -> HttpResponse:
    projects = request.desk.projects.select_related("school", "colleague").order_by("-ends_on", "title", "pk")
    return render(request, "school/project_list.html", {"projects": projects})


@require_GET
@readers(Opened.PROJECTS)
def project_detail(request: DeskRequest, pk: int) -> HttpResponse:
    project = get_object_or_404(request.desk.projects.select_related("school", "colleague"), pk=pk)
    return render(request, "school/project_detail.html", context(request.desk, project))


@require_http_methods(["GET", "POST"])
@teachers
def project_new(request: DeskRequest) -> HttpResponse:
    form = ProjectForm(request.POST or None, desk=request.desk, instance=Project())
    if request.method == "POST" and form.is_valid():
        with change(request.desk, gettext_noop("Project %(title)s added"), title=form.cleaned_data["title"]) as book:
            project = actions.add_project(desk=request.desk, **form.save_colleague())
            book.about(project)
        said(request, _("Project saved. Next: its classes, and who brings and teaches what."))
        return redirect(project)
    return render(request, "school/project_form.html", {"form": form, "heading": _("A new project")})


@require_http_methods(["GET", "POST"])
@teachers
def project_edit(request: DeskRequest, pk: int) -> HttpResponse:
    project = get_object_or_404(request.desk.projects, pk=pk)
    called = project.title
    form = ProjectForm(
        request.POST or None, desk=request.desk, instance=project, initial={"colleague": project.colleague}
    )
    if request.method == "POST" and form.is_valid():
        with change(request.desk, gettext_noop("Project %(title)s changed"), title=called) as book:
            values = form.save_colleague()
            actions.edit_project(desk=request.desk, project=project, seen=form.version_seen, **values)
            book.about(project)
        said(request, _("Saved."))
        return redirect(project)
    return render(request, "school/project_form.html", {"form": form, "heading": called, "back": project})


@require_http_methods(["GET", "POST"])
@teachers
def project_classes(request: DeskRequest, pk: int) -> HttpResponse:
    project = get_object_or_404(request.desk.projects, pk=pk)
    form = ProjectClassesForm(request.POST or None, desk=request.desk, project=project)
    if request.POST.get("tick"):
        form = ProjectClassesForm(form.ticked(request.POST["tick"]), desk=request.desk, project=project)
    elif request.method == "POST" and form.is_valid():
        actions.choose_classes(desk=request.desk, project=project, classes=form.taking_part())
        said(request, _("The classes are chosen."))
        return redirect(project)
    return render(
        request,
        "school/project_classes.html",
        {"form": form, "project": project, "leave_url": project.get_absolute_url()},
    )


@require_http_methods(["GET", "POST"])
@teachers
def project_part_new(request: DeskRequest, pk: int) -> HttpResponse:
    project = get_object_or_404(request.desk.projects, pk=pk)
    form = PartForm(request.POST or None, desk=request.desk, instance=ProjectPart(project=project))
    if request.method == "POST" and form.is_valid():
        actions.add_part(desk=request.desk, project=project, **form.values())
        said(request, _("Added."))
        return redirect(project)
    return part_page(request, form, project, _("Who brings or teaches what?"))


@require_http_methods(["GET", "POST"])
@teachers
def project_part_edit(request: DeskRequest, pk: int) -> HttpResponse:
    part = get_object_or_404(parts(request), pk=pk)
    called = part.what
    form = PartForm(request.POST or None, desk=request.desk, instance=part)
    if request.method == "POST" and form.is_valid():
        actions.edit_part(desk=request.desk, part=part, seen=form.version_seen, **form.values())
        said(request, _("Saved."))
        return redirect(part.project)
    return part_page(request, form, part.project, called, part=part)


def parts(request: DeskRequest) -> Any:
    """Parts of the projects that the person sees."""
    return request.desk.project_parts.filter(project__in=request.desk.projects).select_related("project")


def part_page(request: DeskRequest, form: PartForm, project: Project, heading: str, **more: Any) -> HttpResponse:
    return render(request, "school/project_part.html", {"form": form, "project": project, "heading": heading, **more})


@require_POST
@teachers
def project_part_done(request: DeskRequest, pk: int) -> HttpResponse:
    part = get_object_or_404(parts(request), pk=pk)
    if request.POST.get("done") == "no":
        actions.part_open_again(desk=request.desk, part=part)
        said(request, _("Not done yet: %(what)s.") % {"what": part.what})
    else:
        actions.part_done(desk=request.desk, part=part, day=request.desk.day)
        said(request, _("Done: %(what)s.") % {"what": part.what})
    return redirect(part.project)


@require_POST
@teachers
def project_part_remove(request: DeskRequest, pk: int) -> HttpResponse:
    part = get_object_or_404(parts(request), pk=pk)
    actions.remove_part(desk=request.desk, part=part)
    said(request, _("Taken out: %(what)s.") % {"what": part.what})
    return redirect(part.project)


@require_http_methods(["GET", "POST"])
@teachers
def project_became(request: DeskRequest, pk: int) -> HttpResponse:
    project = get_object_or_404(request.desk.projects, pk=pk)
    form = BecameForm(request.POST or None, desk=request.desk, instance=project)
    if request.method == "POST" and form.is_valid():
        actions.say_became(desk=request.desk, project=project, seen=form.version_seen, **form.values())
        said(request, _("Said. Letters of thanks and reports use it from now on."))
        return redirect(project)
    return render(request, "school/project_became.html", {"form": form, "project": project})


@require_POST
@teachers
def project_nothing(request: DeskRequest, pk: int) -> HttpResponse:
    project = get_object_or_404(request.desk.projects, pk=pk)
    actions.nothing_to_tell(desk=request.desk, project=project)
    said(request, _("Closed without a sentence."))
    return redirect(project)
