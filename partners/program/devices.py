"""Devices that stay signed in for weeks, each with the name that its person gave it.

A device stands for one session. Ending the session signs it out; the row goes with it. Without a device the session
ends with the browser, or after twelve hours (see the settings).
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import date, datetime, timedelta
from typing import Any

from django.contrib.sessions.models import Session
from django.db import DatabaseError, transaction
from django.db.models import QuerySet
from django.utils.translation import gettext as _
from django.utils.translation import gettext_lazy

from partners.program.models import Device, User

KEPT_DAYS = 60
KEPT_FOR = timedelta(days=KEPT_DAYS)
# Where these stand in a session.
DEVICE, SEEN = "device", "seen"

KNOWN = (
    (r"iPhone", "iPhone"),
    (r"iPad", "iPad"),
    (r"Android.*Mobile", gettext_lazy("Android phone")),
    (r"Android", gettext_lazy("Android tablet")),
    (r"Windows", gettext_lazy("Windows computer")),
    (r"CrOS", "Chromebook"),
    (r"Macintosh", "Mac"),
    (r"Linux|X11", gettext_lazy("Linux computer")),
)


def likely_name(user_agent: str) -> str:
    """What the browser says it runs on, as a first name for the device; it is only a suggestion."""
    return next((str(name) for mark, name in KNOWN if re.search(mark, user_agent[:500])), _("This device"))


def keep_signed_in(session: Any, *, user: Any, name: str, now: datetime, day: date) -> Device:
    """The session lasts sixty days from the last day on which it was used."""
    forget_ended(user, now=now)
    session.set_expiry(KEPT_FOR)
    key = str(session.session_key)
    device = Device.objects.create(user=user, name=name, session_key=key, signed_in_at=now, seen_on=day)
    session[DEVICE], session[SEEN] = device.pk, day.isoformat()
    return device


def used_on(session: Any, day: date) -> None:
    """Notes that a device was used, once a day, and begins its sixty days anew.

    A book that can only be read now is read all the same; the day is noted another time.
    """
    if DEVICE not in session or session.get(SEEN) == day.isoformat():
        return
    try:
        with transaction.atomic():
            Device.objects.filter(pk=session[DEVICE]).update(seen_on=day)
    except DatabaseError:
        return
    session[SEEN] = day.isoformat()
    session.set_expiry(KEPT_FOR)


def devices_of(user: Any) -> QuerySet[Device]:
    return Device.objects.filter(user=user).order_by("-seen_on", "-signed_in_at", "-pk")


def signed_in(user: Any, *, now: datetime) -> QuerySet[Device]:
    """Those whose session has not ended by itself."""
    living = Session.objects.filter(expire_date__gt=now).values("session_key")
    return devices_of(user).filter(session_key__in=living)


def sign_out(devices: Iterable[Device]) -> None:
    """Ends their sessions at once, wherever they are open."""
    for device in devices:
        Session.objects.filter(session_key=device.session_key).delete()
        device.delete()


def sign_out_others(session: Any, *, user: User, now: datetime) -> None:
    """Only this session stays: every other device is signed out, and every browser that was not named."""
    key = str(session.session_key)
    sign_out(Device.objects.filter(user=user).exclude(session_key=key))
    for other in Session.objects.filter(expire_date__gt=now).exclude(session_key=key).iterator():
        if str(other.get_decoded().get("_auth_user_id", "")) == str(user.pk):
            other.delete()


def new_key(session: Any) -> None:
    """A session that was given another key (after a new password) is still the same device."""
    if DEVICE in session:
        Device.objects.filter(pk=session[DEVICE]).update(session_key=str(session.session_key))


def forget_ended(user: Any, *, now: datetime) -> None:
    """Takes out what was not used for sixty days: those sessions have ended by themselves."""
    Session.objects.filter(expire_date__lt=now).delete()
    living = Session.objects.values("session_key")
    Device.objects.filter(user=user).exclude(session_key__in=living).delete()
