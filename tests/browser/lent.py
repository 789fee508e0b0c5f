"""One browser window of a kind serves test after test: to open each its own takes as long as the test itself.

What a test could leave behind goes: its pages, its cookies, what they stored. Files that the site serves stay kept, as
with anybody who comes a second time.
"""

from __future__ import annotations

from typing import Any

from playwright.sync_api import Browser, BrowserContext, Page

# Kinds change with the file of tests, so that more would only take memory.
MOST_AT_REST = 2
STORED = "local_storage,indexeddb,cache_storage,service_workers"


class Lent:
    """A context of the browser, which is emptied where others are closed."""

    def __init__(self, context: BrowserContext, kind: str) -> None:
        self.context, self.kind = context, kind
        self.size: Any = None
        # As long as one page is open, its process stays for the next.
        self.stays = context.new_page()

    def __getattr__(self, name: str) -> Any:
        return getattr(self.context, name)

    def new_page(self) -> Page:
        page = self.context.new_page()
        if self.size:
            page.set_viewport_size(self.size)
        return page

    def empty(self) -> None:
        origins = {"/".join(page.url.split("/", 3)[:3]) for page in self.context.pages if page is not self.stays}
        for page in self.context.pages:
            if page is not self.stays:
                page.close()
        self.context.set_offline(False)
        self.context.clear_cookies()
        session = self.context.new_cdp_session(self.stays)
        for origin in origins:
            session.send("Storage.clearDataForOrigin", {"origin": origin, "storageTypes": STORED})
        session.detach()

    def close(self) -> None:
        self.empty()
        AT_REST.append(self)
        for one in AT_REST[:-MOST_AT_REST]:
            AT_REST.remove(one)
            one.context.close()


AT_REST: list[Lent] = []


def lend(browser: Browser, open_new: Any, **kind: Any) -> Any:
    """A context of this kind that is at rest, or a new one."""
    size, asked = kind.pop("viewport", None), repr(sorted(kind.items()))
    found = next((one for one in AT_REST if one.kind == asked), None)
    if found:
        AT_REST.remove(found)
    else:
        found = Lent(open_new(browser, **kind), asked)
    found.size = size
    return found
