"""Promises of both sides, standing offers, and how each ends."""

from __future__ import annotations

from collections.abc import Callable
from typing import Any

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import get_object_or_404, redirect, render
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from partners.ground.plain import PlainError
from partners.ground.returning import safe_return
from partners.ground.said import said
from partners.program.access import DeskRequest, readers, teachers
from partners.program.models import Opened
from partners.promises import actions
from partners.promises.forms import HandOverForm, MoveForm, OfferForm, PromiseForm
from partners.promises.models import Part, Promise, Settled, Side

WITH = ("partner", "school", "need", "offer", "ask", "trade")
# The plan of a trade is counted back from these, so they are changed on its own page.
OF_PLAN = (Part.MAKE, Part.PLAIN)


@require_GET
@readers(Opened.GIFTS)
def promise_detail(request: DeskRequest, pk: int) -> HttpResponse:
    promise = get_object_or_404(request.desk.promises.select_related(*WITH), pk=pk)
    if promise.part in OF_PLAN:
        return redirect(promise)
    return render(request, "promises/promise_detail.html", shown(request, promise))


def rows(request: DeskRequest) -> Any:
    return request.desk.promises.exclude(part__in=OF_PLAN).select_related(*WITH)


def shown(request: DeskRequest, promise: Promise, **forms: Any) -> dict[str, Any]:
    """What the page of a promise says and offers; `forms` are those that were sent and did not hold."""
    desk = request.desk
    thanks = desk.thanks.owed().filter(promise=promise).first() if desk.writes else None
    move = MoveForm(desk=desk, initial={"seen": promise.version})
    hand_over = HandOverForm(desk=desk, initial={"quantity": promise.missing})
    return {
        "promise": promise,
        "deliveries": promise.deliveries.select_related("gift_line__gift"),
        "thanks": thanks,
        "is_open": promise.settled_on is None,
        "is_theirs": promise.side == Side.THEM,
        "is_past": promise.settled_on is None and promise.due < desk.day,
        "never_came": promise.settled_how == Settled.NEVER_CAME,
        "stands": promise.offer is not None and promise.offer.every and promise.offer.ended_on is None,
        "move": move,
        "hand_over": hand_over,
        **forms,
    }


@require_http_methods(["GET", "POST"])
@teachers
def promise_new(request: DeskRequest) -> HttpResponse:
    form = PromiseForm(request.POST or None, desk=request.desk, initial=given(request) | {"made_on": request.desk.day})
    if request.method == "POST" and form.is_valid():
        promise = actions.promise(desk=request.desk, **form.values())
        said(request, _("Promise with %(partner)s written down.") % {"partner": promise.partner})
        return redirect(promise)
    return render(request, "promises/promise_form.html", {"form": form})


def given(request: DeskRequest) -> dict[str, Any]:
    """What the address says: the partner whose page the person comes from, and whose promise it is."""
    side = request.GET.get("side", "")
    return {"partner": request.GET.get("partner", ""), "side": side if side in Side.values else Side.THEM}


@require_POST
@teachers
def promise_settle(request: DeskRequest, pk: int, act: str) -> HttpResponse:
    """Close an open promise in the way the button says."""
    promise = get_object_or_404(rows(request), pk=pk)
    if act not in ENDINGS or (act == "skip" and promise.turn is None):
        raise Http404
    if promise.settled_on is not None:
        messages.info(request, _("That is settled already."))
        return redirect(promise)
    verb, words = ENDINGS[act]
    try:
        verb(desk=request.desk, promise=promise, day=request.desk.day)
    except PlainError as error:
        messages.warning(request, _(error.sentence) % error.facts)
    else:
        said(request, words() % {"what": promise, "partner": promise.partner})
    return redirect(promise)


ENDINGS: dict[str, tuple[Callable[..., Any], Callable[[], str]]] = {
    "that-was-all": (actions.that_was_all, lambda: _("That was all of %(what)s. Nothing more is waited for.")),
    "never-came": (actions.never_came, lambda: _("Closed: %(what)s. Things change; %(partner)s stays a partner.")),
    "skip": (actions.skip, lambda: _("Skipped this time: %(what)s.")),
}


@require_POST
@teachers
def promise_move(request: DeskRequest, pk: int) -> HttpResponse:
    promise = get_object_or_404(rows(request), pk=pk, settled_on=None)
    form = MoveForm(request.POST, desk=request.desk)
    if not form.is_valid():
        context = shown(request, promise, move=form, form=form)
        return render(request, "promises/promise_detail.html", context)
    due, seen = form.cleaned_data["due"], form.cleaned_data["seen"]
    actions.move_promise(desk=request.desk, promise=promise, due=due, seen=seen)
    said(request, _("%(what)s is moved.") % {"what": promise})
    return redirect(safe_return(request) if request.POST.get("next") else promise)


@require_POST
@teachers
def promise_hand_over(request: DeskRequest, pk: int) -> HttpResponse:
    """We brought what we promised, or a part of it; what they bring is written down as a gift."""
    promise = get_object_or_404(rows(request), pk=pk, side=Side.US, settled_on=None)
    form = HandOverForm(request.POST, desk=request.desk)
    if not form.is_valid():
        context = shown(request, promise, hand_over=form, form=form)
        return render(request, "promises/promise_detail.html", context)
    part = "part" in request.POST
    actions.deliver(desk=request.desk, promise=promise, day=request.desk.day, part=part, **form.cleaned_data)
    said(request, _("%(what)s handed over to %(partner)s.") % {"what": promise, "partner": promise.partner})
    return redirect(promise)


@require_http_methods(["GET", "POST"])
@teachers
def offer_new(request: DeskRequest) -> HttpResponse:
    form = OfferForm(request.POST or None, desk=request.desk, initial={"partner": request.GET.get("partner", "")})
    if request.method == "POST" and form.is_valid():
        offer = actions.make_offer(desk=request.desk, hour=form.cleaned_data["hour"], **form.values())
        said(request, _("Offer of %(partner)s written down.") % {"partner": offer.partner})
        return redirect(request.desk.promises.get(offer=offer))
    return render(request, "promises/offer_form.html", {"form": form})


@require_POST
@teachers
def offer_end(request: DeskRequest, pk: int) -> HttpResponse:
    """No more of a standing offer; thanks to who gave it are another thing."""
    offer = get_object_or_404(request.desk.offers.select_related("partner"), pk=pk)
    if offer.ended_on is not None:
        messages.info(request, _("That is settled already."))
    else:
        actions.end_offer(desk=request.desk, offer=offer, day=request.desk.day)
        said(request, _("The offer of %(what)s is ended.") % {"what": offer})
    last = request.desk.promises.filter(offer=offer).order_by("-due", "-pk").first()
    return redirect(last or offer.partner)
