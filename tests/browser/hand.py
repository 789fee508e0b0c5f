"""A hand at a page: what it taps and types is counted, and how many pages load on the way."""

from __future__ import annotations

import re
from dataclasses import dataclass, field

from playwright.sync_api import Locator, Page, expect

PHONE_WIDTH = 400


@dataclass
class Hand:
    """Every tap is within reach of a thumb, and every key that is pressed counts as one."""

    page: Page
    taps: int = 0
    keys: int = 0
    loads: int = field(default=0, init=False)

    def __post_init__(self) -> None:
        self.page.on("domcontentloaded", self._loaded)

    def _loaded(self, _page: Page) -> None:
        self.loads += 1

    def tap(self, label: str | re.Pattern[str], *, exact: bool = False) -> None:
        """A button, a link, a tick or one of the large radio buttons, by its words."""
        self.touch(self.found(label, exact=exact).first)

    def found(self, label: str | re.Pattern[str], *, exact: bool = False) -> Locator:
        """What can be tapped under these words and is to be seen."""
        kinds = ("radio", "checkbox", "button", "link", "option")
        found = self.page.get_by_role("radio", name=label, exact=exact)
        for kind in kinds[1:]:
            found = found.or_(self.page.get_by_role(kind, name=label, exact=exact))
        return found.locator("visible=true")

    def touch(self, target: Locator) -> None:
        """One tap; on a phone, on something that is large enough for a thumb."""
        target.scroll_into_view_if_needed()
        box = target.bounding_box()
        assert box is not None
        assert min(box["width"], box["height"]) >= 24 or (self.page.viewport_size or box)["width"] > PHONE_WIDTH
        target.click()
        self.taps += 1

    def type(self, label: str, words: str) -> None:
        """Going into a field is a tap, and each letter a key."""
        into = self.page.get_by_label(label).locator("visible=true").first
        into.click()
        into.press_sequentially(words)
        self.taps += 1
        self.keys += len(words)

    def date(self, label: str, day: str) -> None:
        """A day is typed as eight digits, whatever the browser's own order of them."""
        self.page.get_by_label(label).locator("visible=true").first.fill(day)
        self.taps += 1
        self.keys += 8

    def choose(self, label: str, words: str) -> None:
        """A list opens with one tap and closes with another."""
        self.page.get_by_label(label).locator("visible=true").first.select_option(label=words)
        self.taps += 2

    def prints(self, label: str) -> int:
        """Taps what opens a file to print, and says how many bytes it has."""
        link = self.found(label).first
        link.scroll_into_view_if_needed()
        self.taps += 1
        answer = self.page.request.get(f"{link.get_attribute('href')}")
        assert answer.headers["content-type"] == "application/pdf"
        return len(answer.body())

    def reads(self, heading: str) -> None:
        """Waits for a page by its heading."""
        expect(self.page.get_by_role("heading", level=1)).to_contain_text(heading, timeout=30_000)
