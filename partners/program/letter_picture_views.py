"""The pictures that letters carry: seeing, choosing, taking off. Only keepers, but for a colleague's own signature."""

from __future__ import annotations

from typing import Any

from django import forms
from django.contrib import messages
from django.core.exceptions import PermissionDenied
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from partners.ground.forms import DeskForm
from partners.ground.pictures import is_wide
from partners.ground.said import said
from partners.program import letter_pictures
from partners.program.access import DeskRequest, keepers, teachers
from partners.program.desk import Desk
from partners.program.file_fields import PrintedPictureField
from partners.program.file_models import LetterPicture, LetterUse

WIDE_BUT_BESIDE = gettext_lazy(
    "This picture is very wide, and it is printed small beside the name. If it holds the name and the address itself, "
    "choose “Change it” and tick that."
)


class LetterPictureForm(DeskForm):
    sent = PrintedPictureField()
    alone = forms.BooleanField(
        label=gettext_lazy("The picture holds the name and the address"),
        help_text=gettext_lazy(
            "Then it stands alone, as wide as the letter. Else it stands beside the name, which is printed as text."
        ),
        required=False,
    )

    def __init__(self, *args: Any, use: str, chosen: bool, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        self.use = use
        self.fields["sent"].required = not chosen
        if use == LetterUse.SIGNATURE:
            del self.fields["alone"]

    def clean(self) -> dict[str, Any]:
        if self.use == LetterUse.SIGNATURE and not self.desk.signs.teacher:
            self.add_error(None, _("Write in the settings first whose name stands under letters."))
        return super().clean() or {}


@require_GET
@keepers
def letter_picture_list(request: DeskRequest) -> HttpResponse:
    desk = request.desk
    rows = list(desk.letter_pictures.select_related("file").defer("file__content").order_by("name", "pk"))
    heads = {row.school_id: row for row in rows if row.use == LetterUse.LETTERHEAD}
    others = [row for row in rows if row.use == LetterUse.SIGNATURE and row.name != desk.signs.teacher]
    places = [
        *(
            {
                "about": school or desk.program,
                "school": school,
                "use": LetterUse.LETTERHEAD,
                "row": heads.get(school.pk if school else None),
            }
            for school in (None, *desk.schools.all())
        ),
        signature_place(desk),
        *(signature(row) | {"other": True, "signs": row.name in signing(desk)} for row in others),
    ]
    return render(request, "program/letter_picture_list.html", {"places": places})


def signature_place(desk: Desk) -> dict[str, Any]:
    """The signature of who is at the desk."""
    return signature(letter_pictures.stored(desk, LetterUse.SIGNATURE))


def signature(row: LetterPicture | None) -> dict[str, Any]:
    return {"about": _("Signature"), "use": LetterUse.SIGNATURE, "row": row}


def own_place(desk: Desk) -> dict[str, Any] | None:
    """None for who signs under no name of their own, or under one whose signature somebody else chose."""
    place = signature_place(desk) if desk.signer else None
    return place if place is None or place["row"] is None or is_theirs(desk, place["row"]) else None


def signing(desk: Desk) -> set[str]:
    """Under whose names letters go out now."""
    return {desk.program.teacher, *desk.memberships.values_list("signs_as", flat=True)}


def back(desk: Desk) -> str:
    return reverse("program:letter-picture-list" if desk.keeps else "program:own-name")


@require_http_methods(["GET", "POST"])
@teachers
def letter_picture_choose(request: DeskRequest, use: str, pk: int) -> HttpResponse:
    """`pk` is a school's number; 0 is the program."""
    if use not in LetterUse.values or (pk and use == LetterUse.SIGNATURE):
        raise Http404
    if not letter_pictures.may_choose(request.desk, use):
        raise PermissionDenied
    school = get_object_or_404(request.desk.schools, pk=pk) if pk else None
    row = letter_pictures.stored(request.desk, use, school)
    if row is not None and not is_theirs(request.desk, row):
        raise PermissionDenied
    first = {"alone": row.alone} if row else {}
    form = LetterPictureForm(
        request.POST or None, request.FILES or None, desk=request.desk, use=use, chosen=row is not None, initial=first
    )
    if request.method == "POST" and form.is_valid():
        typed = form.cleaned_data
        letter_pictures.choose(
            desk=request.desk, use=use, school=school, made=typed["sent"], alone=typed.get("alone", False)
        )
        said(request, _("The picture is kept. Letters that are printed from now on carry it."))
        if typed["sent"] and not typed.get("alone", True) and is_wide(typed["sent"].content):
            messages.info(request, WIDE_BUT_BESIDE)
        return redirect(back(request.desk))
    context = {"form": form, "school": school, "use": LetterUse(use), "row": row, "back": back(request.desk)}
    return render(request, "program/letter_picture_form.html", context)


def picture_at(desk: Desk, pk: int) -> LetterPicture:
    """PermissionDenied where it is not for the person."""
    row: LetterPicture = get_object_or_404(desk.letter_pictures.select_related("file"), pk=pk)
    if not is_theirs(desk, row):
        raise PermissionDenied
    return row


def is_theirs(desk: Desk, row: LetterPicture) -> bool:
    return letter_pictures.is_theirs(desk, row.use, row.name, row.created_by_id)


@require_POST
@teachers
def letter_picture_remove(request: DeskRequest, pk: int) -> HttpResponse:
    row = picture_at(request.desk, pk)
    letter_pictures.take_off(desk=request.desk, picture=row)
    said(request, _("Letters do not carry it any more."))
    return redirect(back(request.desk))


@require_GET
@teachers
def letter_picture(request: DeskRequest, pk: int) -> HttpResponse:
    """The bytes, in the page of the settings and nowhere else; on sheets the picture is part of the sheet."""
    row = picture_at(request.desk, pk)
    answer = HttpResponse(bytes(row.file.content), content_type="image/jpeg")
    answer["Content-Disposition"] = f'inline; filename="{row.use}-{pk}.jpg"'
    answer["X-Content-Type-Options"] = "nosniff"
    answer["Cache-Control"] = "private, no-store"
    return answer
