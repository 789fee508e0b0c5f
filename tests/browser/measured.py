"""What can be measured of a page that is open: whether all of it is in reach of eye and thumb."""

from __future__ import annotations

from playwright.sync_api import Page

# A desk's window enlarged four times is as small as the last.
SIZES = ((1280, 900), (768, 1024), (320, 640), (320, 225))

FAULTS = """() => {
  const wide = document.documentElement.clientWidth, found = new Set(), shut = new Map();
  const about = (node) => node.textContent.replace(/\\s+/g, " ").trim().slice(0, 40);
  if (document.documentElement.scrollWidth > wide) found.add("scrolls sideways");
  const unseen = (node) => {
    if (!node || node === document.body) return false;
    if (!shut.has(node)) shut.set(node, getComputedStyle(node).clipPath !== "none" || unseen(node.parentElement));
    return shut.get(node);
  };
  const seen = (node) => node.checkVisibility({ visibilityProperty: true }) && !unseen(node);

  // Each word lies in its button, in what cuts it off, and in the window if no part around it scrolls.
  const words = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  const range = document.createRange();
  while (words.nextNode()) {
    const word = words.currentNode;
    if (!word.data.trim() || !seen(word.parentElement) || word.parentElement.closest("option, svg")) continue;
    range.selectNodeContents(word);
    const drawn = range.getBoundingClientRect();
    let free = true;
    for (let box = word.parentElement; box !== document.documentElement; box = box.parentElement) {
      const flow = getComputedStyle(box).overflowX, bounds = box.getBoundingClientRect();
      if (flow === "auto" || flow === "scroll") { free = false; break; }
      const holds = flow !== "visible" || box.matches("button, .button, .chip");
      const out = drawn.right > bounds.right + 1 || drawn.left < bounds.left - 1 || drawn.bottom > bounds.bottom + 2;
      if (holds && out) found.add(`cut off: ${about(word)}`);
    }
    if (free && (drawn.right > wide + 1 || drawn.left < -1)) found.add(`out of the window: ${about(word)}`);
  }

  // A link within a sentence is as high as its line; what fills its label is as large as that.
  for (const target of document.querySelectorAll("a, button, summary, input:not([type=hidden]), select, textarea")) {
    if (!seen(target) || getComputedStyle(target).display === "inline") continue;
    const sizes = [target, ...(target.labels || [])].map((one) => one.getBoundingClientRect());
    const large = sizes.some((one) => one.width > 23.5 && one.height > 23.5);
    if (!large) found.add(`small: ${about(target) || target.name}`);
  }
  return [...found];
}"""


def faults(page: Page, path: str) -> list[str]:
    """What cannot be seen, read or hit, at every size and in both colours."""
    page.goto(path)
    found = []
    for width, height in SIZES:
        page.set_viewport_size({"width": width, "height": height})
        for scheme in ("light", "dark"):
            page.emulate_media(color_scheme=scheme)
            found += [f"{path} {width}x{height} {scheme}: {one}" for one in page.evaluate(FAULTS)]
    return found
