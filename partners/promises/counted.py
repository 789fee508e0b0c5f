"""How many of what, in words."""

from __future__ import annotations

from django.utils.translation import gettext as _
from django.utils.translation import gettext_noop

from partners.ground.names import fold

FOR_ANYTHING = gettext_noop("for the art room")
"""What money is for where nobody said more."""


def counted(quantity: int | None, unit: str, what: str, at_most: int | None = None) -> str:
    """`60 terracotta pots`, `20 to 30 sheets of mat board`, `yarn`; a unit that `what` names is not said twice."""
    if quantity is None:
        return what
    number = f"{quantity:,}"
    if at_most is not None and at_most > quantity:
        number = _("%(least)s to %(most)s") % {"least": number, "most": f"{at_most:,}"}
    if not unit or set(fold(unit).split()) <= set(fold(what).split()):
        return f"{number} {what}"
    return _("%(number)s %(unit)s of %(what)s") % {"number": number, "unit": unit, "what": what}
