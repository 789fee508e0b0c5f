"""US money as whole cents: exact in both directions, no binary fractions on the way."""

from __future__ import annotations

import re

from partners.ground.plain import PlainError, gettext_noop

# Ten million dollars: far above any gift to an art room, and inside the integer columns of both databases.
MOST_CENTS = 1_000_000_000

_AMOUNT = re.compile(r"(?P<dollars>[0-9]{1,12}|[1-9][0-9]{0,2}(?:,[0-9]{3}){1,3})?(?:\.(?P<cents>[0-9]{1,2}))?")
_MINUS = ("-", "−", "–", "(")
# Decimal sign and thousands sign by language; Spanish for US families writes money as Puerto Rico does.
_SIGNS = {"en": (".", ","), "es": (".", ",")}


class MoneyError(PlainError):
    """What was typed is not an amount of US money."""


def parse_cents(text: str) -> int:
    """Whole cents of an amount as typed in the United States: `1,234.50`, `12`, `.5`, `$8`.

    Raises MoneyError for an empty, negative, ambiguous (`12,5`) or absurd amount, for more than two decimals, and for
    anything else; nothing is rounded or guessed.
    """
    typed = text.strip()
    if not typed:
        raise MoneyError("empty", gettext_noop("Type an amount, such as 12.50."))
    if typed.startswith(_MINUS):
        raise MoneyError("negative", gettext_noop("Type the amount without a minus sign."))
    amount = typed.removeprefix("$").lstrip(" ")
    match = _AMOUNT.fullmatch(amount)
    if match is None or not amount:
        raise _refusal(amount, typed)
    dollars = int((match["dollars"] or "0").replace(",", ""))
    cents = dollars * 100 + int((match["cents"] or "").ljust(2, "0"))
    if cents > MOST_CENTS:
        raise MoneyError(
            "absurd",
            gettext_noop("%(typed)s is more than this book keeps: at most %(most)s. Is a decimal point missing?"),
            typed=typed,
            most=format_cents(MOST_CENTS),
        )
    return cents


def _refusal(amount: str, typed: str) -> MoneyError:
    if re.fullmatch(r"[0-9,]*\.[0-9]{3,}", amount):
        return MoneyError("decimals", gettext_noop("%(typed)s has more than two digits after the point."), typed=typed)
    if re.fullmatch(r"[0-9.]*+,[0-9.,]*", amount):
        sentence = gettext_noop(
            "%(typed)s can be read in two ways. Write a point before the cents and a comma only between thousands, "
            "such as 1,234.50."
        )
        return MoneyError("ambiguous", sentence, typed=typed)
    if not amount.isascii() and any(sign.isdigit() for sign in amount):
        return MoneyError("digits", gettext_noop("Use the digits 0 to 9, such as 12.50."))
    return MoneyError("not_money", gettext_noop("%(typed)s is not an amount. Type it like 12.50."), typed=typed)


def format_cents(cents: int, language: str = "en-us") -> str:
    """Dollars and cents as they are written in `language` (`en-us`, `es-pr`): 123450 → $1,234.50, -5 → -$0.05."""
    point, comma = _SIGNS.get(language.split("-")[0].lower(), _SIGNS["en"])
    dollars, rest = divmod(abs(cents), 100)
    minus = "-" if cents < 0 else ""
    return f"{minus}${dollars:,}".replace(",", comma) + f"{point}{rest:02d}"
