"""The words for why two partners may be one."""

from __future__ import annotations

from collections.abc import Mapping

from django.utils.functional import Promise
from django.utils.translation import gettext_lazy as _

from partners.directory.duplicates import Why

WORDS: Mapping[Why, str | Promise] = {
    "same_name": _("the same name"),
    "same_name_otherwise_written": _("the same name, written in another way"),
    "alike_name": _("a name spelled almost the same"),
    "name_within_name": _("one name is part of the other"),
    "same_phone": _("the same phone number"),
    "same_address": _("the same address"),
    "same_building": _("the same building"),
    "same_web": _("the same web address"),
}
