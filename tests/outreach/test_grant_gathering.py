"""From the rows of a grant to the facts of its sheets; sums done by hand."""

from __future__ import annotations

from datetime import timedelta
from io import BytesIO

import pypdf
import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.urls import reverse

from outreach.documents import grant_report, thanks_note
from outreach.preparing import prepare, to_print
from partners.funding import grant_actions as actions
from partners.funding.buying_actions import Bought, record_receipt, write_slip
from partners.program.file_actions import attach, tick
from partners.school.project_models import Project
from tests.ground.sent_files import photograph
from tests.people import TUESDAY

pytestmark = pytest.mark.django_db
DAY = timedelta(days=1)


@pytest.fixture
def grant(desk):
    project = Project.objects.create(
        program=desk.program, title="Tiles", students=40, what_it_became="Forty tiles hang.", became_on=TUESDAY + DAY
    )
    line = actions.LineEdit(what="clay", planned_cents=40_000)
    row = actions.write_grant(desk=desk, partner="Harbor Light Fund", title="clay tiles", project=project, lines=[line])
    actions.ask_for(desk=desk, grant=row, asked_on=TUESDAY, asked_cents=40_000, answer_by=None)
    return actions.award(desk=desk, grant=row, answered_on=TUESDAY, awarded_cents=40_000)


def test_the_note_thanks_for_the_award_and_lacks_nothing_of_a_gift(desk, grant):
    note = prepare(desk, "thanks-note", desk.thanks.get().pk)
    assert note.facts.body[0] == (
        "Thank you for the grant of $400.00 that you awarded our students on October 6, 2026 for “clay tiles”. "
        "It will reach 40 students."
    )
    assert not [gap for gap in thanks_note.gaps(note.facts) if gap.stops]


def test_claim_and_report_follow_the_receipts(desk, grant):
    purchase = write_slip(desk=desk, vendor="Clay House", what="clay", grant=grant)
    line = grant.lines.get()
    # 250.00 with 12.50 shipping for the grant, 9.99 not: 262.50 of 400.00, so 137.50 are left.
    lines = [
        Bought(what="clay", cents=25_000, grant_line=line),
        Bought(what="shipping", cents=1_250, kind="shipping", grant_line=line),
        Bought(what="tape", cents=999),
    ]
    record_receipt(desk=desk, purchase=purchase, lines=lines, bought_on=TUESDAY, receipt_number="7")
    claim = to_print(desk, "grant-claim", grant.pk).facts
    assert ([receipt.cents for receipt in claim.receipts], claim.total, claim.lines[0].left) == (
        [26_250],
        26_250,
        13_750,
    )
    report = prepare(desk, "grant-report", grant.pk).facts
    assert report.body[1:3] == (
        "With it we bought clay. $262.50 of it is spent, and $137.50 is left, as the lines below show.",
        "Forty tiles hang. It reaches 40 students.",
    )


def test_the_report_shows_the_latest_picture_with_the_tick_and_none_without(desk, grant):
    def reported():
        return prepare(desk, "grant-report", grant.pk)

    kept = [
        attach(desk=desk, sent=SimpleUploadedFile("a.jpg", photograph(800, high)), title=title, project=grant.project)
        for high, title in ((600, "Tiles on the wall"), (500, "Clay in hands"))
    ]
    assert reported().facts.picture is None
    tick(desk=desk, attachment=kept[0], shows_no_child=True)
    shown = reported()
    assert (shown.facts.picture.height, shown.facts.picture_shows) == (640, "Tiles on the wall")
    file = pypdf.PdfReader(BytesIO(grant_report.draw(shown.facts)))
    assert [len(page.images) for page in file.pages] == [1]
    assert "Tiles on the wall" in file.pages[0].extract_text()


def test_the_report_that_went_out_is_the_report_that_was_due(signed_in, grant):
    signed_in.post(reverse("outreach:document-hand-over", args=["grant-report", grant.pk]), {"state": "mailed"})
    grant.refresh_from_db()
    assert grant.reported_on is not None
    assert grant.letters.get().state == "mailed"


@pytest.mark.parametrize("slug", ["grant-claim", "grant-report"])
def test_of_a_grant_that_was_not_awarded_there_is_nothing_to_claim_or_tell(signed_in, desk, slug):
    row = actions.write_grant(desk=desk, partner="Harbor Light Fund", title="a press")
    assert signed_in.get(reverse("outreach:document", args=[slug, row.pk])).status_code == 404
