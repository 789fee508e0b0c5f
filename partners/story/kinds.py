"""The kinds of lists that are read in and written out, with their columns in the order of our own files."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from django.core.exceptions import ValidationError
from django.core.validators import validate_email
from django.db.models import Model, TextChoices

from partners.directory.models import BusinessKind, Contact, CountedPer, HowOften, MayName, Partner, PartnerKind
from partners.directory.phones import read_phone
from partners.gifts.models import Form, Gift, GiftLine, MoneyKind, Risk, Thanks
from partners.ground.cells_in import choice_of, read_day, text_of, whole_of, yes_or_no
from partners.ground.money import parse_cents
from partners.ground.names import name_key
from partners.ground.plain import PlainError, gettext_noop
from partners.school.class_paste import HEADS
from partners.story.columns import Column
from partners.visits.models import Happened, How, Visit

NO_EMAIL = gettext_noop("“%(typed)s” is no e-mail address.")
NAMELESS = gettext_noop("“%(typed)s” has no letter and no digit.")
LONGEST_NOTE = 30_000
MOST_PIECES = 2_000_000_000


@dataclass(frozen=True)
class Kind:
    """`needed`: groups of columns, of each of which the file has to have one."""

    slug: str
    title: str
    columns: Sequence[Column]
    needed: Sequence[Sequence[str]]


def _words(model: type[Model], name: str) -> Callable[[str], str]:
    most: int = model._meta.get_field(name).max_length  # type: ignore[union-attr,assignment]
    return text_of(most)


def _choice(choices: type[TextChoices], **also: str) -> Callable[[str], str]:
    return choice_of({str(code): str(label) for code, label in choices.choices if code}, also)


def _name(model: type[Model]) -> Callable[[str], str]:
    within = _words(model, "name")

    def read(typed: str) -> str:
        if not name_key(typed):
            raise PlainError("nameless", NAMELESS, typed=typed[:40])
        return within(typed)

    return read


def read_stored_phone(typed: str) -> str:
    return read_phone(typed).stored


def read_email(typed: str) -> str:
    try:
        validate_email(typed)
    except ValidationError:
        raise PlainError("no_email", NO_EMAIL, typed=typed[:80]) from None
    return text_of(254)(typed)


def _at(*, must: bool, label: str, words: tuple[str, ...]) -> tuple[Column, ...]:
    """The columns that say which partner a row belongs to; the phone and the street part branches of one name."""
    return (
        Column("partner", label, words, _name(Partner), must=must),
        Column("partner_phone", gettext_noop("Partner's phone"), ("partner phone",), read_stored_phone),
        Column("partner_street", gettext_noop("Partner's street"), ("partner street",), _words(Partner, "street")),
    )


PLACES = ("partner", "partners", "business", "business name", "organization", "organisation", "company", "shop",
          "store", "place", "where", "donor", "from", "giver", "given by", "donated by", "sponsor")  # fmt: skip
NAME, NOTES, PHONE = gettext_noop("Name"), gettext_noop("Notes"), gettext_noop("Phone")
PHONES = ("phone number", "telephone", "tel", "cell", "mobile", "phone no", "contact phone", "call")
EMAILS = ("email", "e mail", "mail", "email address", "e mail address", "contact email")
DAYS = ("date", "day", "when", "date received", "received", "received on", "came on", "visited", "visited on")
REMARKS = ("note", "notes", "comment", "comments", "remark", "remarks", "memo")

PARTNERS = Kind(
    "partners",
    gettext_noop("Partners"),
    (
        Column("name", NAME, (*PLACES, "partner name", "name of business", "company name"), _name(Partner), must=True),
        Column("also_called", gettext_noop("Also called"), ("other names", "aka", "also known as"),
               _words(Partner, "also_called")),
        Column("kind", gettext_noop("Kind"), ("type", "category"), _choice(PartnerKind, nonprofit="civic_group")),
        Column("business_kind", gettext_noop("Business"), ("kind of business", "business type", "industry"),
               _choice(BusinessKind, cafe="coffee_shop", bakery="coffee_shop", shop="retail", grocery="grocer")),
        Column("branch", gettext_noop("A branch"), ("branch", "chain"), yes_or_no),
        Column("people", gettext_noop("People"), ("person", "contact", "contact person", "contact name", "owner",
               "manager", "owner manager", "who", "who is there", "contacts"), text_of(600)),
        Column("phone", PHONE, PHONES, read_stored_phone),
        Column("email", gettext_noop("E-mail"), EMAILS, read_email),
        Column("web", gettext_noop("Web"), ("website", "web site", "url", "homepage", "web address", "site"),
               _words(Partner, "web")),
        Column("street", gettext_noop("Street"), ("address", "street address", "address 1", "address line 1",
               "mailing address"), _words(Partner, "street")),
        Column("city", gettext_noop("Town"), ("city", "city town", "town city"), _words(Partner, "city")),
        Column("state", gettext_noop("State"), ("st", "state province"), _words(Partner, "state")),
        Column("postal_code", gettext_noop("ZIP code"), ("zip", "postal code", "postcode", "zip postal code"),
               _words(Partner, "postal_code")),
        Column("best_time", gettext_noop("Best time to visit"), ("best time", "when to visit", "hours"),
               _words(Partner, "best_time")),
        Column("lead_days", gettext_noop("Ask this many days ahead"), ("lead time", "lead days", "days ahead"),
               whole_of(730)),
        Column("how_often", gettext_noop("How often they give"), ("how often",), _choice(HowOften)),
        Column("counted_per", gettext_noop("How they count"), (), _choice(CountedPer)),
        Column("fiscal_year_starts", gettext_noop("Their fiscal year begins in month"), ("fiscal year",),
               whole_of(12, 1)),
        Column("decides", gettext_noop("When and how they decide"), ("decides",), _words(Partner, "decides")),
        Column("wants", gettext_noop("How they want to be asked"), ("how to ask",), _words(Partner, "wants")),
        Column("rest_until", gettext_noop("Don't ask before"), ("rest until", "do not ask before"), read_day),
        Column("rest_why", gettext_noop("Why not before"), ("why rest",), _words(Partner, "rest_why")),
        Column("never_ask", gettext_noop("Never ask"), ("do not ask", "dont ask"), yes_or_no),
        Column("may_name", gettext_noop("May we name them"), ("may we name you", "may name"), _choice(MayName)),
        Column("may_name_asked_on", gettext_noop("Naming asked on"), (), read_day),
        Column("notes", NOTES, REMARKS, text_of(LONGEST_NOTE), text=True),
    ),
    (("name",),),
)  # fmt: skip

CONTACTS = Kind(
    "contacts",
    gettext_noop("Contacts"),
    (
        *_at(must=True, label=gettext_noop("Partner"), words=PLACES),
        Column("name", NAME, ("contact", "person", "contact name", "full name", "contact person"), _name(Contact)),
        Column("first_name", gettext_noop("First name"), ("first", "given name"), _words(Contact, "name")),
        Column("last_name", gettext_noop("Last name"), ("last", "surname", "family name"), _words(Contact, "name")),
        Column("role", gettext_noop("Role"), ("title", "job title", "position", "job"), _words(Contact, "role")),
        Column("phone", PHONE, PHONES, read_stored_phone),
        Column("email", gettext_noop("E-mail"), EMAILS, read_email),
        Column("decides", gettext_noop("Decides"), ("decision maker",), yes_or_no),
        Column("since", gettext_noop("Since"), ("there since", "start date"), read_day),
        Column("left_on", gettext_noop("Left on"), ("left", "end date"), read_day),
    ),
    (("partner",), ("name", "first_name", "last_name")),
)

GIFTS = Kind(
    "gifts",
    gettext_noop("Gifts"),
    (
        Column("gift", gettext_noop("Gift"), ("gift number", "gift no"), whole_of(999_999_999, 1)),
        Column("day", gettext_noop("Came on"), DAYS, read_day, must=True),
        *_at(must=True, label=gettext_noop("From"), words=PLACES),
        Column("school", gettext_noop("School"), ("building", "campus"), text_of(120)),
        Column("form", gettext_noop("Form"), ("kind", "type", "kind of gift", "gift type"), _choice(Form)),
        Column("description", gettext_noop("What"), ("item", "items", "description", "gift", "donation", "what came",
               "material", "materials"), _words(GiftLine, "description")),
        Column("quantity", gettext_noop("How many"), ("quantity", "qty", "count", "number", "pieces"),
               whole_of(MOST_PIECES)),
        Column("unit", gettext_noop("Unit"), ("units",), _words(GiftLine, "unit")),
        Column("condition", gettext_noop("Condition"), (), _words(GiftLine, "condition")),
        Column("risk", gettext_noop("Is it one of these"), ("risk",), _choice(Risk)),
        Column("amount_cents", gettext_noop("Amount"), ("money", "cash", "check", "dollars", "usd"), parse_cents),
        Column("money_kind", gettext_noop("Money as"), ("paid by", "payment"), _choice(MoneyKind)),
        Column("given_value_cents", gettext_noop("The giver's own figure"), ("value", "donor value", "stated value"),
               parse_cents),
        Column("gave_back", gettext_noop("What we gave back"), ("given back",), _words(Gift, "gave_back")),
        Column("gave_back_cents", gettext_noop("Its estimated value"), (), parse_cents),
        Column("trade", gettext_noop("Part of a trade"), ("trade",), yes_or_no),
        Column("purpose", gettext_noop("Purpose the giver named"), ("purpose",), _words(Gift, "purpose")),
        Column("project", gettext_noop("Project"), (), text_of(200)),
        Column("received_by", gettext_noop("Received by"), ("accepted by",), _words(Gift, "received_by")),
        Column("place", gettext_noop("Where it is"), ("shelf", "location", "room"), _words(Gift, "place")),
        Column("label_readable", gettext_noop("Label readable"), (), yes_or_no),
        Column("fit_for_youngest", gettext_noop("Fit for the youngest grade"), (), yes_or_no),
        Column("is_clean", gettext_noop("Clean"), (), yes_or_no),
        Column("accepted_on", gettext_noop("Accepted on"), ("board approved",), read_day),
        Column("return_on", gettext_noop("Return the loan by"), ("return by",), read_day),
        Column("returned_on", gettext_noop("Returned on"), ("returned",), read_day),
        Column("handed_in_on", gettext_noop("Handed in on"), ("deposited", "handed in"), read_day),
        Column("receipt_number", gettext_noop("Receipt number"), ("receipt", "receipt no"),
               _words(Gift, "receipt_number")),
        Column("thanked_on", gettext_noop("Thanked on"), ("thank you sent", "thanked", "thank you", "letter sent"),
               read_day),
        Column("thanked_how", gettext_noop("Thanked how"), (), _words(Thanks, "how")),
    ),
    (("day",), ("partner",)),
)  # fmt: skip

CLASSES = Kind(
    "classes",
    gettext_noop("Classes"),
    (
        Column("school", gettext_noop("School"), HEADS["school"]),
        Column("label", gettext_noop("Class"), HEADS["label"], must=True),
        Column("grade", gettext_noop("Grade"), HEADS["grade"]),
        Column("students", gettext_noop("Students"), HEADS["students"]),
        Column("meets_on", gettext_noop("Has art on"), HEADS["meets_on"]),
        Column("minutes", gettext_noop("Minutes"), HEADS["minutes"]),
    ),
    (("label",),),
)

VISITS = Kind(
    "visits",
    gettext_noop("Visits"),
    (
        Column("day", gettext_noop("Day"), DAYS, read_day, must=True),
        *_at(must=True, label=gettext_noop("Where"), words=PLACES),
        Column("how", gettext_noop("How"), ("by", "way", "kind", "type"),
               _choice(How, call="phone", called="phone", visit="in_person", visited="in_person", mail="letter")),
        Column("happened", gettext_noop("What happened"), ("result", "outcome", "answer", "response"),
               _choice(Happened, hello="hello", offered="offered", declined="no", agreed="yes")),
        Column("contact", gettext_noop("Whom I met"), ("contact", "person", "spoke with", "met"), _name(Contact)),
        Column("sheet_left", gettext_noop("Sheet left"), ("left sheet", "flyer left"), yes_or_no),
        Column("note", gettext_noop("Note"), REMARKS, text_of(LONGEST_NOTE), text=True),
        Column("by", gettext_noop("By whom"), ("logged by", "visitor"), _words(Visit, "by")),
    ),
    (("day",), ("partner",)),
)  # fmt: skip

KINDS = {kind.slug: kind for kind in (PARTNERS, CONTACTS, CLASSES, GIFTS, VISITS)}
