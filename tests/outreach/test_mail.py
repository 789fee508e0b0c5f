"""Mail drafts, read back by the standard library's parser, by a strict reader of our own, and by git's."""

from __future__ import annotations

import email
import re
import shutil
import subprocess
from datetime import datetime
from email.policy import default
from zoneinfo import ZoneInfo

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from outreach.feeds.mail import NoAddress, draft, each_once
from tests.outreach import strict_mail
from tests.outreach.strict_mail import Mailbox

NOON = datetime(2027, 3, 9, 12, tzinfo=ZoneInfo("America/New_York"))
JUNE = "june.castellanos@example.org"
# "bücher" is "bcher-kva" in the Punycode of RFC 3492 (a widely printed example; value from memory).
TWO = ["ana.prado@example.org", "ben@bücher.example.org"]


def made(**changes: object) -> bytes:
    given = {
        "sender": JUNE,
        "name": "June Castellanos",
        "receivers": TWO,
        "subject": "Next week: hanging a show",
        "body": "Dear helpers,\n\nsee you on Tuesday.\n",
        "written_at": NOON,
    }
    return draft(**{**given, **changes})


def both(data: bytes) -> tuple[dict[str, str], str, list[Mailbox]]:
    """What two readers see, once they agree."""
    known = email.message_from_bytes(data, policy=default)
    strict = strict_mail.read(data)
    assert not known.defects
    assert str(known["Subject"] or "") == strict_mail.words(strict.fields.get("subject", ""))
    hidden = [Mailbox(one.display_name, one.addr_spec) for one in (known["Bcc"].addresses if known["Bcc"] else ())]
    assert hidden == strict.mailboxes("bcc")
    ((theirs,), (ours,)) = known["From"].addresses, strict.mailboxes("from")
    # The library keeps the blank between two encoded words of a name, which by RFC 2047, 6.2 is nothing.
    assert theirs.display_name.replace(" ", "") == ours.name.replace(" ", "")
    assert theirs.addr_spec == ours.address
    assert known.get_content().replace("\r\n", "\n") == strict.text
    return {name.lower(): str(value) for name, value in known.items()}, strict.text, hidden


def test_the_draft_says_who_when_and_what():
    fields, text, hidden = both(made())
    assert fields["from"] == fields["to"] == f"June Castellanos <{JUNE}>"
    assert fields["date"] == "Tue, 09 Mar 2027 12:00:00 -0500"
    assert fields["subject"] == "Next week: hanging a show"
    assert fields["x-unsent"] == "1"
    assert text == "Dear helpers,\n\nsee you on Tuesday.\n"
    assert [one.address for one in hidden] == ["ana.prado@example.org", "ben@xn--bcher-kva.example.org"]


def test_receivers_stand_nowhere_but_in_bcc():
    head, _end, body = made().partition(b"\r\n\r\n")
    shown = [line for line in head.replace(b"\r\n ", b" ").split(b"\r\n") if not line.startswith(b"Bcc:")]
    for part in (*shown, body):
        assert b"ana.prado" not in part
        assert b"ben@" not in part


def test_each_receiver_is_written_to_once_and_the_teacher_not_twice():
    assert each_once(["A@example.org", " a@EXAMPLE.org", JUNE.upper(), "b@example.org"], apart=JUNE) == [
        "A@example.org", "b@example.org",
    ]  # fmt: skip


def test_a_draft_for_nobody_has_no_bcc():
    assert both(made(receivers=[]))[2] == []


def test_a_hundred_receivers_are_folded_and_all_there():
    many = [f"helper.number.{number}@long-name-of-a-school.example.org" for number in range(100)]
    data = made(receivers=many)
    assert max(map(len, data.split(b"\r\n"))) <= 78
    assert [one.address for one in both(data)[2]] == many


@pytest.mark.parametrize(
    "evil",
    ["Hello\r\nBcc: eve@example.org", "Hello\nX-Spy: yes", "a\x00b\x0bc", "\r\n\r\nbody", "tab\tand\u2028line"],
)
def test_no_line_end_gets_into_a_header(evil):
    fields, _text, hidden = both(made(subject=evil, name=evil))
    assert set(fields) == set(both(made())[0])
    assert [one.address for one in hidden] == ["ana.prado@example.org", "ben@xn--bcher-kva.example.org"]


@pytest.mark.parametrize(
    "wrong", ["", "june", "@example.org", "june@", "a b@example.org", "a@b\r\nBcc: c@d.org", "é@x.org"]
)
def test_what_is_no_address_is_refused(wrong):
    with pytest.raises(NoAddress):
        made(receivers=[wrong])
    with pytest.raises(NoAddress):
        made(sender=wrong)


def test_a_name_with_signs_that_mean_something_is_quoted():
    fields, _text, _hidden = both(made(name='Castellanos, "June" <art>'))
    assert strict_mail.read(made(name='Castellanos, "June" <art>')).mailboxes("from")[0].name == (
        'Castellanos, "June" <art>'
    )
    assert "Castellanos" in fields["from"]


TEXTS = st.text(st.characters(exclude_categories=["Cs"]), max_size=120)


@settings(max_examples=60, phases=[Phase.generate])
@given(TEXTS, TEXTS, TEXTS)
def test_any_words_come_back_as_both_readers_see_them(subject, name, body):
    fields, text, _hidden = both(made(subject=subject, name=name, body=body))
    assert fields.get("subject", "") == shown(subject)
    assert strict_mail.read(made(name=name)).mailboxes("from")[0].name == shown(name)
    assert shown(text) == shown("\n".join(re.split(r"\r\n|\r|\n", body)))


def shown(text: str) -> str:
    """What can be seen of a text, with every run of blanks as one."""
    return " ".join("".join(sign if sign.isprintable() else " " for sign in text).split())


@pytest.mark.skipif(shutil.which("git") is None, reason="git is the third reader")
def test_git_reads_the_same(tmp_path):
    """`git mailinfo` reads mail with code of its own: the sender, the subject with its accents, the date, the body."""
    words = "Próxima semana: colgar la muestra de invierno en el vestíbulo y en la biblioteca de la escuela"
    data = made(subject=words, name="June Castellaños", body="Gracias — ¡hasta el martes!")
    message = tmp_path / "message"
    answer = subprocess.run(
        ["git", "mailinfo", "-k", str(message), str(tmp_path / "patch")], input=data, capture_output=True, check=True
    ).stdout.decode()
    assert answer.splitlines()[:4] == [
        "Author: June Castellaños",
        f"Email: {JUNE}",
        f"Subject: {words}",
        "Date: Tue, 09 Mar 2027 12:00:00 -0500",
    ]
    assert message.read_text().strip() == "Gracias — ¡hasta el martes!"
