"""The buttons of a due line, as HTML. Fifty lines come through here for one page, and as a template took half its time.

An act opens a page, or is sent as `act` to the line's one address (code "move" with a `day`). One form serves all
buttons of a line; the day stands in a form of its own, so that Enter in it moves the line and does not press the first
button. Whatever goes into a text here is escaped first, in `Named` or where it stands.
"""

from __future__ import annotations

from dataclasses import dataclass
from html import escape
from typing import Any

from django.utils.html import conditional_escape
from django.utils.safestring import SafeString

from partners.directory.tags import call
from partners.ground.due import Act
from partners.ground.words import escaped
from partners.ground.words import gettext as _

IN_PLACE = ' hx-boost="true" hx-sync="this:drop"'
LEAVES = ' hx-boost="false"'


@dataclass(frozen=True, slots=True)
class Page:
    """What the buttons of all lines of a page share.

    `csrf` is the hidden field. `here`: its address, to come back to. `in_place`: the part of the page around a line
    says what is fetched anew when it is settled; otherwise the page loads again.
    """

    writes: bool
    csrf: SafeString
    here: str
    in_place: bool

    @property
    def leaves(self) -> str:
        """What a link to another page carries inside a form that is sent in place."""
        return LEAVES if self.in_place else ""


class Named:
    """A line's words as HTML. `unseen`: whom, or else what a button is about, for who does not see where it stands."""

    __slots__ = ("key", "unseen", "verb", "what", "who")

    def __init__(self, line: Any) -> None:
        self.key = conditional_escape(line.key)
        self.verb = conditional_escape(line.verb)
        self.what = conditional_escape(line.what)
        self.who = conditional_escape(line.who)
        self.unseen = f'<span class="unseen">: {self.who or self.what or self.verb}</span>'


def buttons(line: Any, page: Page, back: str = "") -> SafeString:
    """`line` is a due line, or one that is settled; `back`: the part of the page to come back to, if not the line."""
    named = Named(line)
    if getattr(line, "settled", ""):
        inner = _settled(line, named, page)
    elif not page.writes:
        inner = call(line.phone)
    elif not line.settle_url:
        inner = _main(line, named, "") + call(line.phone)
    else:
        inner = _open(line, named, page, back)
    return SafeString(f'<div class="acts">{inner}</div>')


def _settled(line: Any, named: Named, page: Page) -> str:
    done = f'<p class="done">{escape(line.settled)}</p>'
    if not line.undo_url or not page.writes:
        return done
    several = getattr(line, "together", 1)
    label = _("Undo all %(count)s") % {"count": several} if several > 1 else _("Undo")
    form = _form(line.undo_url, page, f"line-{named.key}", in_place=getattr(line, "in_place", False))
    what = f", {named.what}" if named.what else ""
    about = f'<span class="unseen">: {named.who}{what}</span>'
    return f'{done}{form}<button class="quiet" id="act-{named.key}">{escaped(label)}{about}</button></form>'


def _open(line: Any, named: Named, page: Page, back: str) -> str:
    more = _more(line, named, page) if line.more else ""
    moving = f"{_form(line.settle_url, page, key=f'moving-{named.key}')}</form>" if line.moves else ""
    form = _form(line.settle_url, page, escape(back))
    return f"{form}{_main(line, named, page.leaves)}{call(line.phone)}{more}</form>{moving}"


def _form(url: str, page: Page, back: str = "", *, key: str = "", in_place: bool = True) -> str:
    """Its beginning."""
    named = f' id="{key}"' if key else ""
    boost = IN_PLACE if in_place and page.in_place else ""
    next_page = f'<input type="hidden" name="next" value="{escape(page.here)}#{back}">' if back else ""
    return f'<form{named} method="post" action="{escape(url)}"{boost}>{page.csrf}{next_page}'


def _main(line: Any, named: Named, leaves: str) -> str:
    return _act(line.main, named, leaves, f' id="act-{named.key}"') if line.main else ""


def _more(line: Any, named: Named, page: Page) -> str:
    who = f"{named.who}, " if named.who else ""
    about = f'<span class="unseen">: {who}{named.verb} {named.what}</span>'
    acts = "".join([_act(act, named, page.leaves) for act in line.more])
    return (
        f'<details class="more"><summary id="more-{named.key}">{escaped(_("More"))}{about}</summary>'
        f'<div class="more-list">{acts}</div></details>'
    )


def _act(act: Act, named: Named, leaves: str, key: str = "") -> str:
    words = f"{escaped(str(act.label))}{named.unseen}"
    if act.opens:
        return f'<a class="button plain"{key} href="{escape(act.url)}"{leaves}>{words}</a>'
    if act.code == "move":
        return _move(named, words)
    return f'<button class="plain"{key} name="act" value="{escape(act.code)}">{words}</button>'


def _move(named: Named, words: str) -> str:
    key, label = named.key, f"{escaped(_('To which day'))}{named.unseen}"
    return (
        f'<div class="asks"><label for="move-{key}">{label}</label>'
        f'<input id="move-{key}" type="date" name="day" required form="moving-{key}"></div>'
        f'<button class="plain" name="act" value="move" form="moving-{key}">{words}</button>'
    )
