import pytest
from hypothesis import given
from hypothesis import strategies as st

from partners.directory.webs import web_key


@pytest.mark.parametrize(
    ("typed", "key"),
    [
        ("https://www.example.org/shop?x=1", "example.org"),
        ("http://Example.ORG:8080", "example.org"),
        ("www.example.org", "example.org"),
        ("shop.example.org.", "shop.example.org"),
        ("https://müller.example", "xn--mller-kva.example"),
        ("https://facebook.com/Bluebird/", "facebook.com/bluebird"),
        ("facebook.com", ""),
        ("no web page", ""),
        ("localhost", ""),
        ("http://[bad", ""),
        ("", ""),
    ],
)
def test_a_web_address_is_known_by_its_host(typed: str, key: str) -> None:
    assert web_key(typed) == key


@given(st.text(max_size=40))
def test_any_text_has_a_key(typed: str) -> None:
    assert web_key(web_key(typed)) == web_key(typed)
