"""How the pages of the desk stand, each opened once: on small and dark screens, for a thumb, and for everybody."""

from __future__ import annotations

from typing import Any
from urllib.parse import urlencode, urljoin

import pytest
from playwright.sync_api import Browser, Page

from fieldbook.book.opening import create_book
from fieldbook.calculations.catalogue import CALCULATIONS
from fieldbook.web.forms.of_calculation import in_the_address
from tests.browser.conftest import served, watched
from tests.browser.looks import SCHEMES, audit, audit_of_colours, overflow, pale, resize, small
from tests.sites import Surveyed, survey
from tests.web.test_routes import furnished

pytestmark = pytest.mark.xdist_group("desk_pages")

SIZES = [(320, "100%"), (390, "100%"), (390, "200%"), (1440, "200%")]
LONG = "Donaudampfschifffahrtsgesellschaftskapitänswitwe"
Found = dict[str, dict[object, Any]]


def example_of(name: str) -> str:
    """What the form of a calculation holds for its example, as in an address."""
    return urlencode(in_the_address(CALCULATIONS[name], CALCULATIONS[name].example))


def pages_of(surveyed: Surveyed) -> list[str]:
    """A page of every sort."""
    site, face = f"/site/{surveyed.site}", f"/face/{surveyed.face}"
    fitting, zone = surveyed.book.items("fitting")[0]["id"], surveyed.book.items("zone")[-1]["id"]
    sheet = {"site": surveyed.site, "reference": "N1", "name": "Load of the peg", "sort": "data sheet"}
    document = surveyed.book.write("document", sheet | {"sha256": "0" * 64})
    ticked = urlencode({"items": [row["id"] for row in surveyed.book.items("fixing")]}, doseq=True)
    examples = (f"{name}?{example_of(name)}" for name in ("plate-contact", "movement", "yield", "removal"))
    lists = ("findings", "findings?word=not+known", "record", "withdrawn", "all/fixing", "workshop?spare=5")
    return [
        *("/", "/glossary", "/conflicts", f"/room/{surveyed.room}", "/materials", "/calculations"),
        f"/documents/{document}/rests",
        *(face, f"{face}/door", f"{face}/answer?x_mm=50&z_mm=50", f"{face}?stock_mm=thick"),
        *(
            f"/item/{fitting}",
            f"/item/{fitting}/copies?count=1&apart=1100&face={surveyed.face}",
            f"/item/{zone}",
            f"/item/{zone}/history",
            f"/item/{zone}/change",
        ),
        *(f"/calculations/{one}" for one in (*examples, "humidity-band?temperature_c=warm")),
        *(site, *(f"{site}/{one}" for one in lists)),
        *(
            f"{site}/{one}"
            for one in (f"several/fixing?fitting={fitting}", f"together?{ticked}", f"fitted?items={fitting}")
        ),
        *(f"{site}/new/{one}" for one in ("fixing", "agreement", "build_up", f"zone?face={surveyed.face}")),
    ]


@pytest.fixture(scope="module")
def found(browser: Browser, tmp_path_factory: pytest.TempPathFactory) -> Found:
    """Address of every page -> what was found on it, by what was looked for."""
    with create_book(tmp_path_factory.mktemp("desk") / "book") as book:
        surveyed = furnished(survey(book))
        surveyed.zone(mark="K9", name=LONG, reason="word " * 2000)
        with served(book.folder) as address, watched(browser, address) as page:
            return {path: looked_at(page, path) for path in pages_of(surveyed)}


def looked_at(page: Page, path: str) -> dict[object, Any]:
    """Open a page and look at it in every way."""
    resize(page, 1440, "100%", 900)
    page.goto(urljoin(page.url, path))
    found: dict[object, Any] = {("pale", scheme): pale(page, scheme) for scheme in SCHEMES}
    page.emulate_media(color_scheme="light")
    for width, letters in SIZES:
        resize(page, width, letters)
        found["wide", width, letters] = overflow(page)
        if (width, letters) == (390, "100%"):
            found["small"] = small(page)
    resize(page, 1440, "100%", 900)
    found["audit"] = audit(page)
    return found | {("colours", scheme): broken for scheme, broken in audit_of_colours(page).items()}


def troubles(found: Found, sought: object) -> dict[str, Any]:
    """The pages on which something was found of what was looked for."""
    return {path: of_page[sought] for path, of_page in found.items() if of_page[sought]}


@pytest.mark.parametrize(("width", "letters"), SIZES)
def test_no_page_has_to_be_moved_sideways(found: Found, width: int, letters: str) -> None:
    """At 320 px, and with letters of twice the size; tables and drawings move in their own frames."""
    assert {path: px for path, px in troubles(found, ("wide", width, letters)).items() if px > 0} == {}


def test_what_is_pressed_is_large_enough_for_a_thumb(found: Found) -> None:
    """Buttons, inputs and links that stand by themselves are at least 48 px high; boxes count with their labels."""
    assert troubles(found, "small") == {}


def test_no_page_shuts_anybody_out(found: Found) -> None:
    """Source of the rules: axe-core, WCAG 2.2 A and AA with its best practices."""
    assert troubles(found, "audit") == {}


@pytest.mark.parametrize("scheme", SCHEMES)
def test_nothing_is_told_by_colours_too_much_alike(found: Found, scheme: str) -> None:
    """Source of the rules: axe-core, WCAG 2.2 AA, those about colours."""
    assert troubles(found, ("colours", scheme)) == {}


@pytest.mark.parametrize("scheme", SCHEMES)
def test_letters_stand_out_from_the_paper(found: Found, scheme: str) -> None:
    """4.5 to 1 for all text (WCAG 2.2, 1.4.3), by day and by night; the formula is that of its relative luminance."""
    assert troubles(found, ("pale", scheme)) == {}
