"""Names folded for order and search, so that SQLite and PostgreSQL give the same lists.

A column of keys has to be compared code point by code point (PostgreSQL: collation "C"; SQLite does so by default).
"""

from __future__ import annotations

import re
import unicodedata

# One sign can fold to eighteen (U+FDFA), so a key is cut to what its column holds.
KEY_LENGTH = 200

# Letters whose accent is part of the letter: the Unicode decomposition leaves them whole.
_WHOLE = str.maketrans(
    {"ø": "o", "đ": "d", "ł": "l", "ħ": "h", "ŧ": "t", "ı": "i", "æ": "ae", "œ": "oe", "þ": "th", "ð": "d", "ŋ": "n"}
)
_APOSTROPHES = dict.fromkeys(map(ord, "'’‘ʼʻ`´ʹ"))
_INITIALS = re.compile(r"(?<=\b\w)\.(?=\w\b)")


def name_key(text: str) -> str:
    """`text` without case, accents and punctuation, cut to KEY_LENGTH; "" when there is no letter or digit.

    `"  Café-Bar  O’Neill & Søn"` → `"cafe bar oneill and son"`. Letters of every script stay.
    """
    return fold(text)[:KEY_LENGTH].rstrip()


def fold(text: str) -> str:
    """As `name_key`, at any length: for comparing whole texts.

    Folding is Unicode's compatibility decomposition and case folding (Unicode Standard Annex 15 and chapter 5.18).
    """
    folded = unicodedata.normalize("NFC", text).translate(_APOSTROPHES).casefold()
    bare = "".join(sign for sign in unicodedata.normalize("NFKD", folded) if not _is_accent(sign))
    bare = bare.translate(_APOSTROPHES).casefold()
    joined = _INITIALS.sub("", bare.translate(_WHOLE).replace("&", " and "))
    signs = unicodedata.normalize("NFC", "".join(map(_tamed, joined)))
    return " ".join(signs.split())


def _is_accent(sign: str) -> bool:
    # Classes 10 to 36 are Hebrew, Arabic and Syriac points; 200 and above, and the overlays of class 1, are
    # accents. Signs of other classes are vowels and voicing in Indic, Thai and Japanese words: letters to a reader.
    place = unicodedata.combining(sign)
    return place == 1 or 10 <= place <= 36 or place >= 200


def _tamed(sign: str) -> str:
    kind = unicodedata.category(sign)
    if kind[0] in "LMN":
        return sign
    return "" if kind in ("Cf", "Cs", "Co", "Cn") else " "
