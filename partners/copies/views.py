"""Copies of the book: when the last one was made, one of this program to take along, how to restore."""

from __future__ import annotations

from tempfile import TemporaryFile

from django.http import FileResponse, HttpResponse
from django.shortcuts import get_object_or_404, render
from django.utils import timezone
from django.utils.text import slugify
from django.views.decorators.http import require_GET

from partners.copies.form import SUFFIX
from partners.copies.keeping import kept_days
from partners.copies.writing import write_program
from partners.program.access import DeskRequest, keepers
from partners.program.last_copy import last_copy
from partners.school.models import School


@require_GET
@keepers
def copy_list(request: DeskRequest) -> HttpResponse:
    days = kept_days()
    context = {"last": last_copy(), "kept": len(days), "oldest": min(days, default=None), "day": request.desk.day}
    return render(request, "copies/copy_list.html", {**context, "schools": request.desk.schools.order_by("name", "pk")})


@require_GET
@keepers
def copy_program(request: DeskRequest) -> FileResponse:
    return download(request)


@require_GET
@keepers
def copy_school(request: DeskRequest, pk: int) -> FileResponse:
    """What one school's rows stand on, for its next teacher."""
    return download(request, get_object_or_404(request.desk.schools, pk=pk))


def download(request: DeskRequest, school: School | None = None) -> FileResponse:
    """Written whole before the first byte goes out: whoever reads slowly keeps nobody from writing."""
    desk = request.desk
    file = TemporaryFile()  # noqa: SIM115 -- the answer closes it
    write_program(program=desk.program, school=school, file=file, at=timezone.now())
    file.seek(0)
    name = slugify(school.name if school else desk.program.name) or "program"
    answer = FileResponse(file, as_attachment=True, filename=f"{name}-{desk.day.isoformat()}{SUFFIX}")
    answer.headers["Content-Type"] = "application/octet-stream"
    return answer
