"""Same partner? The likely ones of the whole book, and putting two together."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import Http404, HttpResponse
from django.shortcuts import redirect, render
from django.utils.text import capfirst, get_text_list
from django.utils.translation import gettext as _
from django.views.decorators.http import require_GET, require_http_methods, require_POST

from partners.asking.address import number
from partners.directory.actions import keep_two
from partners.directory.models import Partner
from partners.directory.moved import partner_at
from partners.directory.pairs import likely_pairs
from partners.directory.same_partner import COLUMNS, compared, described_as, likely_partners
from partners.directory.why_same import WORDS
from partners.ground.said import said
from partners.program.access import DeskRequest, teachers
from partners.program.desk import Desk, row_names
from partners.story.merge import merge, people_in_both
from partners.story.merge_form import MergeForm, OtherForm
from partners.story.references import references

SHOWN = 50


@require_GET
@teachers
def same_list(request: DeskRequest) -> HttpResponse:
    """Every two partners that may be one, the likeliest first."""
    desk = request.desk
    said_two = desk.not_same.order_by().values_list("partner_id", "other_id")
    not_same = {(min(two), max(two)) for two in said_two}
    pairs = likely_pairs(described_as(desk.partners.order_by("pk").values_list(*COLUMNS)), not_same)
    numbers = {pk for pair in pairs[:SHOWN] for pk in (pair.first, pair.second)}
    known = desk.partners.order_by().in_bulk(numbers)
    shown = [
        {"first": known[pair.first], "second": known[pair.second], "why": why_words(pair.likely.why)}
        for pair in pairs[:SHOWN]
    ]
    return render(request, "story/same_list.html", {"pairs": shown, "more": len(pairs) - len(shown)})


def why_words(why: Any) -> str:
    return str(get_text_list([str(WORDS[one]) for one in why], _("and")))


@require_http_methods(["GET", "POST"])
@teachers
def partner_merge(request: DeskRequest, pk: int) -> HttpResponse:
    """Which other row it is, then both side by side. This page's row stays, the other one's address leads to it."""
    kept = partner_at(request.desk, pk)
    other = other_of(request, kept)
    if other is None:
        return choose_other(request, kept)
    form = MergeForm(request.POST or None, desk=request.desk, kept=kept, other=other)
    if request.method == "POST" and form.is_valid():
        names = {"partner": kept.name, "other": other.name}
        versions = {name: form.cleaned_data[name] for name in ("seen", "other_seen")}
        merge(desk=request.desk, kept=kept, other=other, choices=form.choices(), **versions)
        said(request, _("%(partner)s and %(other)s are one now.") % names)
        return redirect(kept)
    context = {"form": form, "partner": kept, "other": other, "moves": moves(request.desk, other)}
    context["people"] = [there for _here, there, _lacking in people_in_both(kept, other)]
    return render(request, "story/partner_merge.html", context)


@require_POST
@teachers
def partner_two(request: DeskRequest, pk: int) -> HttpResponse:
    """They are two: the pair is not shown again."""
    partner = partner_at(request.desk, pk)
    other = other_of(request, partner)
    if other is None:
        raise Http404
    keep_two(desk=request.desk, partner=partner, other=other)
    names = {"partner": partner.name, "other": other.name}
    said(request, _("%(partner)s and %(other)s are two, and are not shown as one again.") % names)
    return redirect("story:same-list")


def other_of(request: DeskRequest, kept: Partner) -> Partner | None:
    """The row that the address names; none where it names none. Raises Http404 for one that is not there."""
    asked = request.POST.get("other") or request.GET.get("other_pk") or request.GET.get("other", "")
    if not asked.isdecimal():
        return None
    other = partner_at(request.desk, number(asked))
    if other.pk == kept.pk:
        raise Http404
    return other


def choose_other(request: DeskRequest, kept: Partner) -> HttpResponse:
    form = OtherForm(request.GET if "other" in request.GET else None, desk=request.desk)
    if form.is_bound and form.is_valid():
        other = form.cleaned_data["other"]
        if other.pk != kept.pk:
            return redirect(f"{request.path}?other={other.pk}")
        messages.info(request, _("That is this very partner. Choose another one."))
    likely = [one for one in likely_partners(request.desk, **compared(kept)) if one.partner.pk != kept.pk]
    return render(request, "story/partner_merge_choose.html", {"form": form, "partner": kept, "likely": likely})


def moves(desk: Desk, other: Partner) -> list[tuple[str, int]]:
    """How many rows of each kind stand on the one that goes, as far as the person sees them."""
    names = {model: name for name, model in row_names().items()}
    found = []
    for model, column in references(Partner):
        count = getattr(desk, names[model]).filter(**{column: other}).count()
        if count and column == "partner":
            found.append((capfirst(str(model._meta.verbose_name_plural)), count))
    return found
