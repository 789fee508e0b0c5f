"""Devices that stay signed in: named at sign-in, listed, signed out one or all, and gone with a new password."""

from __future__ import annotations

from datetime import timedelta
from typing import Any

import pytest
import time_machine
from django.conf import settings
from django.db import OperationalError, connection
from django.test import Client
from django.urls import reverse
from django.utils import timezone

from partners.config import settings as ours
from partners.program.devices import keep_signed_in, likely_name
from partners.program.models import Device, Membership
from tests.ladder import UNKNOWN, enter, flat, status
from tests.people import SECRET

LIST, TODAY = "/devices/", "/"
SIXTY_DAYS = 60 * 24 * 60 * 60
ANDROID = "Mozilla/5.0 (Linux; Android 14; K) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/126.0 Mobile Safari/537.36"


def sign_in(**typed: str) -> Client:
    browser = Client()
    answer = browser.post(reverse("program:sign-in"), {"username": "june", "password": SECRET, **typed})
    assert answer.status_code == 302
    return browser


def kept(name: str, member: Membership) -> Client:
    """A browser that stays signed in, without working out a password."""
    browser = enter(Client(), member)
    session = browser.session
    keep_signed_in(session, user=member.user, name=name, now=timezone.now(), day=timezone.localdate())
    session.save()
    return browser


def is_in(browser: Client) -> bool:
    return browser.get(LIST).status_code == 200


@pytest.mark.django_db
def test_a_named_device_stays_signed_in_for_sixty_days(june: Membership) -> None:
    phone = sign_in(keep="on", device="June's phone")
    assert phone.cookies[settings.SESSION_COOKIE_NAME]["max-age"] == pytest.approx(SIXTY_DAYS, abs=60)
    assert Device.objects.get().name == "June's phone"
    assert 'June&#x27;s phone<span class="soft">&nbsp;· this one' in flat(phone.get(LIST))


@pytest.mark.django_db
def test_any_other_browser_is_signed_out_when_it_closes_or_after_twelve_hours(
    june: Membership, monkeypatch: pytest.MonkeyPatch
) -> None:
    # The run of the tests keeps everybody signed in for longer.
    monkeypatch.setattr(settings, "SESSION_COOKIE_AGE", ours.SESSION_COOKIE_AGE)
    browser = sign_in(device="not kept")
    assert browser.cookies[settings.SESSION_COOKIE_NAME]["max-age"] == ""
    assert browser.session.get_expiry_age() == 12 * 60 * 60
    assert not Device.objects.exists()


@pytest.mark.django_db
def test_each_day_of_use_begins_the_sixty_days_anew_and_is_written_once(june: Membership) -> None:
    with time_machine.travel("2026-10-06 12:00 -0400", tick=False) as clock:
        phone = kept("phone", june)
        clock.shift(timedelta(days=59))
        assert is_in(phone)
        assert Device.objects.get().seen_on.isoformat() == "2026-12-04"
        Device.objects.update(seen_on="2026-01-01")
        assert is_in(phone)
        assert Device.objects.get().seen_on.isoformat() == "2026-01-01"
        clock.shift(timedelta(days=59))
        assert is_in(phone)
        clock.shift(timedelta(days=61))
        assert not is_in(phone)


@pytest.mark.django_db
def test_one_device_is_signed_out_from_another(june: Membership) -> None:
    phone, desk = kept("phone", june), kept("desk", june)
    assert status(desk, reverse("program:device-sign-out", args=[Device.objects.get(name="phone").pk]), "post") == 302
    assert (is_in(phone), is_in(desk)) == (False, True)
    assert Device.objects.get().name == "desk"


@pytest.mark.django_db
def test_all_others_are_signed_out_also_those_without_a_name(june: Membership, omar: Membership) -> None:
    phone, desk, plain, other = kept("phone", june), kept("desk", june), enter(Client(), june), kept("omar's", omar)
    desk.post(reverse("program:device-others"))
    assert [is_in(one) for one in (phone, plain, desk, other)] == [False, False, True, True]


@pytest.mark.django_db
def test_a_new_password_signs_out_the_others_and_this_device_stays_itself(june: Membership) -> None:
    phone, desk = kept("phone", june), kept("desk", june)
    new = "another long secret"
    typed = {"old_password": SECRET, "new_password1": new, "new_password2": new}
    page = desk.post(reverse("program:password"), typed, follow=True)
    assert "Every other device is signed out" in flat(page)
    assert (is_in(phone), is_in(desk)) == (False, True)
    assert "this one" in flat(desk.get(LIST))


@pytest.mark.django_db
def test_signing_out_takes_the_device_out_of_the_list(june: Membership) -> None:
    phone, desk = kept("phone", june), kept("desk", june)
    phone.post(reverse("program:sign-out"))
    assert "phone" not in [device.name for device in Device.objects.all()]
    desk.post(reverse("program:device-sign-out", args=[Device.objects.get().pk]))
    assert (is_in(desk), Device.objects.count()) == (False, 0)


@pytest.mark.django_db
def test_the_steps_of_devices(client: Client, june: Membership, grace: Membership) -> None:
    assert status(client, LIST) == 302
    phone = kept("red one", june)
    assert status(enter(client, grace), LIST) == 200
    for pk in (Device.objects.get().pk, UNKNOWN):
        assert status(client, reverse("program:device-sign-out", args=[pk]), "post") == 404
    assert "red one" not in flat(client.get(LIST))
    assert status(phone, LIST, "post") == status(phone, reverse("program:device-others")) == 405


@pytest.mark.parametrize(
    ("user_agent", "name"),
    [(ANDROID, "Android phone"), ("(iPhone; CPU iPhone OS 17_5)", "iPhone"), ("", "This device")],
)
def test_a_device_is_named_at_first_by_what_its_browser_says(user_agent: str, name: str) -> None:
    assert likely_name(user_agent) == name


def refuse_writing(execute: Any, sql: str, *rest: Any) -> Any:
    if sql.startswith(("UPDATE", "INSERT", "DELETE")):
        raise OperationalError("attempt to write a readonly database")
    return execute(sql, *rest)


@pytest.mark.django_db
def test_a_book_that_can_only_be_read_is_read_on_a_new_day_too(june):
    with time_machine.travel("2026-07-06 15:00 -0400", tick=False):
        kept("an old phone", june)
    with time_machine.travel("2026-10-06 15:00 -0400", tick=False):
        phone = kept("phone", june)
        kept("one more", june)
    with time_machine.travel("2026-10-07 15:00 -0400", tick=False), connection.execute_wrapper(refuse_writing):
        assert [phone.get(page).status_code for page in (TODAY, LIST)] == [200, 200]
