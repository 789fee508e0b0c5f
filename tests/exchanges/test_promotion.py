"""Words that sound like promoting a business."""

import pytest

from partners.exchanges.promotion import promoting


@pytest.mark.parametrize(
    ("words", "found"),
    [
        ("bags with the shop's logo", ["logo"]),
        ("Coupons and FLYERS for the counter", ["Coupons", "FLYERS"]),
        ("menus, a grand  opening banner", ["menus", "grand  opening", "banner"]),
        ("ads for the spring sale", ["ads", "sale"]),
        ("a branded window, special-offer sign", ["branded", "special-offer"]),
        ("logo here, Logo there", ["logo"]),
    ],
)
def test_what_sounds_like_promotion_is_named_as_it_was_typed(words, found):
    assert promoting(words) == found


@pytest.mark.parametrize(
    "words",
    ["decorated paper bags", "wholesale paper", "adding shadows", "brand-new pots", "a priceless garden", "a salad",
     "pricey no, but flying birds", "address tags", "menuet dancers", ""],
)  # fmt: skip
def test_innocent_words_are_left_alone(words):
    assert promoting(words) == []


def test_several_fields_are_read():
    assert promoting("paper bags", "the sponsor's name", "for sale") == ["sponsor", "sale"]
