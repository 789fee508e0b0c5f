"""Works out again every fact that the record keeps ready, and says what differs."""

from __future__ import annotations

from collections.abc import Iterator
from hashlib import sha256

from django.db.models import Count, Q, Sum

from partners.agenda import check_money
from partners.agenda.last_heard import last_heard
from partners.agenda.redate import differing
from partners.directory.actions import KEYED
from partners.directory.keys import keys, people_key
from partners.ground.names import name_key
from partners.helpers.actions import helper_keys
from partners.helpers.session_facts import kept_ready
from partners.letters.models import LetterState
from partners.program.models import Program


def differences(program: Program) -> list[str]:
    """One sentence for each stored fact that does not follow from the record; an empty list is a sound book."""
    program = Program.objects.get(pk=program.pk)
    checks = (
        stored_days,
        partner_keys,
        heard,
        contact_keys,
        deliveries,
        waiting_asks,
        standing_offers,
        tallies,
        thanks_for_gifts,
        sheets,
        batches,
        kept_files,
        keys_of_helpers,
        sessions,
        *check_money.CHECKS,
    )
    return [sentence for check in checks for sentence in check(program)]


def stored_days(program: Program) -> Iterator[str]:
    for rows in differing(program):
        for row, days in rows:
            for name, day in days.items():
                if getattr(row, name) != day:
                    yield f"{row._meta.model_name} {row.pk}: {name} is {getattr(row, name)}, should be {day}"


def partner_keys(program: Program) -> Iterator[str]:
    people: dict[int, list[str]] = {}
    for partner_id, name in program.contacts.filter(left_on=None).values_list("partner_id", "name"):
        people.setdefault(partner_id, []).append(name)
    for row in program.partners.iterator(chunk_size=2000):
        typed = {name: getattr(row, name) for name in KEYED}
        wanted = keys(**typed) | {"people_key": people_key([*row.other_names, *people.get(row.pk, ())])}
        for name, key in wanted.items():
            if getattr(row, name) != key:
                yield f"partner {row.pk}: {name} is {getattr(row, name)!r}, should be {key!r}"


def contact_keys(program: Program) -> Iterator[str]:
    for pk, name, key in program.contacts.values_list("pk", "name", "name_key"):
        if key != name_key(name):
            yield f"contact {pk}: name_key is {key!r}, should be {name_key(name)!r}"


def heard(program: Program) -> Iterator[str]:
    latest = last_heard(program)
    for pk, kept in program.partners.values_list("pk", "last_heard_on"):
        if kept != latest.get(pk):
            yield f"partner {pk}: last_heard_on is {kept}, should be {latest.get(pk)}"


def deliveries(program: Program) -> Iterator[str]:
    sums = dict(program.deliveries.values_list("promise_id").annotate(total=Sum("quantity")))
    for pk, kept in program.promises.values_list("pk", "delivered"):
        if kept != (sums.get(pk) or 0):
            yield f"promise {pk}: delivered is {kept}, should be {sums.get(pk) or 0}"


def waiting_asks(program: Program) -> Iterator[str]:
    """A waiting ask has an open follow-up, or a day to look after it, and not both."""
    followed = set(program.follow_ups.filter(done_on=None, ask__isnull=False).values_list("ask_id", flat=True))
    for pk, look_on in program.asks.filter(answer="waiting").values_list("pk", "look_on"):
        if (pk in followed) == (look_on is not None):
            has = "both a follow-up and a day" if look_on else "neither follow-up nor day"
            yield f"ask {pk}: waiting with {has} to look after it"


def standing_offers(program: Program) -> Iterator[str]:
    """Exactly one collection of an offer that still stands is called up."""
    called = Count("promises", filter=Q(promises__settled_on=None))
    standing = program.offers.exclude(every="").filter(ended_on=None).order_by("pk")
    for pk, count in standing.annotate(called=called).values_list("pk", "called"):
        if count != 1:
            yield f"offer {pk}: {count} collections are called up, should be 1"


def tallies(program: Program) -> Iterator[str]:
    """What a class finished and spoiled is the sum of what was counted; who has counted has begun."""
    rows = program.trade_tallies.order_by().values_list("trade_class_id").annotate(Sum("done"), Sum("spoiled"))
    sums = {pk: (done, spoiled) for pk, done, spoiled in rows}
    for pk, done, spoiled, started_on in program.trade_classes.values_list("pk", "done", "spoiled", "started_on"):
        if (done, spoiled) != sums.get(pk, (0, 0)):
            yield f"class in a trade {pk}: done and spoiled are {done}, {spoiled}, should be {sums.get(pk, (0, 0))}"
        if pk in sums and started_on is None:
            yield f"class in a trade {pk}: something is counted and it has not begun"


def thanks_for_gifts(program: Program) -> Iterator[str]:
    """Every gift of a partner owes thanks, or was thanked for; so does what families gave to a school."""
    of_families = Q(source="families", school__isnull=False, families_due=None)
    unthanked = program.gifts.filter(Q(source="partner", thanks=None) | of_families)
    for pk in unthanked.order_by("pk").values_list("pk", flat=True):
        yield f"gift {pk}: no thanks are owed or said"


def sheets(program: Program) -> Iterator[str]:
    for pk, kept, pdf in program.sheets.values_list("pk", "sha256", "pdf").iterator(chunk_size=20):
        found = sha256(bytes(pdf)).hexdigest()
        if kept != found:
            yield f"sheet {pk}: sha256 is {kept}, should be {found}"


def batches(program: Program) -> Iterator[str]:
    """A batch is through as soon as nothing of it is left to go out, and not before."""
    left = Count("letters", filter=Q(letters__state=LetterState.DRAFT))
    for pk, settled_on, count in program.batches.annotate(left=left).values_list("pk", "settled_on", "left"):
        if (settled_on is None) != bool(count):
            yield f"batch {pk}: settled_on is {settled_on} with {count} sheets still to go out"


def kept_files(program: Program) -> Iterator[str]:
    for pk, kept, content in program.kept_files.values_list("pk", "sha256", "content").iterator(chunk_size=20):
        found = sha256(bytes(content)).hexdigest()
        if kept != found:
            yield f"kept file {pk}: sha256 is {kept}, should be {found}"


def keys_of_helpers(program: Program) -> Iterator[str]:
    for row in program.helpers.iterator(chunk_size=2000):
        for name, key in helper_keys({"name": row.name, "phone": row.phone}).items():
            if getattr(row, name) != key:
                yield f"helper {row.pk}: {name} is {getattr(row, name)!r}, should be {key!r}"


def sessions(program: Program) -> Iterator[str]:
    for row in program.sessions.prefetch_related("turns").iterator(chunk_size=500):
        for name, value in kept_ready(row).items():
            if getattr(row, name) != value:
                yield f"session {row.pk}: {name} is {getattr(row, name)}, should be {value}"
