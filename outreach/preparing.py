"""One sheet on its way to paper: what it is about, its words so far, its facts and gaps."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from functools import cached_property
from types import ModuleType
from typing import Any

from django.http import Http404
from django.shortcuts import get_object_or_404

from outreach.documents import document, gift_tag
from outreach.forms import LeaveBehindWords, LetterWords
from outreach.gap import Gap
from outreach.gathering import gratitude as gather_gratitude
from outreach.gathering import leave_behind as gather_leave_behind
from outreach.gathering import tag as gather_tag
from partners.letters.actions import draft_of
from partners.letters.models import Letter, LetterState
from partners.program.desk import Desk

GIVERS_COMPARED = 500


@dataclass
class Prepared:
    """`about` are the letter's rows by field name, as they are written into the register."""

    desk: Desk
    module: ModuleType
    about: dict[str, Any]
    gather: Callable[[dict[str, Any]], Any]
    form_class: type[Any]
    pk: int
    words: dict[str, Any] = field(default_factory=dict)

    @cached_property
    def facts(self) -> Any:
        return self.gather(self.words)

    @property
    def slug(self) -> str:
        return str(self.module.SLUG)

    @property
    def title(self) -> str:
        partner = self.about.get("partner")
        return f"{self.module.TITLE}: {partner}" if partner else str(self.module.TITLE)

    def gaps(self, facts: Any = None) -> tuple[Gap, ...]:
        """What is missing or must not be there; letters are also held against the other givers and the last letter."""
        facts = facts or self.facts
        if self.form_class is LeaveBehindWords:
            return tuple(self.module.gaps(facts))
        return tuple(self.module.gaps(facts, other_givers(self), last_words(self)))

    def form(self, data: Any = None) -> Any:
        first = self.form_class.first(self.facts)
        if self.form_class is LeaveBehindWords:
            need = gather_leave_behind.chosen_need(self.desk, self.about.get("partner"), self.words)
            first |= {"need": need, "school": gather_leave_behind.chosen_school(self.desk, need, self.words)}
        return self.form_class(data, desk=self.desk, initial=first)

    def typed(self, form: Any) -> dict[str, Any]:
        """The words of a valid form, as they are kept."""
        if self.form_class is LeaveBehindWords:
            kept: dict[str, Any] = form.words()
            return kept
        fresh = self.gather({"language": form.cleaned_data["language"]})
        return dict(form.words((*fresh.body,)) if fresh.body != self.facts.body else form.words(fresh.body))


def prepare(desk: Desk, slug: str, pk: int) -> Prepared:
    """The sheet of that kind about that row, with the words kept in its draft. Http404 for anything else."""
    makers = {"leave-behind": about_partner, "gratitude-letter": about_gift, "thanks-note": about_thanks}
    if slug not in makers:
        raise Http404
    prepared = makers[slug](desk, pk)
    key = {name: prepared.about.get(name) for name in ("partner", "gift", "thanks")}
    draft = draft_of(desk, slug, **key)
    prepared.words = dict(draft.words) if draft else {}
    return prepared


@dataclass(frozen=True)
class Printed:
    """A sheet that is printed just as the record has it: nothing to word, and nothing that goes out."""

    module: ModuleType
    facts: Any


def to_print(desk: Desk, slug: str, pk: int) -> Prepared | Printed:
    """Any sheet whose PDF can be opened. Http404 for anything else."""
    if slug == gift_tag.SLUG:
        gift = get_object_or_404(desk.gifts.select_related("partner", "school", "project"), pk=pk)
        return Printed(gift_tag, gather_tag.gather(desk, gift))
    return prepare(desk, slug, pk)


def about_partner(desk: Desk, pk: int) -> Prepared:
    """Number 0 is the sheet without a name."""
    partner = get_object_or_404(desk.partners, pk=pk) if pk else None
    gather = lambda words: gather_leave_behind.gather(desk, partner, words)  # noqa: E731
    return Prepared(desk, document("leave-behind"), {"partner": partner}, gather, LeaveBehindWords, pk)


def about_gift(desk: Desk, pk: int) -> Prepared:
    gift = get_object_or_404(desk.gifts.select_related("partner", "school", "project"), pk=pk)
    about = {"gift": gift, "partner": gift.partner, "school": gift.school}
    gather = lambda words: gather_gratitude.gather_gift(desk, gift, words)  # noqa: E731
    return Prepared(desk, document("gratitude-letter"), about, gather, LetterWords, pk)


def about_thanks(desk: Desk, pk: int) -> Prepared:
    rows = desk.thanks.select_related("partner", "school", "promise__need__project", "gift")
    owed = get_object_or_404(rows, pk=pk)
    about = {"thanks": owed, "partner": owed.partner, "school": owed.school}
    gather = lambda words: gather_gratitude.gather_owed(desk, owed, words)  # noqa: E731
    return Prepared(desk, document("thanks-note"), about, gather, LetterWords, pk)


def other_givers(prepared: Prepared) -> tuple[str, ...]:
    """Names that must not stand in somebody else's letter: those heard of last."""
    partner = prepared.about.get("partner")
    others = prepared.desk.partners.exclude(pk=partner.pk if partner else None).exclude(last_heard_on=None)
    return tuple(others.order_by("-last_heard_on").values_list("name", flat=True)[:GIVERS_COMPARED])


def last_words(prepared: Prepared) -> str:
    """The body of the last letter to the same giver."""
    partner = prepared.about.get("partner")
    if partner is None:
        return ""
    gone = prepared.desk.letters.filter(partner=partner, document=prepared.slug).exclude(state=LetterState.DRAFT)
    last: Letter | None = gone.order_by("-day", "-pk").first()
    return "\n\n".join(last.words.get("paragraphs", [])) if last else ""
