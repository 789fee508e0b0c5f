"""Files that calendar programs open."""

from __future__ import annotations

from csp.decorators import csp_exempt
from django.contrib import messages
from django.http import HttpResponse
from django.shortcuts import get_object_or_404, redirect
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET

from outreach.feeds.calendar import calendar_file
from outreach.gathering.free_day import calendar_day
from partners.program.access import DeskRequest, readers
from partners.program.models import Opened


@csp_exempt()
@require_GET
@readers(Opened.MONEY)
def occasion_calendar(request: DeskRequest, pk: int) -> HttpResponse:
    """A free day that comes again, for the person's own calendar."""
    occasion = get_object_or_404(request.desk.occasions.select_related("partner"), pk=pk)
    if occasion.next_on is None:
        messages.info(request, _("It does not come again, so there is nothing to put into a calendar."))
        return redirect(occasion)
    answer = HttpResponse(
        calendar_file(calendar_day(request.desk, occasion)), content_type="text/calendar; charset=utf-8"
    )
    answer["Content-Disposition"] = f'attachment; filename="free-day-{pk}.ics"'
    return answer
