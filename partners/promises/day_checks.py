"""Days that a person types, held against the calendar: what cannot be so, or is likely a slip of the year."""

from __future__ import annotations

from datetime import date, timedelta

from django.core.exceptions import ValidationError
from django.utils.translation import gettext as _

YEARS_BACK = 5
YEARS_AHEAD = 3


def been(day: date, today: date) -> date:
    """`day` if it is today or not long ago. Raises ValidationError."""
    if day > today:
        raise ValidationError(_("That day is still ahead."), code="ahead")
    if day < today - timedelta(days=366 * YEARS_BACK):
        raise ValidationError(_("That is more than five years ago. Is the year right?"), code="long_ago")
    return day


def to_come(day: date, today: date, not_before: date | None = None) -> date:
    """`day` if it is not before `not_before` and not far off. Raises ValidationError."""
    if not_before is not None and day < not_before:
        raise ValidationError(_("That day comes before the one it counts from."), code="before")
    if day > today + timedelta(days=366 * YEARS_AHEAD):
        raise ValidationError(_("That is more than three years ahead. Is the year right?"), code="far_off")
    return day
