"""Files that calendar programs open, and the address from which they fetch a feed."""

from __future__ import annotations

from csp.decorators import csp_exempt
from django.contrib import messages
from django.contrib.auth.decorators import login_not_required
from django.core.cache import cache
from django.http import Http404, HttpRequest, HttpResponse
from django.http.response import HttpResponseBase
from django.shortcuts import get_object_or_404, redirect, render
from django.urls import reverse
from django.utils.cache import get_conditional_response, patch_cache_control, set_response_etag
from django.utils.translation import gettext as _
from django.views.decorators.cache import never_cache
from django.views.decorators.http import require_GET, require_POST, require_safe

from outreach.feeds import secret_address
from outreach.feeds.calendar import calendar_file
from outreach.gathering.calendar_feed import feed_days
from outreach.gathering.free_day import calendar_day
from partners.ground.said import said
from partners.program.access import DeskRequest, readers, teachers
from partners.program.actions import calendar_off, renew_calendar
from partners.program.desk import Desk
from partners.program.middleware import desk_of
from partners.program.models import Membership, Opened

CALENDAR = "text/calendar; charset=utf-8"
# A calendar program asks a few times a day.
MOST_A_MINUTE = 20
HERE_ALONE = ("localhost", "127.0.0.1", "[::1]")


@csp_exempt()
@require_GET
@readers(Opened.MONEY)
def occasion_calendar(request: DeskRequest, pk: int) -> HttpResponse:
    """A free day that comes again, for the person's own calendar."""
    occasion = get_object_or_404(request.desk.occasions.select_related("partner"), pk=pk)
    if occasion.next_on is None:
        messages.info(request, _("It does not come again, so there is nothing to put into a calendar."))
        return redirect(occasion)
    answer = HttpResponse(calendar_file(calendar_day(request.desk, occasion)), content_type=CALENDAR)
    answer["Content-Disposition"] = f'attachment; filename="free-day-{pk}.ics"'
    return answer


def own(desk: Desk) -> Membership:
    member: Membership = get_object_or_404(desk.memberships.select_related("user"), user=desk.user)
    return member


@never_cache
@require_GET
@teachers
def your_calendar(request: DeskRequest) -> HttpResponse:
    """The secret address, what it gives away, and how to make a new one."""
    member = own(request.desk)
    address = ""
    if member.has_calendar:
        secret = secret_address.written(member.pk, member.calendar_turn)
        address = request.build_absolute_uri(reverse("outreach:calendar-feed", args=[secret]))
    host = request.get_host()
    context = {
        "member": member,
        "address": address,
        # What programs that subscribe are opened by, in common practice.
        "subscribe": f"webcal:{address.partition(':')[2]}",
        "here_alone": any(host == name or host.startswith(f"{name}:") for name in HERE_ALONE),
    }
    return render(request, "outreach/your_calendar.html", context)


@require_POST
@teachers
def calendar_renew(request: DeskRequest) -> HttpResponse:
    member = own(request.desk)
    first = not member.has_calendar
    renew_calendar(desk=request.desk, member=member)
    words = _("Your calendar has an address.") if first else _("A new address is made. The one before leads nowhere.")
    said(request, words)
    return redirect("outreach:your-calendar")


@require_POST
@teachers
def calendar_end(request: DeskRequest) -> HttpResponse:
    member = own(request.desk)
    if member.has_calendar:
        calendar_off(desk=request.desk, member=member)
        said(request, _("Your calendar has no address any more."))
    else:
        messages.info(request, _("It stands so already. Nothing was changed."))
    return redirect("outreach:your-calendar")


@login_not_required
@csp_exempt()  # type: ignore[arg-type]
@require_safe
def calendar_feed(request: HttpRequest, secret: str) -> HttpResponseBase:
    """For a calendar program, which cannot sign in: whoever has the address reads it."""
    member = member_of(secret)
    asked = f"calendar-{member.pk}" if member else f"calendar-from-{request.META.get('REMOTE_ADDR', '')}"
    if too_often(asked):
        return HttpResponse(_("Too often. Ask again in a minute."), status=429, headers={"Retry-After": "60"})
    if member is None:
        raise Http404
    desk = desk_of(member, member.user)
    answer = HttpResponse(calendar_file(*feed_days(desk), name=desk.program.name), content_type=CALENDAR)
    answer["Content-Disposition"] = 'inline; filename="calendar.ics"'
    answer["X-Robots-Tag"] = "noindex"
    patch_cache_control(answer, private=True)
    set_response_etag(answer)
    return get_conditional_response(request, etag=answer["ETag"], response=answer) or answer


def member_of(secret: str) -> Membership | None:
    """Whose address it is; None for one that was renewed, or ended, or never made, or of who may no longer sign in."""
    member, turn = secret_address.read(secret) or (0, 0)
    if turn % 2 == 0:
        return None
    rows = Membership.objects.filter(pk=member, calendar_turn=turn, user__is_active=True)
    return rows.select_related("program", "user").first()


def too_often(key: str) -> bool:
    cache.add(key, 0, timeout=60)
    try:
        return cache.incr(key) > MOST_A_MINUTE
    except ValueError:
        # It ran out between the two lines.
        return False
