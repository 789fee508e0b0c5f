"""A partner's page, search, and the history of changes."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlsplit

from django.contrib import messages
from django.core.paginator import Paginator
from django.db.models import QuerySet
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_POST
from django_tables2.paginators import LazyPaginator  # type: ignore[import-untyped]

from partners.agenda.actions import take_back
from partners.asking.who_asks import plans_of_others
from partners.directory.moved import partner_at
from partners.exchanges.like_that import last_with
from partners.ground.models import Event
from partners.ground.returning import safe_return
from partners.ground.taken_back import stands_on
from partners.ground.undo import CannotUndo
from partners.program.access import DeskRequest, readers, teachers
from partners.program.desk import row_names
from partners.program.models import Opened
from partners.story import partner_page
from partners.story.find import find
from partners.story.history import events_about, events_of, events_seen
from partners.story.rooms import told as told_story
from partners.story.told_change import told

LINES_A_PAGE, LATELY = 60, 6
STEPS_AT_ONCE = 5
NAMESAKES = 3
CHANGES_A_PAGE = 50
# What only keepers see has no history of its own for others; it stands among all changes. Bytes have no page.
PAGED = {
    str(model._meta.model_name): name
    for name, model in row_names().items()
    if name not in ("memberships", "invitations", "attachments", "kept_files", "sheets")
}


@require_GET
@readers(Opened.PARTNERS)
def partner_detail(request: DeskRequest, pk: int) -> HttpResponse:
    """What is next, then the whole story."""
    desk = request.desk
    partner = partner_at(desk, pk)
    people = list(desk.contacts.filter(partner=partner))
    steps = partner_page.next_steps(desk, partner) if desk.writes else []
    lines = [line for line in told_story(desk, partner) if not (line.open and line.side)]
    story = Paginator(lines, LINES_A_PAGE).get_page(request.GET.get("page"))
    context = {
        "partner": partner,
        "people": [person for person in people if person.left_on is None],
        "left": [person for person in people if person.left_on is not None],
        "decider": any(person.decides and person.left_on is None for person in people),
        "steps": steps[:STEPS_AT_ONCE],
        "later_steps": steps[STEPS_AT_ONCE:],
        "last_word": next((step.last_word for step in steps if step.last_word), ""),
        "sides": {} if desk.writes else partner_page.promises(desk, partner),
        "answers": partner_page.answers(desk, partner),
        "plans": plans_of_others(desk, partner) if desk.writes else (),
        "last_trade": last_with(desk, partner.pk) if desk.writes else None,
        "busy": partner_page.busy_times(desk, partner),
        "address": partner_page.address_lines(partner),
        "web": partner_page.web_link(partner),
        "lead_words": partner_page.lead_words(partner),
        "standing_about": f"?partner={partner.pk}",
        "story": story,
        "lately": list(story)[:LATELY],
        "earlier": list(story)[LATELY:],
        "resting": partner.rests_on(desk.day),
        "namesakes": desk.partners.filter(name_key=partner.name_key).exclude(pk=partner.pk)[:NAMESAKES],
    }
    return render(request, "directory/partner_detail.html", context)


@require_GET
@readers(Opened.PARTNERS)
def search(request: DeskRequest) -> HttpResponse:
    typed = request.GET.get("q", "").strip()[:120]
    return render(request, "story/search.html", {"typed": typed, "groups": find(request.desk, typed)})


@require_GET
@teachers
def history(request: DeskRequest) -> HttpResponse:
    return changes(request, events_seen(request.desk), {})


@require_GET
@teachers
def partner_history(request: DeskRequest, pk: int) -> HttpResponse:
    partner = partner_at(request.desk, pk)
    return changes(request, events_of(request.desk, partner), {"partner": partner})


@require_GET
@teachers
def row_history(request: DeskRequest, slug: str, pk: int) -> HttpResponse:
    """Changes of one row of any kind but of those that only keepers see."""
    name = PAGED.get(slug)
    if name is None:
        raise Http404
    row = get_object_or_404(getattr(request.desk, name), pk=pk)
    return changes(request, events_about(request.desk, row), {"row": row})


@require_GET
@teachers
def change_detail(request: DeskRequest, pk: int) -> HttpResponse:
    """Field by field what one change did, and whether it can be taken back."""
    event = get_object_or_404(events_seen(request.desk), pk=pk)
    rows, more = told(request.desk, event)
    context = {"event": event, "rows": rows, "more": more, "later": newer(request, event)}
    return render(request, "story/change.html", context)


def newer(request: DeskRequest, event: Event) -> Event | None:
    """The change that stands in the way of taking this one back, where the person may see it."""
    later = None if hasattr(event, "undone_by") or event.is_scrubbed else stands_on(event)
    seen = later is not None and events_seen(request.desk).filter(pk=later.pk).exists()
    return later if seen else None


def changes(request: DeskRequest, events: QuerySet[Event], context: dict[str, Any]) -> HttpResponse:
    """A page of changes, which nobody counts."""
    page = LazyPaginator(events, CHANGES_A_PAGE).get_page(request.GET.get("page"))
    return render(request, "story/history.html", {"page": page, **context})


@require_POST
@teachers
def change_undo(request: DeskRequest, pk: int) -> HttpResponse:
    event = get_object_or_404(events_seen(request.desk), pk=pk)
    about = event.about()
    page = about.get_absolute_url() if hasattr(about, "get_absolute_url") else ""
    # Asked before: an undo that is refused leaves its own event on this one.
    is_undone = hasattr(event, "undone_by")
    try:
        made = take_back(desk=request.desk, event=event)
    except CannotUndo as reason:
        later = None if is_undone else newer(request, get_object_or_404(events_seen(request.desk), pk=pk))
        words = _("%(reason)s What stands on it: %(later)s.") if later else "%(reason)s"
        messages.warning(request, words % {"reason": reason, "later": later})
    else:
        messages.success(request, str(made))
    return redirect(where_to(request, event, page))


def where_to(request: DeskRequest, event: Event, page: str) -> str:
    """Where the person came from; not to the page of a row that went with the change."""
    back = safe_return(request)
    is_gone = page and urlsplit(back).path == page and event.about() is None
    return "agenda:today" if is_gone else back
