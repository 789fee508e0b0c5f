"""What templates need to tell time that was spent."""

from __future__ import annotations

from decimal import Decimal

from django import template
from django.utils.formats import number_format
from django.utils.translation import gettext as _

register = template.Library()


@register.filter
def spent(minutes: int | None) -> str:
    """Minutes as people say them: "45 min", "2 h", "4 h 48 min"."""
    if minutes is None:
        return ""
    hours, rest = divmod(minutes, 60)
    if not hours:
        return _("%(minutes)s min") % {"minutes": rest}
    told = number_format(hours, force_grouping=True)
    if not rest:
        return _("%(hours)s h") % {"hours": told}
    return _("%(hours)s h %(minutes)s min") % {"hours": told, "minutes": rest}


@register.filter
def tenths(value: int) -> str:
    """A number that is kept in tenths: 25 is "2.5", 30 is "3"."""
    whole = Decimal(value) / 10
    return number_format(whole, decimal_pos=0 if value % 10 == 0 else 1)
