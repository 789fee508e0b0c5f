"""Taking a change back."""

from __future__ import annotations

from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_POST

from partners.ground.changes import CannotUndo, undo
from partners.ground.returning import safe_return
from partners.program.access import DeskRequest, teachers


@require_POST
@teachers
def change_undo(request: DeskRequest, pk: int) -> HttpResponse:
    event = get_object_or_404(request.desk.program.events, pk=pk)
    try:
        undo(request.desk, event)
    except CannotUndo as reason:
        messages.warning(request, str(reason))
    else:
        messages.success(request, _("Taken back: %(what)s") % {"what": event})
    return redirect(safe_return(request))
