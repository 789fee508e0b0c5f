"""Contact cards against RFC 6350: its own examples, a plain reading of it, and the vobject library beside both."""

from __future__ import annotations

import re

import pytest
import vobject
from hypothesis import example, given, settings
from hypothesis import strategies as st

from outreach.feeds.cards import Card, card_file, folded, name_parts

SHOP = Card(
    uid="9c1b6a1e-6d7c-5a8e-9a51-0d5f0a2d7e11",
    name="Riverbend Garden Center; Pots, Bulbs",
    organization="Riverbend Garden Center; Pots, Bulbs",
    tel=("tel:+1-201-555-0116;ext=45",),
    email="hello@example.org",
    street="12 Mill Street, Suite 3",
    city="Alder Falls",
    state="NJ",
    postal_code="07001",
    web="https://riverbend.example.org/a?b=1,2",
)


def written(card: Card) -> bytes:
    return b"".join(card_file([card]))


def lines_of(file: bytes) -> list[str]:
    """Lines unfolded as RFC 6350, 3.2 says; every raw line is whole characters and at most 75 octets."""
    assert file.endswith(b"\r\n")
    assert not file.replace(b"\r\n", b"").count(b"\n") + file.replace(b"\r\n", b"").count(b"\r")
    for raw in file.split(b"\r\n"):
        assert len(raw) <= 75
        raw.decode("utf-8")
    return file.decode("utf-8").replace("\r\n ", "").removesuffix("\r\n").split("\r\n")


def parts_of(line: str) -> list[str]:
    """The components of a structured value, without their escapes (RFC 6350, 3.4)."""
    parts = re.findall(r"(?s)(?:^|;)((?:\\.|[^\\;])*)", line.partition(":")[2])
    return [re.sub(r"\\([\\;,nN])", lambda found: "\n" if found[1] in "nN" else found[1], part) for part in parts]


def value(lines: list[str], name: str) -> str:
    (line,) = [line for line in lines if re.split("[:;]", line)[0] == name]
    return line


def test_a_shop_is_an_organization_as_the_standard_writes_it() -> None:
    lines = lines_of(written(SHOP))
    # RFC 6350, 6.7.9: VERSION comes right after BEGIN. 6.1.4: org. 6.2.1: FN at least once.
    assert lines[:3] == ["BEGIN:VCARD", "VERSION:4.0", "KIND:org"]
    assert lines[-1] == "END:VCARD"
    assert value(lines, "FN") == r"FN:Riverbend Garden Center\; Pots\, Bulbs"
    assert len(parts_of(value(lines, "N"))) == 5
    assert parts_of(value(lines, "ADR")) == ["", "", "12 Mill Street, Suite 3", "Alder Falls", "NJ", "07001", ""]
    # 6.4.1: its example is TEL;VALUE=uri;PREF=1;TYPE="voice,home":tel:+1-555-555-5555;ext=5555
    assert value(lines, "TEL") == 'TEL;VALUE=uri;TYPE="work,voice":tel:+1-201-555-0116;ext=45'
    assert value(lines, "URL") == "URL:https://riverbend.example.org/a?b=1,2"


def test_another_reader_sees_the_same() -> None:
    read = vobject.readOne(written(SHOP).decode())
    assert (read.version.value, read.kind.value, read.fn.value) == ("4.0", "org", SHOP.name)
    assert (read.adr.value.street, read.adr.value.city, read.adr.value.code) == (SHOP.street, "Alder Falls", "07001")
    assert (read.tel.value, read.email.value) == (SHOP.tel[0], "hello@example.org")
    assert read.org.value == [SHOP.name]


@pytest.mark.parametrize(
    ("name", "parts"),
    [
        # RFC 6350, 6.2.2 has N:Public;John;Quinlan,Paul;Mr.;Esq. for John Q. Public; further names stay with the given.
        ("Mr. John Quinlan Public, Esq.", ("Public", "John Quinlan", "", "Mr.", "Esq.")),
        # RFC 6350, 8: its example card is Simon Perreault's.
        ("Simon Perreault", ("Perreault", "Simon", "", "", "")),
        ("Ms. Odell", ("Odell", "", "", "Ms.", "")),
        ("Ana", ("", "Ana", "", "", "")),
        ("Dr.", ("", "Dr.", "", "", "")),
    ],
)
def test_a_persons_name_has_its_five_parts(name: str, parts: tuple[str, ...]) -> None:
    assert name_parts(name) == parts
    card = Card(uid=SHOP.uid, name=name, is_person=True, organization="Copper Kettle Diner", role="owner")
    lines = lines_of(written(card))
    assert parts_of(value(lines, "N")) == list(parts)
    assert (value(lines, "KIND"), value(lines, "TITLE")) == ("KIND:individual", "TITLE:owner")
    read = vobject.readOne(written(card).decode())
    assert (read.n.value.family, read.n.value.given, read.fn.value) == (parts[0], parts[1], name)


def test_a_line_is_folded_between_characters() -> None:
    """RFC 6350, 3.2: a multi-octet character is never split; 75 octets of a line are whole, the 76th begins another."""
    assert folded("x" * 75) == b"x" * 75 + b"\r\n"
    assert folded("x" * 76) == b"x" * 75 + b"\r\n x\r\n"
    assert folded("x" * 74 + "é") == b"x" * 74 + b"\r\n \xc3\xa9\r\n"


@settings(max_examples=60, deadline=None)
@given(st.text(min_size=1, max_size=120), st.text(max_size=200))
@example("Copper Kettle", "at the end\\")
def test_any_words_come_back_whole_and_begin_no_line(name: str, street: str) -> None:
    card = Card(uid=SHOP.uid, name=name, street=street, web="https://a.example.org/\r\nNOTE:x")
    lines = lines_of(written(card))
    shown = [
        "".join(sign if sign.isprintable() or sign == "\n" else " " for sign in words.replace("\r\n", "\n"))
        for words in (name, street)
    ]
    assert parts_of(value(lines, "FN")) == shown[:1]
    assert not street or parts_of(value(lines, "ADR"))[2] == shown[1]
    assert {re.split("[:;]", line)[0] for line in lines} <= {
        "BEGIN", "VERSION", "KIND", "UID", "FN", "N", "ADR", "URL", "END",
    }  # fmt: skip
