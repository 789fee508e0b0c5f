"""How many syllables a Spanish word has when it is read aloud.

By the rules of the Real Academia Española, Ortografía (2010): a, e and o are strong, i and u weak; strong ones stand
apart, weak ones join their neighbours unless they carry an accent. A silent u (que, gui) and an h count for nothing.
"""

from __future__ import annotations

import re
import unicodedata

_STRONG = "aeoáéó"
_ACCENTED = "íú"
_PARTS = re.compile(r"\d[\d,.]*|[a-zñü´áéíóú]+", re.IGNORECASE)
_VOWELS = re.compile(r"[aeiouáéíóúü]+")
# fmt: off
_UNITS = [
    "cero", "uno", "dos", "tres", "cuatro", "cinco", "seis", "siete", "ocho", "nueve", "diez", "once", "doce", "trece",
    "catorce", "quince", "dieciséis", "diecisiete", "dieciocho", "diecinueve", "veinte", "veintiuno", "veintidós",
    "veintitrés", "veinticuatro", "veinticinco", "veintiséis", "veintisiete", "veintiocho", "veintinueve",
]
_TENS = ["treinta", "cuarenta", "cincuenta", "sesenta", "setenta", "ochenta", "noventa"]
_HUNDREDS = [
    "ciento", "doscientos", "trescientos", "cuatrocientos", "quinientos", "seiscientos", "setecientos", "ochocientos",
    "novecientos",
]
# fmt: on


def syllables_es(word: str) -> int:
    """Syllables of one word as it stands in a text; a number as it is read; 0 where there is neither."""
    return sum(map(_part, _PARTS.findall(unicodedata.normalize("NFC", word).lower())))


def _part(part: str) -> int:
    if part[0].isdigit():
        digits = re.sub(r"\D", "", part)
        if len(digits) > 6:
            return sum(_part_of_word(_UNITS[int(digit)]) for digit in digits)
        return sum(map(_part_of_word, number_words(int(digits)).split()))
    return _part_of_word(part)


def _part_of_word(word: str) -> int:
    plain = re.sub(r"(?<=[aeiouáéíóúü])y$|^y$|(?<=[^aeiouáéíóúü])y$|(?<=[aeiouáéíóúü])y(?=[^aeiouáéíóúü])", "i", word)
    plain = re.sub(r"qu(?=[eiéí])", "q", re.sub(r"gu(?=[eiéí])", "g", plain)).replace("h", "")
    return sum(_group(group) for group in _VOWELS.findall(plain)) or (1 if word else 0)


def _group(vowels: str) -> int:
    """Nuclei in a run of vowels: each strong or accented one, and one where only weak ones stand."""
    count = 0
    for sign in vowels:
        count += sign in _STRONG or sign in _ACCENTED
    return count or 1


def number_words(number: int) -> str:
    """
    >>> number_words(2026), number_words(31), number_words(100)
    ('dos mil veintiséis', 'treinta y uno', 'cien')
    """
    if number < 30:
        return _UNITS[number]
    if number < 100:
        ten, one = divmod(number, 10)
        return _TENS[ten - 3] + (f" y {_UNITS[one]}" if one else "")
    if number < 1000:
        hundred, rest = divmod(number, 100)
        return "cien" if number == 100 else _HUNDREDS[hundred - 1] + (f" {number_words(rest)}" if rest else "")
    thousand, rest = divmod(number, 1000)
    many = "" if thousand == 1 else f"{number_words(thousand)} "
    return f"{many}mil" + (f" {number_words(rest)}" if rest else "")
