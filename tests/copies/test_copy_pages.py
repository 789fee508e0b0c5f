"""Copies of the book: the ladder, what is told, what is downloaded."""

from __future__ import annotations

import io
import zipfile
from datetime import timedelta

import pytest
from django.urls import reverse
from django.utils import timezone

from partners.program.last_copy import LastCopy, note
from partners.program.models import Program
from tests import people
from tests.ladder import UNKNOWN, enter, flat, status

pytestmark = pytest.mark.django_db
PAGE = "copies:copy-list"


def test_only_the_keeper_gets_in_and_only_to_their_own(client, june, omar, grace, otto):
    school = people.make_school(otto.program)
    addresses = [reverse(PAGE), reverse("copies:copy-program"), reverse("copies:copy-school", args=[school.pk])]
    assert {status(client, address) for address in addresses} == {302}
    for member in (omar, grace):
        assert {status(enter(client, member), address) for address in addresses} == {403}
    enter(client, june)
    assert status(client, addresses[2]) == status(client, reverse("copies:copy-school", args=[UNKNOWN])) == 404
    assert {status(client, address, "post") for address in addresses} == {405}


def test_what_is_downloaded_holds_this_program_alone(signed_in, june, otto):
    people.make_partner(june.program)
    people.make_partner(otto.program, "Elsewhere")
    answer = signed_in.get(reverse("copies:copy-program"))
    assert answer["Content-Disposition"].endswith('.book"')
    copy = zipfile.ZipFile(io.BytesIO(b"".join(answer.streaming_content)))
    places = copy.read("rows/partners_partner.jsonl")
    assert b"Riverbend" in places
    assert b"Elsewhere" not in places


def test_the_page_and_today_say_when_the_last_copy_is_old(signed_in, folder, june):
    day = timezone.localdate()
    assert "No copy was made yet" in flat(signed_in.get(reverse(PAGE)))
    Program.objects.update(created_at=timezone.now() - timedelta(days=30))
    assert "more than a week" in flat(signed_in.get(reverse("agenda:today")))
    note(LastCopy((day - timedelta(days=1)).isoformat(), 7, sound=True))
    assert "everything in it fits together" in flat(signed_in.get(reverse(PAGE)))
    assert "more than a week" not in flat(signed_in.get(reverse("agenda:today")))
    assert reverse("copies:copy-program") in flat(signed_in.get(reverse("year:handover")))
