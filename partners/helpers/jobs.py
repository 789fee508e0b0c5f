"""What helpers do."""

from __future__ import annotations

from django.db import models
from django.utils.translation import gettext_lazy as _


class Job(models.TextChoices):
    CUTTING = "cutting", _("cutting and trimming")
    SORTING = "sorting", _("sorting")
    MOUNTING = "mounting", _("mounting")
    LABELLING = "labelling", _("labelling")
    HANGING = "hanging", _("hanging a show")
    TAKING_DOWN = "taking_down", _("taking a show down")
    PHOTOGRAPHING = "photographing", _("photographing work")
    SEWING = "sewing", _("sewing and kits at home")
    CARRYING = "carrying", _("fetching and delivering")
    OTHER = "other", _("something else")
