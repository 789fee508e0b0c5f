"""A mail as a draft: one file that the teacher's own mail program opens, looks at and sends; or a link that opens one.

Internet Message Format (RFC 5322) with encoded words (RFC 2047) and a quoted-printable body (RFC 2045), written here
because the library's own folding makes lines with encoded words longer than RFC 2047 allows. Receivers stand in Bcc
only, so that nobody sees anybody else's address; the draft is addressed to the teacher. A letter with its sheet goes
to one receiver, and stands in To.
"""

from __future__ import annotations

import quopri
import re
from base64 import b64encode, encodebytes
from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime
from email.utils import format_datetime
from hashlib import sha256
from urllib.parse import quote

MOST_SUBJECT = 200
# RFC 5322, 2.1.1: a line should hold 78 signs and must hold no more than 998. RFC 2047, 2: an encoded word holds 75,
# a line with one 76; of base64 that leaves room for 42 bytes beside a field's name.
FOLD = 76
ENCODED_BYTES = 39
_ATEXT = r"[A-Za-z0-9!#$%&'*+/=?^_`{|}~-]"
_ATOMS = re.compile(rf"{_ATEXT}+(?: {_ATEXT}+)*")
_DOT_ATOM = re.compile(rf"{_ATEXT}+(?:\.{_ATEXT}+)*")
_END = "\r\n"


class NoAddress(ValueError):
    """An address that no mail can go to."""


def draft(*, sender: str, name: str, receivers: Sequence[str], subject: str, body: str, written_at: datetime) -> bytes:
    """The draft's bytes. Each receiver once, whatever its case; the sender, as receiver, stands in To already.

    `written_at` must know its time zone. Raises NoAddress for a sender or receiver that is no address.
    """
    me = mailbox(address(sender), name)
    hidden = [address(one) for one in each_once(receivers, apart=sender)]
    return headed(
        ("Date", format_datetime(written_at)),
        ("From", me),
        ("To", me),
        ("Bcc", f",{_END} ".join(hidden)),
        ("Subject", unstructured(one_line(subject)[:MOST_SUBJECT])),
        ("X-Unsent", "1"),
        ("MIME-Version", "1.0"),
    ) + text_part(body)


def draft_with_sheet(
    *,
    sender: str,
    name: str,
    receiver: str,
    subject: str,
    body: str,
    sheet: bytes,
    file_name: str,
    written_at: datetime,
) -> bytes:
    """A draft to one receiver with a PDF: the words are read in the mail, and the sheet is attached (RFC 2046, 5.1.3).

    `file_name` is of plain signs; the rest as in `draft`.
    """
    # Not among the words, which cannot hold what is made of the sheet's bytes.
    between = f"sheet-{sha256(sheet).hexdigest()[:40]}"
    kind = f'multipart/mixed;{_END} boundary="{between}"'
    head = headed(
        ("Date", format_datetime(written_at)),
        ("From", mailbox(address(sender), name)),
        ("To", address(receiver)),
        ("Subject", unstructured(one_line(subject)[:MOST_SUBJECT])),
        ("X-Unsent", "1"),
        ("MIME-Version", "1.0"),
        ("Content-Type", kind),
    )
    attached = headed(
        ("Content-Type", "application/pdf"),
        ("Content-Transfer-Encoding", "base64"),
        ("Content-Disposition", f'attachment;{_END} filename="{file_name}"'),
    )
    end = _END.encode()
    parts = (text_part(body), attached + end + encodebytes(sheet).replace(b"\n", end))
    begin = f"{_END}--{between}".encode()
    return head + b"".join(begin + end + part for part in parts) + begin + b"--" + end


def headed(*fields: tuple[str, str]) -> bytes:
    """Those fields that say something."""
    return "".join(f"{field}: {value}{_END}" for field, value in fields if value).encode("ascii")


def text_part(body: str) -> bytes:
    kind = headed(("Content-Type", 'text/plain; charset="utf-8"'), ("Content-Transfer-Encoding", "quoted-printable"))
    return kind + _END.encode() + encoded_body(plain(body))


def mail_link(receiver: str, subject: str, body: str = "") -> str:
    """A link that opens a mail in the reader's own program (RFC 6068): blanks are %20, lines end in %0D%0A."""
    to = quote(address(receiver), safe="@")
    lines = plain(body).strip("\n").replace("\n", _END)
    fields = {"subject": one_line(subject)[:MOST_SUBJECT], "body": lines}
    asked = "&".join(f"{name}={quote(value, safe='')}" for name, value in fields.items() if value)
    return f"mailto:{to}?{asked}" if asked else f"mailto:{to}"


def each_once(receivers: Iterable[str], apart: str = "") -> list[str]:
    """In their order, without those that differ only in case."""
    found: dict[str, str] = {}
    for one in receivers:
        found.setdefault(one.strip().casefold(), one.strip())
    found.pop(apart.strip().casefold(), None)
    return list(found.values())


def address(spec: str) -> str:
    """The address as it may stand in a header: its domain in letters that every mail server knows."""
    local, _at, domain = spec.strip().rpartition("@")
    try:
        known = domain.encode("idna").decode("ascii")
    except UnicodeError as error:
        raise NoAddress(spec) from error
    if not (_DOT_ATOM.fullmatch(local) and _DOT_ATOM.fullmatch(known)) or len(local) > 64 or len(known) > 255:
        raise NoAddress(spec)
    return f"{local}@{known}"


def mailbox(spec: str, name: str) -> str:
    """An address with the name of whose it is; a name with signs that mean something is quoted."""
    shown = one_line(name)
    if not shown:
        return spec
    if not shown.isascii() or len(shown) > FOLD - 16 or "=?" in shown:
        return f"{encoded(shown)}{_END} <{spec}>"
    if not _ATOMS.fullmatch(shown):
        shown = '"' + re.sub(r'(["\\])', r"\\\1", shown) + '"'
    return f"{shown}{_END} <{spec}>"


def unstructured(text: str) -> str:
    """Text of a header, folded before words; with encoded words where it holds more than plain short ones."""
    if not text.isascii() or "=?" in text or max(map(len, text.split()), default=0) > FOLD - 16:
        return encoded(text)
    lines = [""]
    for word in text.split():
        # The field's name stands before the first line.
        if lines[-1] and len(lines[-1]) + len(word) > FOLD - 12:
            lines.append("")
        lines[-1] = f"{lines[-1]} {word}" if lines[-1] else word
    return f"{_END} ".join(lines)


def encoded(text: str) -> str:
    """The text as encoded words, each on its line and made of whole characters."""
    return f"{_END} ".join(f"=?utf-8?b?{b64encode(part).decode()}?=" for part in _parts(text))


def _parts(text: str) -> Iterator[bytes]:
    part = b""
    for sign in text:
        more = sign.encode("utf-8")
        if len(part) + len(more) > ENCODED_BYTES:
            yield part
            part = b""
        part += more
    if part:
        yield part


def one_line(text: str) -> str:
    """No line end and no other control sign gets into a header: it would begin one of its own."""
    return " ".join("".join(sign if sign.isprintable() else " " for sign in text).split())


def plain(text: str) -> str:
    """Lines end in one way, and control signs are blanks."""
    lines = text.replace("\r\n", "\n").replace("\r", "\n").split("\n")
    kept = ("".join(sign if sign.isprintable() else " " for sign in line).rstrip() for line in lines)
    return "\n".join(kept).strip("\n") + "\n"


def encoded_body(text: str) -> bytes:
    return quopri.encodestring(text.encode("utf-8")).replace(b"\n", _END.encode())
