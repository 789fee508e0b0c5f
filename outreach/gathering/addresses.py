"""Who stands on labels and envelopes: the receivers of a batch, partners of a narrowed list, helpers by name."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Any

from django.db.models.functions import Coalesce
from django.http import Http404

from outreach.documents import envelope, labels
from outreach.gathering.gratitude import address_of
from outreach.gathering.remembered import remembered
from outreach.gathering.school import only_school
from outreach.label_measures import READY, grid_of
from outreach.page import Address
from partners.directory.filters import PartnerFilter
from partners.directory.models import Partner, PartnerQuerySet
from partners.letters.models import Batch, LetterState
from partners.program.desk import Desk
from partners.school.models import School

Words = dict[str, Any]
BATCH, PARTNERS, HELPERS = "batch", "partners", "helpers"


def gather_labels(desk: Desk, partner: Partner | None, words: Words) -> labels.Facts:
    """For one partner a single label; without one, for those that `words` say: `of`, `batch`, `list` (a query)."""
    names = partner is None and words.get("of") == HELPERS
    everybody = named_helpers(desk) if names else whole_addresses(desk, partner, words)
    told = [one for one in everybody if names or reachable(one)]
    grid = words.get("grid") or grid_of(READY[desk.program.paper][0])
    return labels.Facts(
        language=words.get("language") or desk.program.language,
        grid=grid,
        addresses=tuple(told),
        start=min(words.get("start", 1), grid.count),
        names=names,
        check=bool(words.get("check")),
        left_out=tuple(one.business or one.person for one in everybody if not names and not reachable(one)),
    )


def whole_addresses(desk: Desk, partner: Partner | None, words: Words) -> list[Address]:
    if partner is not None:
        return [address_of(partner)]
    if words.get("of") == BATCH:
        batch = desk.batches.filter(pk=words.get("batch")).first()
        if batch is None:
            raise Http404
        return addresses(partners_of(desk, batch))
    narrowed: PartnerQuerySet = PartnerFilter(words.get("list"), desk=desk).qs
    return addresses(narrowed.with_people())


def partners_of(desk: Desk, batch: Batch) -> list[Partner]:
    """Whom its open letters are for, in the order of delivery; two letters to one place go into one envelope."""
    letters = desk.letters.filter(batch=batch, state=LetterState.DRAFT, partner__isnull=False).order_by("place", "pk")
    order = list(dict.fromkeys(letters.values_list("partner_id", flat=True)))
    found = {one.pk: one for one in desk.partners.filter(pk__in=order).with_people()}
    return [found[pk] for pk in order if pk in found]


def schools_of(desk: Desk, batch: Batch) -> dict[int, int]:
    """From which school each partner's letter comes; nobody stands here to whom the program writes."""
    letters = desk.letters.filter(batch=batch, state=LetterState.DRAFT, partner__isnull=False)
    about = Coalesce("gift__school", "thanks__school", "school")
    # The first in the order of delivery is set last, and stands.
    rows = letters.annotate(from_school=about).filter(from_school__isnull=False).order_by("-place", "-pk")
    return dict(rows.values_list("partner_id", "from_school"))


def addresses(partners: Iterable[Partner]) -> list[Address]:
    return [address_of(partner) for partner in partners]


def reachable(address: Address) -> bool:
    """Whether there is a street in a city; what else is missing is named, and printed all the same."""
    return bool(any(address.street) and address.city)


def named_helpers(desk: Desk) -> list[Address]:
    """Names alone, for badges: where helpers live is not in the book."""
    rows = desk.helpers.active().exclude(name="").order_by("name_key", "pk")
    return [Address(person=name) for name in rows.values_list("name", flat=True)]


def gather_envelope(desk: Desk, partner: Partner, words: Words) -> envelope.Facts:
    """`words["school"]` is the number of the school that sends; without it the only one, else the first."""
    return envelope.Facts(
        language=desk.program.language,
        to=address_of(partner),
        sender=sender(desk, sending_school(desk, words)),
    )


def sending_school(desk: Desk, words: Words) -> School | None:
    picked = school_numbered(desk, words["school"]) if words.get("school") else None
    return picked or only_school(desk)


@remembered
def school_numbered(desk: Desk, number: int) -> School | None:
    found: School | None = desk.schools.filter(pk=number).first()
    return found


def sender(desk: Desk, school: School | None) -> Address:
    if school is None:
        return Address(business=desk.program.name)
    street = (school.street,) if school.street else ()
    return Address(
        person=desk.signs.teacher,
        business=school.name,
        street=street,
        city=school.city,
        state=school.state,
        zip_code=school.postal_code,
    )
