"""What the browser sends when something arrived."""

from django.urls import reverse
from django.utils import timezone

NEW = reverse("gifts:gift-new")


def typed(*lines, **values):
    """What the browser sends: lines as (what, how many, one of these)."""
    data = {"source": "partner", "form": "goods", "line-TOTAL_FORMS": "4", "line-INITIAL_FORMS": "0"}
    for place, (what, quantity, risk) in enumerate(lines):
        data |= {f"line-{place}-description": what, f"line-{place}-quantity": quantity, f"line-{place}-risk": risk}
    return {**data, "day": str(timezone.localdate()), **values}


POTS = ("terracotta pots", "60", "")
