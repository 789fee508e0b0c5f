"""What is found of a person, and what the keeper chose of it, before anything is done."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from django.http import QueryDict
from django.utils.text import capfirst

from partners.directory.phones import national
from partners.ground.traces import Traces, traces_of
from partners.letters.models import Letter
from partners.program.models import Program
from partners.story.forget import Forgetting, events_naming
from partners.story.known_as import KINDS, Person, known_as, page_of, same_person
from partners.story.traces import Place, places, sheets

MOST_NAMES = 40


@dataclass(frozen=True)
class Tick:
    """One line with its box."""

    key: str
    label: str
    ticked: bool
    certain: bool = True
    pieces: Sequence[tuple[str, bool]] = ()
    url: str = ""


@dataclass(frozen=True)
class Answers:
    """What was sent: boxes that are ticked, of those that were shown; other ways in which the name is written."""

    ticked: frozenset[str] = frozenset()
    shown: frozenset[str] = frozenset()
    written: str = ""

    @classmethod
    def of(cls, sent: QueryDict) -> Answers:
        return cls(frozenset(sent.getlist("tick")), frozenset(sent.getlist("shown")), sent.get("written", "")[:2000])

    def takes(self, key: str, at_first: bool) -> bool:
        return key in self.ticked if key in self.shown else at_first

    @property
    def lines(self) -> list[str]:
        return [line.strip() for line in self.written.splitlines() if line.strip()][:MOST_NAMES]

    @property
    def emails(self) -> list[str]:
        return [line for line in self.lines if "@" in line]

    @property
    def phones(self) -> list[str]:
        return [line for line in self.lines if line not in self.emails and not any(map(str.isalpha, line))]

    @property
    def names(self) -> list[str]:
        return [line for line in self.lines if line not in (*self.emails, *self.phones)]


@dataclass(frozen=True)
class Findings:
    """Everything that stands in the book of one person, as far as the answers go; of nobody's row without `person`."""

    program: Program
    person: Person | None
    answers: Answers

    @property
    def _own(self) -> list[Person]:
        return [self.person] if self.person is not None else []

    @cached_property
    def known(self) -> dict[str, list[str]]:
        return known_as(self.program, self._own)

    @cached_property
    def names(self) -> list[Tick]:
        return [
            Tick(key, national(one) if name == "phone" else one, self.answers.takes(key, at_first=True))
            for name, values in self.known.items()
            for one in values
            for key in [f"known-{one}"]
        ]

    @cached_property
    def _own_traces(self) -> Traces:
        kept = {tick.key for tick in self.names if tick.ticked}
        names, phones, emails = ([one for one in self.known[name] if f"known-{one}" in kept] for name in self.known)
        typed = self.answers
        return traces_of([*names, *typed.names], [*phones, *typed.phones], [*emails, *typed.emails])

    @cached_property
    def _same(self) -> list[tuple[Person, Tick]]:
        found = []
        for row, same in same_person(self.program, self._own, self._own_traces):
            key = f"same-{row._meta.model_name}-{row.pk}"
            label = f"{capfirst(str(row._meta.verbose_name))}: {row}"
            partner = getattr(row, "partner", None)
            label += f", {partner}" if partner else ""
            found.append((row, Tick(key, label, self.answers.takes(key, at_first=same), url=page_of(row))))
        return found

    @property
    def same(self) -> list[Tick]:
        return [tick for _row, tick in self._same]

    @cached_property
    def rows(self) -> list[Person]:
        return [*self._own, *(row for row, tick in self._same if tick.ticked)]

    @cached_property
    def traces(self) -> Traces:
        """Also what the same person is known by elsewhere."""
        others = [row for row, tick in self._same if tick.ticked]
        if not others:
            return self._own_traces
        also, own = known_as(self.program, others), self._own_traces
        return traces_of([*own.names, *also["name"]], [*own.phones, *also["phone"]], [*own.emails, *also["email"]])

    @cached_property
    def _places(self) -> list[tuple[Place, Tick]]:
        but = {(row._meta.model_name or "", row.pk) for row in (*self._own, *(row for row, _tick in self._same))}
        found = []
        for one in places(self.program, self.traces, but):
            takes = self.answers.takes(one.key, at_first=one.ticked)
            found.append((one, Tick(one.key, one.where, takes, one.certain, one.shown, page_of(one.row))))
        return found

    @property
    def places(self) -> list[Tick]:
        return [tick for _place, tick in self._places if tick.certain]

    @property
    def parts(self) -> list[Tick]:
        """Where only a part of the name stands; it may be somebody else's."""
        return [tick for _place, tick in self._places if not tick.certain]

    @cached_property
    def _letters(self) -> list[tuple[Letter, Tick]]:
        found = []
        for letter in sheets(self.program, self.traces, self.rows):
            key = f"letter-{letter.pk}"
            takes = self.answers.takes(key, at_first=True)
            found.append((letter, Tick(key, str(letter), takes, url=letter.get_absolute_url())))
        return found

    @property
    def letters(self) -> list[Tick]:
        return [tick for _letter, tick in self._letters]

    @cached_property
    def ticks(self) -> list[Tick]:
        return [*self.names, *self.same, *self.places, *self.parts, *self.letters]

    @property
    def unseen(self) -> bool:
        """Whether something is found that was not on the page when it was answered."""
        return any(tick.key not in self.answers.shown for tick in self.ticks)

    @cached_property
    def changes(self) -> int:
        """How many entries of the history name the person."""
        return events_naming(self.program, self.forgetting())

    def forgetting(self) -> Forgetting:
        return Forgetting(
            rows=self.rows,
            traces=self.traces,
            places=[place for place, tick in self._places if tick.ticked],
            letters=[letter for letter, tick in self._letters if tick.ticked],
            left=[place for place, tick in self._places if not tick.ticked and place.certain],
            others=[row for row, tick in self._same if not tick.ticked],
        )


def found_person(program: Program, kind: str, pk: int) -> Person | None:
    rows = KINDS[kind]._base_manager.filter(program=program)
    person: Person | None = rows.filter(pk=pk).first()
    return person
