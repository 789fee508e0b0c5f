"""Pictures and papers through the screens: kept clean, shown to whom they may be, taken away, destroyed."""

from __future__ import annotations

import io
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from django.urls import reverse
from PIL import Image

from partners.agenda.check_book import differences
from partners.ground.models import Event
from partners.ground.undo import CannotUndo, undo
from partners.program.desk import Desk
from partners.program.file_actions import attach, destroy, take_away, tick
from partners.program.file_models import Attachment
from partners.program.models import Membership, Opened, Program
from partners.school.project_models import Project
from tests import people, whole_book
from tests.ground import sent_files as sent
from tests.ladder import UNKNOWN, enter, flat, status

pytestmark = pytest.mark.django_db


@pytest.fixture
def project(program: Program) -> Project:
    return Project.objects.create(program=program, title="Seed packets")


def file(data: bytes | None = None, name: str = "gym.jpg") -> SimpleUploadedFile:
    return SimpleUploadedFile(name, sent.photograph() if data is None else data)


@pytest.fixture
def picture(desk: Desk, project: Project) -> Attachment:
    return attach(desk=desk, sent=file(), title="Forty packets", project=project)


def add(client: Client, pk: int, data: bytes, name: str = "work.jpg", **values: Any) -> Any:
    place = reverse("funding:attachment-new", args=["project", pk])
    return client.post(place, {"sent": file(data, name), **values})


def test_a_picture_is_kept_clean_and_shown_as_a_picture(signed_in: Client, project: Project) -> None:
    add(signed_in, project.pk, sent.photograph(), title="Forty packets", shows_no_child="on")
    kept = Attachment.objects.get()
    assert kept.shows_no_child
    answer = signed_in.get(kept.get_absolute_url())
    assert answer["Content-Type"] == "image/jpeg"
    assert answer["Content-Disposition"] == 'inline; filename="forty-packets.jpg"'
    assert answer["X-Content-Type-Options"] == "nosniff"
    assert Image.open(io.BytesIO(answer.content)).size == (40, 60)
    assert b"Exif" not in answer.content


def test_a_pdf_is_only_ever_a_download(signed_in: Client, project: Project) -> None:
    add(signed_in, project.pk, sent.letter(), "award.jpg", shows_no_child="on")
    kept = Attachment.objects.get()
    answer = signed_in.get(kept.get_absolute_url())
    assert (kept.title, kept.shows_no_child) == ("Paper", False)
    assert answer["Content-Type"] == "application/pdf"
    assert answer["Content-Disposition"].startswith("attachment;")


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (b"MZ renamed program", "This is a program, whatever its name says"),
        (sent.photograph(900, 900)[:4000], "its end is missing"),
        (b"\xff\xd8\xff" + bytes(25_000_000), "This file has 24 MB; at most 20 MB can be kept."),
        (b"", "There is nothing in this file."),
    ],
    ids=["program", "cut short", "25 MB", "empty"],
)
def test_what_is_refused_is_said_at_the_field_and_stored_nowhere(
    signed_in: Client, project: Project, data: bytes, sentence: str
) -> None:
    page = flat(add(signed_in, project.pk, data, title="Our receipt"))
    assert sentence in page
    assert 'value="Our receipt"' in page
    assert not Attachment.objects.exists()
    assert not project.program.kept_files.exists()


def test_nothing_chosen_is_said(signed_in: Client, project: Project) -> None:
    page = flat(signed_in.post(reverse("funding:attachment-new", args=["project", project.pk]), {"title": "x"}))
    assert "This field is required." in page


def test_the_same_bytes_are_kept_once(desk: Desk, project: Project, picture: Attachment) -> None:
    again = attach(desk=desk, sent=file(), project=project)
    assert again.file_id == picture.file_id
    undo(desk, Event.objects.get(facts__title="Forty packets"))
    assert list(Attachment.objects.all()) == [again]
    assert bytes(again.file.content).startswith(b"\xff\xd8")
    assert differences(project.program) == []


def test_what_is_taken_away_comes_back_and_is_served_no_more_till_then(
    signed_in: Client, desk: Desk, picture: Attachment
) -> None:
    before = whole_book.rows(desk.program)
    take_away(desk=desk, attachment=picture)
    assert signed_in.get(picture.get_absolute_url()).status_code == 404
    whole_book.undo_newest(desk)
    assert whole_book.rows(desk.program) == before
    assert signed_in.get(picture.get_absolute_url()).status_code == 200


def test_what_is_destroyed_is_gone_everywhere_for_good(desk: Desk, project: Project, picture: Attachment) -> None:
    attach(desk=desk, sent=file(), project=project)
    destroy(desk=desk, attachment=picture)
    assert not project.program.kept_files.exists()
    assert not Attachment.objects.exists()
    with pytest.raises(CannotUndo):
        whole_book.undo_newest(desk)
    assert "content" not in str(Event.objects.values_list("changes", flat=True))


def test_adding_that_was_undone_is_not_put_back_as_an_empty_file(desk: Desk, picture: Attachment) -> None:
    undone = whole_book.undo_newest(desk)
    with pytest.raises(CannotUndo, match="gone for good"):
        undo(desk, undone)
    assert not desk.program.kept_files.exists()


def test_guests_see_only_ticked_pictures_of_projects(
    client: Client, grace: Membership, desk: Desk, picture: Attachment
) -> None:
    Membership.objects.filter(pk=grace.pk).update(opened=[Opened.PROJECTS, Opened.MONEY])
    grant = grace.program.grants.create(title="Clay", partner=people.make_partner(grace.program))
    paper = attach(desk=desk, sent=file(sent.photograph(50, 30)), grant=grant, shows_no_child=True)
    enter(client, grace)
    assert status(client, picture.get_absolute_url()) == 403
    tick(desk=desk, attachment=picture, shows_no_child=True)
    assert status(client, picture.get_absolute_url()) == 200
    assert status(client, paper.get_absolute_url()) == 403


def test_who_has_other_schools_finds_nothing(client: Client, omar: Membership, picture: Attachment) -> None:
    program = omar.program
    ours, other = people.make_school(program), people.make_school(program, "North Ridge Elementary")
    Project.objects.update(school=other)
    enter(client, omar)
    assert status(client, picture.get_absolute_url()) == 200
    Membership.objects.filter(pk=omar.pk).update(school_ids=[ours.pk])
    assert status(client, picture.get_absolute_url()) == 404
    assert status(client, reverse("funding:attachment-remove", args=[picture.pk])) == 404
    assert status(client, reverse("funding:attachment-new", args=["project", picture.project_id])) == 404


def test_the_ladder(client: Client, signed_in: Client, otto: Membership, picture: Attachment) -> None:
    names = ("attachment", "attachment-remove")
    assert {status(signed_in, reverse(f"funding:{name}", args=[UNKNOWN])) for name in names} == {404}
    assert status(signed_in, reverse("funding:attachment-new", args=["teapot", picture.pk])) == 404
    assert status(signed_in, reverse("funding:attachment-tick", args=[picture.pk])) == 405
    enter(client, otto)
    assert {status(client, reverse(f"funding:{name}", args=[picture.pk])) for name in names} == {404}
