"""Is this helper in the book already? By name, phone or e-mail."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.db.models import Q
from django.utils.text import get_text_list
from django.utils.translation import gettext as _

from partners.helpers.actions import helper_keys
from partners.helpers.models import Helper

AT_MOST = 5


@dataclass(frozen=True)
class LikelyHelper:
    """Somebody whom the slip may be of, and why."""

    helper: Helper
    why: str


def likely_helpers(desk: Any, *, name: str, phone: str = "", email: str = "") -> list[LikelyHelper]:
    """Helpers of the desk with the same name, phone or e-mail; nobody for what is empty."""
    keys = helper_keys({"name": name, "phone": phone})
    same = Q()
    for column, value in (("name_key", keys["name_key"]), ("phone_key", keys["phone_key"]), ("email__iexact", email)):
        if value:
            same |= Q(**{column: value})
    if not same:
        return []
    found = desk.helpers.filter(same, forgotten_on=None).order_by("name_key", "pk")[:AT_MOST]
    return [LikelyHelper(helper, _why(helper, keys, email)) for helper in found]


def _why(helper: Helper, keys: dict[str, str], email: str) -> str:
    said = [
        (keys["name_key"] and helper.name_key == keys["name_key"], _("the same name")),
        (keys["phone_key"] and helper.phone_key == keys["phone_key"], _("the same phone")),
        (email and helper.email.lower() == email.lower(), _("the same e-mail")),
    ]
    return str(get_text_list([words for is_so, words in said if is_so], _("and")))
