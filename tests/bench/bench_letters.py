"""Letters as one file: ours (also with pictures), the plain way (platypus, same words), the floor (zlib on streams).

Thank-you letters, and notes at the year's end; ten thousand notes are sent on while they are drawn, as the site sends
them. Run `.venv/bin/python -m tests.bench.bench_letters`. Every figure comes from a process of its own, so that peak
memory and caches belong to it; the least processor time of several rounds is shown, for other work only adds.
"""

from __future__ import annotations

import json
import re
import subprocess
import sys
import time
import zlib
from collections.abc import Callable, Iterator
from dataclasses import replace
from datetime import date
from io import BytesIO
from typing import Any
from xml.sax.saxutils import escape

from outreach.documents import year_end_note
from outreach.documents.gratitude_letter import Facts, draw_many
from outreach.page import Address, Letterhead, on_paper, open_picture
from outreach.wording import gratitude, year_end
from outreach.wording.counts import Item
from outreach.wording.dates import spelled
from outreach.wording.gratitude import Thanks
from outreach.wording.records import RECORDS
from outreach.wording.year_end import Given
from tests.bench.measure import apart as in_a_process
from tests.bench.measure import peak_mib

COUNTS = (1, 100, 1_000)
MANY = 10_000
ROUNDS = 7
MOST_MIB = 64
LEAST_RATIO = 5
MAKING = "from partners.ground.pictures import made_anew"

SCHOOL = Letterhead("Millrace Elementary", ("12 Mill Street", "Alder Falls, OR 97000"), "(201) 555-0110")


def letters(count: int) -> list[Facts]:
    """So many letters of one evening: other names, streets, things and amounts, the same school and project."""
    return [_letter(number) for number in range(count)]


def _letter(number: int) -> Facts:
    is_money = number % 3 == 0
    thanks = Thanks(
        language="en",
        moment="delivery",
        form="money" if is_money else "goods",
        day=date(2027, 3, 1 + number % 28),
        partner=f"Shop Number {number} of Alder Falls",
        contact=f"Dana Whitlock {number}",
        items=() if is_money else (Item("terracotta pots", 20 + number), Item("ribbon", 2 + number, "rolls")),
        amount_cents=30_000 + number * 100 if is_money else None,
        becomes="Each child painted a pot, sowed basil in it and took it home to the family",
        students=104,
        receiver="Alder Falls School District",
    )
    return Facts(
        paper="letter",
        letterhead=SCHOOL,
        day=date(2027, 3, 30),
        thanks=thanks,
        teacher="June Castellanos",
        role="Art teacher, Millrace Elementary",
        address=Address(thanks.contact, thanks.partner, (f"{number + 100} RIVER RD",), "Alder Falls", "OR", "97000"),
        number="00-0000000",
        receipts_by="the district business office",
    )


def sent(name: str) -> bytes:
    """A picture as the book keeps it, drawn in a process of its own: drawing it is no part of the letters."""
    made = f"made_anew(letterheads.png(letterheads.{name}())).content"
    code = f"import sys; from tests.outreach import letterheads; {MAKING}; sys.stdout.buffer.write({made})"
    return subprocess.run([sys.executable, "-c", code], capture_output=True, check=True).stdout


def carrying(many: list[Facts]) -> list[Facts]:
    """The same with the letterhead and the signature as pictures."""
    logo, hand = (open_picture(sent(name), trimmed=True) for name in ("banner", "hand"))
    head = replace(SCHOOL, logo=logo, alone=True)
    return [replace(facts, letterhead=head, signature=hand) for facts in many]


def notes(count: int) -> Iterator[year_end_note.Facts]:
    """So many notes of one year: other names, streets and things, the same school and project."""
    for number in range(count):
        given = Given(
            language="en",
            year="2026–27",
            partner=f"Shop Number {number} of Alder Falls",
            contact=f"Dana Whitlock {number}",
            items=(Item("terracotta pots", 20 + number), Item("ribbon", 2 + number, "rolls")),
            money=number % 3 == 0,
            became=("Each child painted a pot, sowed basil in it and took it home to the family",),
            reached=104,
            taught=604,
            teacher="June Castellanos",
            school=SCHOOL.school,
        )
        yield year_end_note.Facts(
            paper="letter",
            letterhead=SCHOOL,
            day=date(2027, 5, 28),
            given=given,
            teacher="June Castellanos",
            role="Art teacher, Millrace Elementary",
            address=Address(given.contact, given.partner, (f"{number + 100} RIVER RD",), "Alder Falls", "OR", "97000"),
        )


def notes_plainly(many: list[year_end_note.Facts]) -> bytes:
    """The words of the notes by platypus, laid out as `plainly` does."""
    from reportlab.platypus import HRFlowable, PageBreak, Paragraph, SimpleDocTemplate, Spacer

    text, small, strong, right = styles()
    story: list[Any] = []
    for facts in many:
        clean = on_paper(facts)
        head = " · ".join((*clean.letterhead.address, clean.letterhead.phone))
        story += [Paragraph(clean.letterhead.school, strong), Paragraph(head, small), HRFlowable(width="100%")]
        story += [Paragraph(spelled(clean.day, "en"), right), Spacer(1, 40)]
        story += [Paragraph(escape(line), small) for line in clean.address.lines()] + [Spacer(1, 60)]
        body = (year_end.greeting(clean.given), *clean.body, clean.given.say("closing"))
        story += [Paragraph(escape(line), text) for line in body] + [Spacer(1, 40)]
        story += [Paragraph(clean.teacher, strong), Paragraph(clean.role, text), PageBreak()]
    return built(SimpleDocTemplate, story)


def styles() -> tuple[Any, Any, Any, Any]:
    from reportlab.lib.styles import ParagraphStyle

    text = ParagraphStyle("text", fontName="Lato-Regular", fontSize=12, leading=16, spaceAfter=8)
    small = ParagraphStyle("small", parent=text, fontSize=11, leading=14, spaceAfter=2)
    strong = ParagraphStyle("strong", parent=text, fontName="Lato-Bold", fontSize=15)
    return text, small, strong, ParagraphStyle("right", parent=text, alignment=2)


def built(template: Any, story: list[Any]) -> bytes:
    from reportlab.lib.pagesizes import letter

    file = BytesIO()
    template(file, pagesize=letter, topMargin=43, bottomMargin=46, invariant=1).build(story)
    return file.getvalue()


def plainly(many: list[Facts]) -> bytes:
    """The same words by platypus as its guide shows it: paragraphs, spacers and page breaks."""
    from reportlab.platypus import HRFlowable, PageBreak, Paragraph, SimpleDocTemplate, Spacer

    text, small, strong, right = styles()
    story: list[Any] = []
    for facts in many:
        clean, words = on_paper(facts), RECORDS["en"]
        head = " · ".join((*clean.letterhead.address, clean.letterhead.phone))
        story += [Paragraph(clean.letterhead.school, strong), Paragraph(head, small), HRFlowable(width="100%")]
        story += [Paragraph(spelled(clean.day, "en"), right), Spacer(1, 40)]
        story += [Paragraph(escape(line), small) for line in clean.address.lines()] + [Spacer(1, 60)]
        body = (gratitude.salutation(clean.thanks), *clean.body, words.closing)
        story += [Paragraph(escape(line), text) for line in body] + [Spacer(1, 40)]
        story += [Paragraph(clean.teacher, strong), Paragraph(clean.role, text), HRFlowable(width="100%")]
        kept = (words.heading, *gratitude.records(clean.thanks))
        number = words.number.format(receiver=clean.thanks.receiver, number=clean.number)
        receipts = words.receipts.format(office=clean.receipts_by)
        story += [Paragraph(escape(line), small) for line in (*kept, f"{number} {receipts}")] + [PageBreak()]
    return built(SimpleDocTemplate, story)


def floor(many: list[Facts]) -> Callable[[], bytes]:
    """Packs the finished page streams of the plain way and nothing else."""
    found = re.finditer(rb"stream\r?\n(.*?)endstream", plainly(many), re.DOTALL)
    streams = [zlib.decompressobj().decompress(match[1]) for match in found if match[1][:1] == b"x"][: len(many)]
    return lambda: b"".join([zlib.compress(stream) for stream in streams])


def one(way: str, count: int) -> dict[str, float]:
    """Least processor seconds of the rounds, the first round's, peak memory in MiB, kilobytes of the file."""
    from outreach.page.fonts import font

    font("regular"), font("bold")
    many = letters(count) if way in ("ours", "plain", "floor", "pictures") else []
    many = carrying(many) if way == "pictures" else many
    written = list(notes(count)) if way.startswith("notes") and way != "notes sent" else []
    work: Callable[[], bytes] = {
        "ours": lambda: draw_many(many),
        "pictures": lambda: draw_many(many),
        "plain": lambda: plainly(many),
        "floor": floor(many) if way == "floor" else lambda: b"",
        "notes": lambda: year_end_note.draw_many(written),
        "notes plain": lambda: notes_plainly(written),
        "notes sent": lambda: bytes(sum(map(len, year_end_note.stream(notes(count))))),
    }[way]
    seconds = []
    for _round in range(1 if count == MANY else ROUNDS if count > 1 else 20):
        start = time.process_time()
        done = work()
        seconds.append(time.process_time() - start)
    return {"best": min(seconds), "first": seconds[0], "peak": peak_mib(), "size": len(done) / 1024}


def apart(way: str, count: int) -> dict[str, float]:
    """`one` in a process of its own."""
    told: dict[str, float] = in_a_process("tests.bench.bench_letters", way, str(count))
    return told


def table() -> bool:
    """Prints the figures; tells whether both targets for 1,000 letters are met."""
    print(
        f"{'letters':>8} {'way':>8} {'best ms':>9} {'first ms':>9} {'a second':>9} {'times plain':>12} "
        f"{'times floor':>12} {'peak MiB':>9} {'KB':>7}"
    )
    ratio = peak = 0.0
    for count in COUNTS:
        rows = {way: apart(way, count) for way in ("pictures", "ours", "plain", "floor")}
        for way, row in rows.items():
            best, first = row["best"], row["first"]
            faster, slower = rows["plain"]["best"] / best, best / rows["floor"]["best"]
            print(
                f"{count:>8,} {way:>8} {best * 1e3:>9.1f} {first * 1e3:>9.1f} {count / best:>9,.0f} {faster:>11.1f}x "
                f"{slower:>11.1f}x {row['peak']:>9.1f} {row['size']:>7,.0f}"
            )
        ratio = rows["plain"]["best"] / rows["ours"]["best"]
        peak = max(rows["ours"]["peak"], rows["pictures"]["peak"])
    met = ratio >= LEAST_RATIO and peak <= MOST_MIB
    print(
        f"1,000 letters: {ratio:.1f} times plain platypus (target {LEAST_RATIO}), {peak:.0f} MiB (target {MOST_MIB}): "
        f"{'met' if met else 'NOT met'}"
    )
    return year_end_table() and met


def year_end_table() -> bool:
    """The same of notes at the year's end, and ten thousand of them sent on as they are drawn."""
    ours, plain, sent = apart("notes", 1_000), apart("notes plain", 1_000), apart("notes sent", MANY)
    for words, row, count in (("notes", ours, 1_000), ("notes plain", plain, 1_000), ("notes sent", sent, MANY)):
        print(
            f"{count:>8,} {words:>12} {row['best'] * 1e3:>9.1f} ms {count / row['best']:>9,.0f} a second "
            f"{row['peak']:>9.1f} MiB {row['size']:>9,.0f} KB"
        )
    ratio = plain["best"] / ours["best"]
    met = ratio >= LEAST_RATIO and sent["peak"] <= MOST_MIB
    print(
        f"1,000 year-end notes: {ratio:.1f} times plain platypus (target {LEAST_RATIO}); {MANY:,} sent on in "
        f"{sent['peak']:.0f} MiB (target {MOST_MIB}): {'met' if met else 'NOT met'}"
    )
    return met


if __name__ == "__main__":
    if len(sys.argv) == 3:
        print(json.dumps(one(sys.argv[1], int(sys.argv[2]))))
    else:
        sys.exit(0 if table() else 1)
