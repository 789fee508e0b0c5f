"""Files: lists that are read in, and the whole book written out."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any
from uuid import uuid4

from django.contrib import messages
from django.http import HttpResponse, HttpResponseBase, StreamingHttpResponse
from django.shortcuts import redirect, render
from django.template.loader import render_to_string
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods

from partners.agenda.calendar_views import told
from partners.ground.changes import AlreadySaved
from partners.ground.plain import PlainError
from partners.ground.said import said
from partners.program.access import DeskRequest, teachers
from partners.story.export_all import one_json, one_xlsx, zip_of_csv
from partners.story.import_actions import import_rows, import_steps
from partners.story.import_form import DONE, OWED, ImportForm
from partners.story.import_page import LONG, context_of, saved_words, sentence
from partners.story.kinds import KINDS
from partners.story.plan_file import plan_file
from partners.story.planned import Becomes, Plan

LISTS = {
    "partners": "directory:partner-list", "contacts": "directory:partner-list", "classes": "school:school-list",
    "gifts": "gifts:gift-list", "visits": "directory:partner-list",
}  # fmt: skip


@require_GET
@teachers
def file_list(request: DeskRequest) -> HttpResponse:
    """Everything that goes in and out by file."""
    return render(request, "story/files.html", {"kinds": [(kind.slug, kind) for kind in KINDS.values()]})


@require_http_methods(["GET", "POST"])
@teachers
def file_import(request: DeskRequest) -> HttpResponseBase:
    """First shows what each row would do; saves when that was looked at and all of it is right."""
    initial = {"kind": request.GET.get("kind", "partners"), "settled": OWED}
    form = ImportForm(request.POST or None, request.FILES or None, desk=request.desk, initial=initial)
    context: dict[str, Any] = {"form": form}
    if request.method == "POST" and form.is_valid() and form.table is not None:
        looked_at = form.cleaned_data["looked_at"] == form.mark() and "look" not in request.POST
        if looked_at and len(form.table.rows) > LONG:
            return running(request, form)
        plan = planned(request, form)
        if plan.is_right and looked_at:
            saved = save(request, form, plan)
            if saved is not None:
                return saved
        context |= {"table": form.table, "columns": form.columns(), **context_of(plan)}
        form.data = form.shown_again()
    return render(request, "story/import.html", context)


def planned(request: DeskRequest, form: ImportForm) -> Plan:
    kind, table = form.cleaned_data["kind"], form.table
    rows = table.rows if table else []
    return plan_file(desk=request.desk, kind=kind, rows=rows, chosen=form.chosen, head=form.has_head)


def save(request: DeskRequest, form: ImportForm, plan: Plan) -> HttpResponseBase | None:
    """None where the book refuses, and then the form says why."""
    todo = plan.count(Becomes.NEW, Becomes.CHANGED)
    settled = form.cleaned_data["settled"] == DONE
    if not todo:
        messages.info(request, saved_words(plan))
        return redirect(LISTS[plan.kind])
    done = told(form, lambda: import_rows(desk=request.desk, plan=plan, settled=settled))
    if not done:
        return None
    said(request, saved_words(plan))
    return redirect(LISTS[plan.kind])


def running(request: DeskRequest, form: ImportForm) -> StreamingHttpResponse:
    """A page that is sent while the rows are written. Whoever leaves it before its end has saved nothing."""
    here = uuid4().hex
    before, behind = render_to_string("story/import_running.html", {"here": here}, request=request).split(here)
    answer = StreamingHttpResponse(lines(request, form, before, behind))
    # Else a proxy in front may hold the lines back until all are there.
    answer.headers["X-Accel-Buffering"] = "no"
    return answer


def lines(request: DeskRequest, form: ImportForm, before: str, behind: str) -> Iterator[str]:
    yield before
    context = {"failed": _("Something went wrong."), "back": LISTS[form.cleaned_data["kind"]]}
    try:
        plan = planned(request, form)
        if plan.is_right:
            yield from steps(request, plan, form.cleaned_data["settled"] == DONE)
            context |= {"failed": "", "words": saved_words(plan)}
        else:
            context["failed"] = _("The book was changed meanwhile, and these rows no longer fit.")
    except PlainError as error:
        context["failed"] = sentence(error)
    except AlreadySaved:
        context["failed"] = _("That was saved already, once.")
    except Exception:
        yield render_to_string("story/_import_end.html", context, request) + behind
        raise
    yield render_to_string("story/_import_end.html", context, request) + behind


def steps(request: DeskRequest, plan: Plan, settled: bool) -> Iterator[str]:
    """A line for each part that is written."""
    todo, done = plan.count(Becomes.NEW, Becomes.CHANGED), 0
    yield how_far(0, todo)
    for part in import_steps(desk=request.desk, plan=plan, settled=settled) if todo else ():
        done += part
        yield how_far(done, todo)


def how_far(done: int, todo: int) -> str:
    return render_to_string(
        "story/_how_far.html", {"done": f"{done:,}", "all": f"{todo:,}", "part": done, "of": max(1, todo)}
    )


def download(chunks: Iterator[bytes], name: str, kind: str) -> StreamingHttpResponse:
    headers = {"Content-Disposition": f'attachment; filename="{name}"'}
    return StreamingHttpResponse(chunks, content_type=kind, headers=headers)


@require_GET
@teachers
def export_csv(request: DeskRequest) -> HttpResponseBase:
    name = f"partner-book-{request.desk.day.isoformat()}.zip"
    return download(zip_of_csv(request.desk), name, "application/zip")


@require_GET
@teachers
def export_xlsx(request: DeskRequest) -> HttpResponseBase:
    name = f"partner-book-{request.desk.day.isoformat()}.xlsx"
    kind = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"
    return download(one_xlsx(request.desk), name, kind)


@require_GET
@teachers
def export_json(request: DeskRequest) -> HttpResponseBase:
    return download(one_json(request.desk), f"partner-book-{request.desk.day.isoformat()}.json", "application/json")
