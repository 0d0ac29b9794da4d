"""What can be told of a page by looking at it as it stands."""

from __future__ import annotations

from pathlib import Path
from typing import Any, Literal

from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Page

SCHEMES: tuple[Literal["light"], Literal["dark"]] = ("light", "dark")
LEAST_TARGET_PX = 48
AXE = Axe().axe_script
RUN_AXE = """async options => {
  const { violations } = await axe.run({ resultTypes: ["violations"], ...options });
  return violations.flatMap(({ id, nodes }) => nodes.map(({ html }) => [id, html.slice(0, 160)]));
}"""
CONTRAST, SMALL = (Path(__file__).with_name(name).read_text() for name in ("contrast.js", "small.js"))
SIZED = "size => { document.documentElement.style.fontSize = size }"
OVERFLOW = "document.documentElement.scrollWidth - innerWidth"
# The rules that look at colours take longer than all others, the more the longer a page is.
OF_COLOUR = ["color-contrast", "link-in-text-block"]
# For them, of children alike only the first are left; `pale` looks at all letters, by night also in place of the rule
# of contrast. A drawing has its own inks on white.
SHORTENED = """most => {
  for (const drawing of document.querySelectorAll("svg")) drawing.replaceChildren();
  for (const parent of document.querySelectorAll("main, main *")) {
    const seen = {};
    for (const child of [...parent.children]) {
      const alike = `${child.tagName} ${child.className}`;
      seen[alike] = (seen[alike] ?? 0) + 1;
      if (seen[alike] > most) child.remove();
    }
  }
}"""
MOST_ALIKE = 4


def audit_as_it_stands(page: Page) -> list[list[str]]:
    """What axe-core finds against the page: each rule broken, and the element that breaks it."""
    return _broken(page)


def audit(page: Page) -> list[list[str]]:
    """What axe-core finds against the page, but for its colours: each rule broken, and the element that breaks it."""
    return _broken(page, rules={rule: {"enabled": False} for rule in OF_COLOUR})


def audit_of_colours(page: Page) -> dict[str, list[list[str]]]:
    """By day and by night, what axe-core finds against the colours of the page, of which lists are then shortened."""
    page.evaluate(SHORTENED, MOST_ALIKE)
    found = {}
    for scheme in SCHEMES:
        page.emulate_media(color_scheme=scheme)
        found[scheme] = _broken(page, runOnly=OF_COLOUR if scheme == "light" else OF_COLOUR[1:])
    return found


def _broken(page: Page, **options: Any) -> list[list[str]]:
    if not page.evaluate("'axe' in window"):
        page.evaluate(AXE)
    return page.evaluate(RUN_AXE, options)


def pale(page: Page, scheme: Literal["light", "dark"]) -> list[Any]:
    """Texts that stand out too little, by day or by night."""
    page.emulate_media(color_scheme=scheme)
    return page.evaluate(CONTRAST)


def resize(page: Page, width: int, letters: str, height: int = 844) -> None:
    """Make the screen so wide, and the letters so large."""
    page.set_viewport_size({"width": width, "height": height})
    page.evaluate(SIZED, letters)


def overflow(page: Page) -> int:
    """By how many pixels the page is wider than its screen."""
    return page.evaluate(OVERFLOW)


def small(page: Page) -> list[str]:
    """What is pressed, and too low for a thumb."""
    return page.evaluate(SMALL, LEAST_TARGET_PX)
