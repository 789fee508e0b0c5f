"""Verbs: answers that every application asks for, and how they stand in one."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from django.db.models import Max
from django.utils.translation import gettext_noop

from partners.funding.grant_models import Grant, GrantAnswer, ReadyAnswer
from partners.ground.changes import change
from partners.program.desk import Desk


@dataclass(frozen=True, kw_only=True)
class AnswerEdit:
    """An answer of an application as it is to be; without `row` a new one, without `question` one to take out."""

    question: str
    words: str = ""
    row: GrantAnswer | None = None


@dataclass(frozen=True)
class Ready:
    """A question with words that answer it."""

    question: str
    words: str


def keep_answers(*, desk: Desk, grant: Grant, answers: Sequence[AnswerEdit], seen: int | None = None) -> None:
    """The application's answers in the order in which they are given. `seen` is the grant's version."""
    words = gettext_noop("Answers changed: %(title)s")
    with change(desk, words, title=grant) as book, book.with_parts(grant):
        book.about(grant)
        book.update(grant, seen=seen)
        for answer in answers:
            if answer.row is not None and not answer.question:
                book.remove(answer.row)
        kept = [answer for answer in answers if answer.question]
        for position, answer in enumerate(kept, start=1):
            values: dict[str, Any] = {"question": answer.question, "words": answer.words, "position": position}
            if answer.row is not None:
                book.update(answer.row, **values)
            else:
                book.add(GrantAnswer(grant=grant, **values))


def take_over(*, desk: Desk, grant: Grant, ready: Sequence[Ready]) -> list[GrantAnswer]:
    """Copy ready answers into the application, behind those it has; there they are changed freely."""
    with change(desk, gettext_noop("Answers taken over: %(title)s"), title=grant) as book:
        book.about(grant)
        last = grant.answers.aggregate(last=Max("position"))["last"] or 0
        return [
            book.add(GrantAnswer(grant=grant, question=one.question, words=one.words, position=position))
            for position, one in enumerate(ready, start=last + 1)
        ]


def begin_answers(*, desk: Desk, ready: Sequence[Ready]) -> list[ReadyAnswer]:
    """The first ready answers of the book."""
    with change(desk, gettext_noop("Ready answers begun")) as book:
        return [
            book.add(ReadyAnswer(question=one.question, words=one.words, position=position))
            for position, one in enumerate(ready, start=1)
        ]


def add_ready(*, desk: Desk, question: str, words: str) -> ReadyAnswer:
    with change(desk, gettext_noop("Ready answer added: %(question)s"), question=question) as book:
        last = desk.ready_answers.aggregate(last=Max("position"))["last"] or 0
        return book.add(ReadyAnswer(question=question, words=words, position=last + 1))


def edit_ready(*, desk: Desk, answer: ReadyAnswer, seen: int | None = None, **values: str) -> ReadyAnswer:
    with change(desk, gettext_noop("Ready answer changed: %(question)s"), question=answer) as book:
        return book.update(answer, seen=seen, **values)


def remove_ready(*, desk: Desk, answer: ReadyAnswer) -> None:
    """Applications keep the words they copied."""
    with change(desk, gettext_noop("Ready answer taken out: %(question)s"), question=answer) as book:
        book.remove(answer)
