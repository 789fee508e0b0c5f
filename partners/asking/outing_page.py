"""An outing while it is being planned: everything is in the address, so nothing is lost and nothing is saved early."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from datetime import date

from django.db.models import F, QuerySet
from django.http import Http404, QueryDict

from partners.asking.address import number
from partners.asking.gather import Gathered, gather
from partners.asking.may_ask import Verdict
from partners.asking.outing_form import OutingForm
from partners.asking.quiet_hours import busy_all_day, when_to_go
from partners.asking.shown import Shown, show
from partners.asking.who_asks import Step, clashes, steps
from partners.directory.models import Partner, PartnerKind
from partners.ground.names import name_key
from partners.program.desk import Desk
from partners.school.models import School
from partners.visits.actions import Stop
from partners.wish_list.models import Need

LOOKED_AT = 30
SUGGESTED = 6
MOST_PLACES = 30
LONGEST_NAME = 120
# A grantmaker is asked on its form, a family group or a colleague at school: nobody walks in there on an outing.
WITH_A_DOOR = (PartnerKind.BUSINESS, PartnerKind.ARTS_GROUP, PartnerKind.LIBRARY, PartnerKind.CIVIC_GROUP)


@dataclass(frozen=True)
class Place:
    """A place on the outing, or one that is suggested: what to ask for there, the verdict, and the hints."""

    partner: Partner
    need: Need | None
    judged: Verdict
    shown: Shown
    hint: str
    busy: bool
    clashes: tuple[str, ...] = ()


@dataclass
class Draft:
    """What the address says so far: the places in order, each with its need; `new` ones by their names."""

    day: date
    school: School | None
    need: Need | None
    partners: list[Partner] = field(default_factory=list)
    needs: dict[int, Need | None] = field(default_factory=dict)
    new: list[str] = field(default_factory=list)

    def need_for(self, partner: Partner) -> Need | None:
        return self.needs.get(partner.pk, self.need)


def draft_of(desk: Desk, form: OutingForm, address: QueryDict) -> Draft:
    """What the address says; what the form refuses is taken as if it had not been said."""
    form.is_valid()
    told = getattr(form, "cleaned_data", {})
    draft = Draft(day=told.get("day", desk.day), school=told.get("school"), need=told.get("need"))
    added = told.get("add")
    draft.partners = read_places(desk, address, added if isinstance(added, Partner) else None)
    draft.new = read_new(address, added if isinstance(added, str) else "")
    draft.needs = read_needs(desk, address, draft.partners)
    return draft


def need_choices(desk: Desk) -> list[Need]:
    """What can be asked for, soonest first."""
    return list(desk.needs.open().order_by(F("needed_by").asc(nulls_last=True), "pk"))


def read_places(desk: Desk, address: QueryDict, added: Partner | None) -> list[Partner]:
    """The places in order, after what was pressed: `out` takes one away, `up` moves one forward.

    Raises Http404 for a place that the desk does not hold.
    """
    pks = list(dict.fromkeys(number(str(text)) for text in address.getlist("place")))[:MOST_PLACES]
    if added is not None and added.pk not in pks:
        pks.append(added.pk)
    if "out" in address:
        pks = [pk for pk in pks if str(pk) != address["out"]]
    if "up" in address and (up := number(str(address["up"]))) in pks:
        at = pks.index(up)
        pks[max(0, at - 1) : at + 1] = reversed(pks[max(0, at - 1) : at + 1])
    # Some may have been put together with another one since the page was opened.
    moved = dict(desk.former_partners.filter(was__in=pks).values_list("was", "partner_id"))
    pks = list(dict.fromkeys(moved.get(pk, pk) for pk in pks))
    found = desk.partners.order_by().in_bulk(pks)
    if len(found) < len(pks):
        raise Http404
    return [found[pk] for pk in pks]


def read_new(address: QueryDict, added: str) -> list[str]:
    """The names of places that are not in the book yet, each once; `not_new` takes one away."""
    names = {name_key(name): name.strip()[:LONGEST_NAME] for name in [*address.getlist("new"), added]}
    return [name for key, name in names.items() if key and name != address.get("not_new")][:MOST_PLACES]


def read_needs(desk: Desk, address: QueryDict, partners: list[Partner]) -> dict[int, Need | None]:
    """What is asked for at each place; an empty choice asks for nothing in particular."""
    told = {partner.pk: address.get(f"need_{partner.pk}") for partner in partners}
    found = desk.needs.order_by().in_bulk([number(text) for text in told.values() if text])
    return {pk: found.get(number(text)) if text else None for pk, text in told.items() if text is not None}


def lay_out(desk: Desk, draft: Draft) -> tuple[list[Place], list[Place]]:
    """The chosen places, and those that may be asked on that day and are quiet then, in a fixed number of queries."""
    others = _candidates(desk, draft)
    known = gather(desk, [*draft.partners, *others])
    chosen = [_place(known, draft, partner) for partner in draft.partners]
    possible = [_place(known, draft, partner) for partner in others]
    allowed = (place for place in possible if place.judged.allowed)
    good = sorted(allowed, key=lambda place: (place.busy, way_to(place.partner, draft.partners)))
    known_steps = steps(desk, [place.partner.pk for place in [*chosen, *good[:SUGGESTED]]])
    return (
        [_with_clashes(desk, draft, place, known_steps) for place in chosen],
        [_with_clashes(desk, draft, place, known_steps) for place in good[:SUGGESTED]],
    )


def way_to(partner: Partner, others: list[Partner]) -> int:
    """0 in the street of one of the others, 1 in the town of one, else 2."""
    streets = {(_street(one), one.city) for one in others if _street(one)}
    if (_street(partner), partner.city) in streets:
        return 0
    return 1 if partner.city and partner.city in {one.city for one in others} else 2


def _street(partner: Partner) -> str:
    """The street without its number."""
    return partner.street.lstrip("0123456789-").strip().casefold()


def _with_clashes(desk: Desk, draft: Draft, place: Place, known: dict[int, list[Step]]) -> Place:
    """With what colleagues plan there; what they asked there is in the verdict."""
    planned = [step for step in known.get(place.partner.pk, ()) if step.planned]
    return replace(place, clashes=clashes(desk, draft.day, desk.user.pk if desk.user else None, planned))


def stops(desk: Desk, draft: Draft) -> list[Stop]:
    known = gather(desk, draft.partners)
    return [Stop(one.partner, one.need, one.judged) for one in (_place(known, draft, p) for p in draft.partners)]


def _place(known: Gathered, draft: Draft, partner: Partner) -> Place:
    need = draft.need_for(partner)
    judged = known.verdict(partner, draft.day, need, draft.school.pk if draft.school else None)
    return Place(
        partner=partner,
        need=need,
        judged=judged,
        shown=show(judged, partner.name),
        hint=when_to_go(partner, draft.day),
        busy=bool(busy_all_day(partner, draft.day)),
    )


def _candidates(desk: Desk, draft: Draft) -> list[Partner]:
    """Partners to think of: never visited, and not heard of for the longest time; each list by its index.

    Who still has something to bring is not asked for more meanwhile.
    """
    owing = desk.promises.by_them().open().values("partner_id")
    open_to_us: QuerySet[Partner] = desk.partners.not_resting_on(draft.day).filter(kind__in=WITH_A_DOOR)
    open_to_us = open_to_us.exclude(pk__in=owing)
    chosen = {partner.pk for partner in draft.partners}
    never = open_to_us.filter(last_heard_on=None).order_by("pk")[:LOOKED_AT]
    long_ago = open_to_us.filter(last_heard_on__isnull=False).order_by("last_heard_on", "pk")[:LOOKED_AT]
    return [partner for partner in [*long_ago, *never] if partner.pk not in chosen]
