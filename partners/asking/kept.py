"""What a phone needs to work without a signal: which pages it keeps, and what became of the forms it sent."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from django.urls import reverse
from django.utils.dateformat import format as date_format

from partners.asking.prefill import open_stops, places
from partners.gifts.arrival import promised_about_now
from partners.ground.models import Event
from partners.program.desk import Desk
from partners.program.models import Membership, Role

MOST_TOKENS = 50


def pages(desk: Desk) -> list[str]:
    """The addresses of the forms that open without a signal, with the places and promises they are about now."""
    visit, gift = reverse("visits:visit-new"), reverse("gifts:gift-new")
    stops = open_stops(desk)
    outing, recent = places(desk, stops, None)
    return [
        reverse("asking:kept"),
        visit,
        gift,
        f"{visit}?anywhere",
        *(f"{visit}?stop={stop.pk}" for stop in stops),
        *(f"{visit}?partner_pk={one.value}" for one in [*outing, *recent]),
        *(f"{gift}?promise={one.pk}" for one in promised_about_now(desk)),
        reverse("agenda:today"),
    ]


def begun(user: Any, program_pk: int) -> str:
    """When the program was set up, as its pages say it: it tells apart two books at one address."""
    member = Membership.objects.filter(user=user, program_id=program_pk).select_related("program").first()
    return date_format(member.program.created_at, "U") if member is not None else ""


def writes_in(user: Any, program_pk: int) -> bool:
    """Whether the person may (still) write in that program."""
    members = Membership.objects.filter(user=user, program_id=program_pk)
    return members.exclude(role=Role.GUEST).exists()


def saved(user: Any, program_pk: int, tokens: Sequence[str]) -> dict[str, dict[str, str]]:
    """Of these forms' tokens those that are in the book, each with what it did and where that is shown."""
    events = Event.objects.filter(program_id=program_pk, by=user, once__in=tokens[:MOST_TOKENS])
    return {str(event.once): {"words": str(event), "url": place_of(event)} for event in events}


def place_of(event: Event) -> str:
    about = event.about()
    return about.get_absolute_url() if hasattr(about, "get_absolute_url") else reverse("agenda:today")
