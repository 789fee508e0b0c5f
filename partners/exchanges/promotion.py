"""Words that sound like promoting a business, in what a class is to make. Pure.

Boards restrict using students to promote a business (common practice of districts; their own rules decide). The list
is ours and only warns: a garden on a seed packet is a subject, the shop's logo on it is an advertisement.
"""

from __future__ import annotations

import re

# Whole words, small letters; a star stands for any ending.
SOUNDS = (
    "ad", "ads", "advert*", "banner*", "billboard*", "brand", "brands", "branded", "branding", "business card*",
    "commercial*", "coupon*", "discount*", "flier*", "flyer*", "grand opening*", "leaflet*", "logo*", "mascot*",
    "menu", "menus", "poster for the*", "price", "prices", "price list*", "promo*", "sale", "sales", "slogan*",
    "special offer*", "sponsor*", "store sign*", "shop sign*", "storefront sign*", "trademark*", "voucher*",
    "web address*",
)  # fmt: skip
INNOCENT = ("brand new", "brand-new", "priceless")


def _pattern(word: str) -> str:
    return re.escape(word).replace(r"\*", r"\w*").replace(r"\ ", r"[\s-]+")


FINDS = re.compile(rf"(?<!\w)(?:{'|'.join(map(_pattern, SOUNDS))})(?!\w)", re.IGNORECASE)
LEAVES_OUT = re.compile("|".join(_pattern(words) for words in INNOCENT), re.IGNORECASE)


def promoting(*texts: str) -> list[str]:
    """The words of the texts that sound like promotion, each once, as they were typed."""
    found: dict[str, str] = {}
    for text in texts:
        for word in FINDS.findall(LEAVES_OUT.sub(" ", text)):
            found.setdefault(word.casefold(), word)
    return list(found.values())
