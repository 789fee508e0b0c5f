"""A small strict reader of mail, written after the standards: RFC 5322 (lines, fields, folding, dates, addresses),
RFC 2047 (encoded words), RFC 2045 (quoted-printable).

It knows the forms a draft may use and refuses everything else; obsolete forms count as wrong.
"""

from __future__ import annotations

import base64
import re
from dataclasses import dataclass

ATEXT = r"[A-Za-z0-9!#$%&'*+/=?^_`{|}~-]"
DOT_ATOM = rf"{ATEXT}+(?:\.{ATEXT}+)*"
ADDR_SPEC = re.compile(rf"(?P<local>{DOT_ATOM})@(?P<domain>{DOT_ATOM})")
ENCODED = re.compile(r"=\?(?P<charset>[A-Za-z0-9-]+)\?(?P<how>[BbQq])\?(?P<text>[\x21-\x3e\x40-\x7e]*)\?=")
DATE = re.compile(
    r"(?:Mon|Tue|Wed|Thu|Fri|Sat|Sun), \d{2} (?:Jan|Feb|Mar|Apr|May|Jun|Jul|Aug|Sep|Oct|Nov|Dec) \d{4}"
    r" \d{2}:\d{2}:\d{2} [+-]\d{4}"
)
ONCE = {"date", "from", "to", "bcc", "subject"}


class Wrong(AssertionError):
    """What the standard forbids."""


@dataclass(frozen=True)
class Mailbox:
    name: str
    address: str


@dataclass(frozen=True)
class Mail:
    fields: dict[str, str]
    text: str

    def mailboxes(self, field: str) -> list[Mailbox]:
        return [mailbox(one) for one in split_list(self.fields.get(field, ""))]


def read(data: bytes) -> Mail:
    """Raises Wrong."""
    must(b"\r" not in data.replace(b"\r\n", b""), "a bare CR")
    must(b"\n" not in data.replace(b"\r\n", b""), "a bare LF")
    lines = data.split(b"\r\n")
    must(max(map(len, lines)) <= 998, "a line of more than 998 signs")
    head, _end, body = data.partition(b"\r\n\r\n")
    fields = read_fields(head)
    must({"date", "from"} <= set(fields), "no Date or From")
    must(DATE.fullmatch(fields["date"]) is not None, "a date of another form")
    must(fields.get("content-transfer-encoding") == "quoted-printable", "an encoding this reader does not know")
    return Mail(fields, quoted_printable(body).decode("utf-8"))


def must(holds: bool, what: str) -> None:
    if not holds:
        raise Wrong(what)


def read_fields(head: bytes) -> dict[str, str]:
    must(all(byte == 9 or byte in (13, 10) or 32 <= byte <= 126 for byte in head), "a sign beyond ASCII in the head")
    for line in head.split(b"\r\n"):
        must(b"=?" not in line or len(line) <= 76, "a line with an encoded word of more than 76 signs")
        must(bool(line.strip()), "a line of blanks only")
    unfolded = re.sub(rb"\r\n(?=[ \t])", b"", head).decode("ascii")
    fields: dict[str, str] = {}
    for field in unfolded.split("\r\n"):
        name, colon, value = field.partition(":")
        must(bool(colon) and re.fullmatch(r"[\x21-\x39\x3b-\x7e]+", name) is not None, f"no field: {field}")
        must(name.lower() not in fields or name.lower() not in ONCE, f"{name} twice")
        fields[name.lower()] = value.strip(" \t")
    return fields


def words(value: str) -> str:
    """Unstructured text with its encoded words read; blanks between two of them are nothing."""
    joined = re.sub(r"(\?=)[ \t]+(=\?)", r"\1\2", value)
    for match in ENCODED.finditer(value):
        must(len(match[0]) <= 75, "an encoded word of more than 75 signs")
    raw = b""
    out, place = [], 0
    for match in ENCODED.finditer(joined):
        if match.start() != place and raw:
            out.append(raw.decode("utf-8"))
            raw = b""
        out.append(joined[place : match.start()])
        must(match["charset"].lower() == "utf-8", "another charset")
        raw += decoded(match["how"].upper(), match["text"])
        place = match.end()
        if not joined[place:].startswith("=?"):
            out.append(raw.decode("utf-8"))
            raw = b""
    return "".join([*out, joined[place:]])


def decoded(how: str, text: str) -> bytes:
    if how == "B":
        return base64.b64decode(text, validate=True)
    return re.sub(rb"=([0-9A-F]{2})", lambda hexed: bytes([int(hexed[1], 16)]), text.replace("_", " ").encode("ascii"))


def split_list(value: str) -> list[str]:
    """At commas outside quotes."""
    parts, quoted, start = [], False, 0
    for place, sign in enumerate(value):
        if sign == '"' and value[place - 1 : place] != "\\":
            quoted = not quoted
        elif sign == "," and not quoted:
            parts.append(value[start:place])
            start = place + 1
    return [part.strip() for part in (*parts, value[start:]) if part.strip()]


def mailbox(text: str) -> Mailbox:
    angle = re.fullmatch(r"(?P<name>.*?)\s*<(?P<spec>[^<>]*)>", text)
    spec = angle["spec"] if angle else text
    must(ADDR_SPEC.fullmatch(spec) is not None, f"no address: {text}")
    name = angle["name"] if angle else ""
    if name.startswith('"'):
        must(re.fullmatch(r'"(?:[^"\\]|\\.)*"', name) is not None, f"no quoted name: {name}")
        name = re.sub(r"\\(.)", r"\1", name[1:-1])
    else:
        atoms = [word for word in name.split() if not ENCODED.fullmatch(word)]
        must(all(re.fullmatch(rf"{ATEXT}+", word) for word in atoms), f"a sign that must be quoted: {name}")
    return Mailbox(words(name), spec)


def quoted_printable(body: bytes) -> bytes:
    out = b""
    for line in body.split(b"\r\n"):
        must(len(line) <= 76, "a quoted-printable line of more than 76 signs")
        must(re.fullmatch(rb"(?:[\x21-\x3c\x3e-\x7e \t]|=[0-9A-F]{2})*=?", line) is not None, f"not encoded: {line!r}")
        must(not line.endswith((b" ", b"\t")), "a blank at a line's end")
        soft = line.endswith(b"=")
        plain = line[:-1] if soft else line
        out += re.sub(rb"=([0-9A-F]{2})", lambda hexed: bytes([int(hexed[1], 16)]), plain) + (b"" if soft else b"\n")
    return out[:-1]
