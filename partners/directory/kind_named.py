"""What kind of partner a name tells of: a first guess for who is written down by name alone, to be put right."""

from __future__ import annotations

import re

BUSINESS = "business"
# The first that fits: what sells is a business, whatever else its name says.
WORDS: tuple[tuple[str, str], ...] = (
    (
        BUSINESS,
        r"\b(?:shop|store|supply|supplies|inc|llc|co|company|caf[eé]|coffee|bakery|bank|frames?|framing|print(?:s|ing)?|"
        r"market|hardware|lumber|deli|diner|grill|pizza|pizzeria|restaurant|salon|florists?|nursery|garden center|"
        r"pharmacy|grocery|motors|furniture|fabrics)\b",
    ),
    ("family_group", r"\b(?:pta|pto|ptsa|boosters?|parents?|families)\b"),
    ("library", r"\b(?:library|libraries|biblioteca)\b"),
    ("grantmaker", r"\b(?:foundation|endowment|fundaci[oó]n|community fund|arts council)\b"),
    ("arts_group", r"\b(?:museum|museo|theat(?:er|re)|orchestra|symphony|chorus|opera|ballet|artists?|arts|guild)\b"),
    (BUSINESS, r"\b(?:driving|dance|music|cooking|karate|ski) school\b"),
    (
        "civic_group",
        r"\b(?:school|escuela|elementary|academy|university|college|preschool|district|rotary|lions|kiwanis|legion|vfw|"
        r"church|parish|temple|mosque|synagogue|ymca|ywca|scouts?|4-h|chamber of commerce|city hall|(?:city|town) of|"
        r"fire (?:department|station|house)|police|senior center|community center|historical society|grange)\b",
    ),
    ("person", r"^(?:mr|mrs|ms|miss|mx|dr|sr|sra)\b"),
)

# Of businesses, in English and Spanish; the first that fits.
TRADES: tuple[tuple[str, str], ...] = (
    ("hardware", r"hardware|lumber|ferreter[ií]a|tlapaler[ií]a|maderer[ií]a"),
    ("coffee_shop", r"caf[eé]|coffee|bakery|bakers|panader[ií]a|pasteler[ií]a|cafeter[ií]a"),
    ("restaurant", r"restaurante?|diner|grill|pizza|pizzer[ií]a|pizzeria|deli|taquer[ií]a|fonda|comedor"),
    ("florist", r"florists?|flowers?|florister[ií]a|florer[ií]a|flores"),
    ("garden", r"garden|gardens|nursery|nurseries|vivero|viveros"),
    ("frame_shop", r"framing|frames?|enmarcados?|marcos"),
    ("printer", r"print(?:s|ers?|ing)?|copies|imprenta"),
    ("grocer", r"grocer|grocers|grocery|market|supermarket|mercado|supermercado|bodega|abarrotes|fruter[ií]a"),
    ("bank", r"bank|credit union|banco"),
    ("accountant", r"accountants?|accounting|bookkeep(?:ing|ers?)|contador(?:es|a)?"),
    ("retail", r"yarns?|fabrics?|crafts?|toys|telas|mercer[ií]a|librer[ií]a|papeler[ií]a|jugueter[ií]a"),
)

TRADE_PATTERNS = tuple((kind, re.compile(rf"\b(?:{words})\b", re.IGNORECASE)) for kind, words in TRADES)
PATTERNS = tuple((kind, re.compile(words, re.IGNORECASE)) for kind, words in WORDS)


def kind_named(name: str) -> str:
    """The kind that a name tells; what tells nothing is taken for a business.

    >>> kind_named("Alder Falls Public Library"), kind_named("North Ridge School"), kind_named("Ms. Odell")
    ('library', 'civic_group', 'person')
    >>> kind_named("Library Street Café"), kind_named("Bluebird Bakery"), kind_named("Lakeside Arts Guild")
    ('business', 'business', 'arts_group')
    """
    return kind_told(name) or BUSINESS


def kind_told(name: str) -> str:
    """Nothing where the name could be anybody's.

    >>> kind_told("Corner Hardware"), kind_told("Ana Ruiz")
    ('business', '')
    """
    return next((kind for kind, pattern in PATTERNS if pattern.search(name)), "")


def business_named(name: str) -> str:
    """What kind of business the name tells of; nothing where it tells none.

    >>> business_named("Ferretería El Molino"), business_named("Fern Street Hardware"), business_named("Ink & Quire")
    ('hardware', 'hardware', '')
    """
    return next((kind for kind, pattern in TRADE_PATTERNS if pattern.search(name)), "")
