"""A page read as a browser would: what it is made of, where it leads, what its forms would send."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from html.parser import HTMLParser
from urllib.parse import urljoin, urlsplit

VOID = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr", "use"}


@dataclass
class Form:
    action: str
    method: str
    sent: dict[str, list[str]] = field(default_factory=dict)
    buttons: list[tuple[str, str]] = field(default_factory=list)

    def data(self, **over: object) -> dict[str, object]:
        """What is sent when nothing else is typed, with `over` typed; None takes a field out."""
        return {name: value for name, value in {**self.sent, **over}.items() if value is not None}


@dataclass
class Table:
    caption: str = ""
    headers: list[dict[str, str | None]] = field(default_factory=list)


class Page(HTMLParser):
    """The parts that tests ask about. Read a whole page with `Page.read(html)`."""

    def __init__(self) -> None:
        super().__init__()
        self.headings = 0
        self.lang = ""
        self.title = ""
        self.ids: Counter[str] = Counter()
        self.tables: list[Table] = []
        self.links: list[str] = []
        self.forms: list[Form] = []
        self.inline: list[str] = []
        # Of each field that is marked as wrong: the ids of what says why, its own or its group's.
        self.wrong: list[list[str]] = []
        self._told: list[str] = []
        self._open: list[str] = []
        self._form_of: dict[str, Form] = {}
        self._form: Form | None = None
        self._tables: list[Table] = []
        self._select: tuple[Form, str] | None = None
        self._textarea: tuple[Form, str] | None = None

    @classmethod
    def read(cls, html: str) -> Page:
        page = cls()
        page.feed(html)
        page.close()
        return page

    def twice(self) -> list[str]:
        return [name for name, count in self.ids.items() if count > 1]

    def lost(self) -> list[str]:
        """Links within the page that lead nowhere."""
        return [link for link in self.links if link.startswith("#") and link[1:] not in self.ids]

    def unsaid(self) -> list[list[str]]:
        """Fields that are wrong and lead to no words of why."""
        return [ids for ids in self.wrong if not any(one.endswith("_error") and one in self.ids for one in ids)]

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        if tag not in VOID:
            self._open.append(tag)
        if "id" in given:
            self.ids[given["id"] or ""] += 1
        self.inline += [f"<{tag} {name}>" for name in given if name == "style" or name.startswith("on")]
        if tag == "style" or (tag == "script" and "src" not in given):
            self.inline.append(f"<{tag}>")
        if (given.get("href") or "").strip().lower().startswith("javascript:"):
            self.inline.append(f"<{tag} javascript:>")
        why = given.get("aria-describedby") or ""
        if tag == "fieldset":
            self._told.append(why)
        if given.get("aria-invalid") == "true":
            self.wrong.append(" ".join([why, *self._told]).split())
        handle = getattr(self, f"_start_{tag}", None)
        if handle is not None:
            handle(given)

    def handle_endtag(self, tag: str) -> None:
        if tag in self._open:
            while self._open and self._open.pop() != tag:
                pass
        if tag == "fieldset" and self._told:
            self._told.pop()
        if tag == "form":
            self._form = None
        elif tag == "table" and self._tables:
            self._tables.pop()
        elif tag == "select":
            self._select = None
        elif tag == "textarea":
            self._textarea = None

    def handle_data(self, data: str) -> None:
        if self._open and self._open[-1] == "title" and "svg" not in self._open:
            self.title += data
        if "caption" in self._open and self._tables:
            self._tables[-1].caption += data
        if self._textarea is not None:
            form, name = self._textarea
            form.sent[name] = [form.sent.get(name, [""])[0] + data.removeprefix("\r\n").removeprefix("\n")]

    def _start_html(self, given: dict[str, str | None]) -> None:
        self.lang = given.get("lang") or ""

    def _start_h1(self, given: dict[str, str | None]) -> None:
        self.headings += 1

    def _start_a(self, given: dict[str, str | None]) -> None:
        if given.get("href"):
            self.links.append(given["href"] or "")

    def _start_table(self, given: dict[str, str | None]) -> None:
        self.tables.append(Table())
        self._tables.append(self.tables[-1])

    def _start_th(self, given: dict[str, str | None]) -> None:
        if self._tables:
            self._tables[-1].headers.append(given)

    def _start_form(self, given: dict[str, str | None]) -> None:
        self._form = self._named(given.get("id"))
        self._form.action, self._form.method = given.get("action") or "", (given.get("method") or "get").lower()
        self.forms.append(self._form)

    def _named(self, name: str | None) -> Form:
        """A form, also one whose fields come before it."""
        return self._form_of.setdefault(name, Form("", "get")) if name else Form("", "get")

    def _belongs_to(self, given: dict[str, str | None]) -> Form | None:
        return self._named(given["form"]) if given.get("form") else self._form

    def _start_input(self, given: dict[str, str | None]) -> None:
        form, name, kind = self._belongs_to(given), given.get("name"), (given.get("type") or "text").lower()
        if form is None or not name or "disabled" in given or kind in ("submit", "button", "file", "image"):
            return
        if kind in ("checkbox", "radio"):
            if "checked" in given:
                form.sent.setdefault(name, []).append(given.get("value", "on") or "")
        else:
            form.sent.setdefault(name, []).append(given.get("value") or "")

    def _start_button(self, given: dict[str, str | None]) -> None:
        form = self._belongs_to(given)
        if form is not None and given.get("name") and (given.get("type") or "submit") == "submit":
            form.buttons.append((given["name"] or "", given.get("value") or ""))

    def _start_select(self, given: dict[str, str | None]) -> None:
        form, name = self._belongs_to(given), given.get("name")
        self._select = (form, name) if form is not None and name and "disabled" not in given else None

    def _start_option(self, given: dict[str, str | None]) -> None:
        if self._select is not None:
            form, name = self._select
            if "selected" in given or name not in form.sent:
                form.sent[name] = [given.get("value") or ""]

    def _start_textarea(self, given: dict[str, str | None]) -> None:
        form, name = self._belongs_to(given), given.get("name")
        if form is not None and name and "disabled" not in given:
            form.sent[name] = [""]
            self._textarea = (form, name)


def within(here: str, link: str) -> str:
    """The path and query of a link that stays on the site; empty for any other."""
    parts = urlsplit(urljoin(f"http://testserver{here}", link))
    if parts.scheme not in ("http", "https") or parts.netloc != "testserver":
        return ""
    return f"{parts.path}?{parts.query}" if parts.query else parts.path
