"""Phone numbers as `phonenumbers` reads them: kept as E.164 with the extension, shown the way the country writes them.

One column keeps a number: `+12025550143`, with an extension `+12025550143;ext=45` (the parameter of RFC 3966).
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from partners.ground.names import fold
from partners.ground.plain import PlainError, gettext_noop

if TYPE_CHECKING:
    from phonenumbers import PhoneNumber

REGION = "US"
# E.164 allows fifteen digits; with the plus sign and an extension of at most twenty digits a number takes 41 signs.
MOST_DIGITS = 15
STORED_LENGTH = 48
# A list writes the same numbers each time it is looked at, and reading one takes a quarter of a millisecond.
KEPT = 4096


class PhoneError(PlainError):
    """What was typed is not a phone number."""


@dataclass(frozen=True, slots=True)
class Phone:
    """A number that can exist. `is_valid` is False where no such number is in use, as far as the library knows:
    the screen tells, and keeps it (`555-0123`, a number without its area code).
    """

    e164: str
    extension: str = ""
    is_valid: bool = True

    @property
    def stored(self) -> str:
        return f"{self.e164};ext={self.extension}" if self.extension else self.e164


def read_phone(typed: str, region: str = REGION) -> Phone:
    """The number in what was typed; numbers without a country code are of `region`.

    Raises PhoneError where there is no number, or one that is too short or too long to exist.
    """
    import phonenumbers

    try:
        number = phonenumbers.parse(typed.strip(), region)
    except phonenumbers.NumberParseException as error:
        if error.error_type == error.TOO_LONG:
            raise _too_long(typed) from None
        sentence = gettext_noop("%(typed)s is not a phone number. Type it like (201) 555-0123.")
        raise PhoneError("no_phone", sentence, typed=typed.strip()) from None
    e164 = phonenumbers.format_number(number, phonenumbers.PhoneNumberFormat.E164)
    possible = phonenumbers.is_possible_number_with_reason(number)
    if len(e164) > MOST_DIGITS + 1 or possible == phonenumbers.ValidationResult.TOO_LONG:
        raise _too_long(typed)
    if not phonenumbers.is_possible_number(number):
        sentence = gettext_noop("%(typed)s has too few digits for a phone number. Is the area code missing?")
        raise PhoneError("too_short", sentence, typed=typed.strip())
    return Phone(e164, number.extension or "", phonenumbers.is_valid_number(number))


@lru_cache(KEPT)
def national(stored: str) -> str:
    """`(202) 555-0143 ext. 45`; a number of another country with its country code: `+44 20 7946 0018`."""
    import phonenumbers

    number = _number(stored)
    if number is None:
        return stored
    at_home = number.country_code == phonenumbers.country_code_for_region(REGION)
    style = phonenumbers.PhoneNumberFormat
    return phonenumbers.format_number(number, style.NATIONAL if at_home else style.INTERNATIONAL)


@lru_cache(KEPT)
def tel_link(stored: str) -> str:
    """The address behind the number (RFC 3966): `tel:+1-202-555-0143;ext=45`; "" where there is none.

    A number without its area code is a local one: `tel:555-0123;phone-context=+1`.
    """
    import phonenumbers

    number = _number(stored)
    if number is None:
        return ""
    if phonenumbers.is_possible_number_with_reason(number) == phonenumbers.ValidationResult.IS_POSSIBLE_LOCAL_ONLY:
        local = phonenumbers.PhoneNumber(
            country_code=number.country_code, national_number=number.national_number, extension=None
        )
        written = phonenumbers.format_number(local, phonenumbers.PhoneNumberFormat.NATIONAL)
        extension = f";ext={number.extension}" if number.extension else ""
        return f"tel:{written}{extension};phone-context=+{number.country_code}"
    return phonenumbers.format_number(number, phonenumbers.PhoneNumberFormat.RFC3966)


def phone_key(typed_or_stored: str) -> str:
    """What tells two numbers apart, extensions left out: E.164, or the text folded where it is no number."""
    try:
        return read_phone(typed_or_stored).e164
    except PhoneError:
        return fold(typed_or_stored)


def _number(stored: str) -> PhoneNumber | None:
    import phonenumbers

    try:
        return phonenumbers.parse(stored, REGION)
    except phonenumbers.NumberParseException:
        return None


def _too_long(typed: str) -> PhoneError:
    sentence = gettext_noop("%(typed)s has too many digits for one phone number.")
    return PhoneError("too_long", sentence, typed=typed.strip())
