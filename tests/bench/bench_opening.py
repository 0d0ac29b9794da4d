"""A phone with a book of 20,000 entries at a quarter of the speed of this machine: opening offline, and keys pressed.

Opening is timed from the address to the first page with its rooms, with the network off; a key from the press to the
picture after it. Both are told in the processor time of the page, which other work on the machine alters less.

Run by hand: python -m tests.bench.bench_opening
"""

from __future__ import annotations

import statistics
import tempfile
import time
from pathlib import Path

from playwright.sync_api import CDPSession, Page, sync_playwright

from tests.bench.long_standing import ENTRIES, furnish
from tests.browser.phones import Laptop, Phone

SLOWER, ROUNDS, KEYS = 4, 7, 30
BOUND_S, BOUND_KEY_MS = 1.5, 50
# The first page stands when its rooms do; told by the page's own clock, from the start of the navigation.
STANDS = """() => new Promise((done) => {
  const look = () => document.querySelector('#page a[href^="#/work/"]') && done(performance.now());
  new MutationObserver(look).observe(document, { childList: true, subtree: true });
  look();
})"""
NEXT_PICTURE = "() => new Promise((done) => requestAnimationFrame(() => setTimeout(done)))"
FIRST_FIXING = """async (face) => {
  const { modules } = await import("/phone/app.js");
  const notebook = await modules["phone/notebook.js"].openNotebook(modules["phone/book/registry.js"].registryHere());
  return notebook.site.fixingsOn(notebook.site.get(face))[0].id;
}"""


def slow(phone: Phone, rate: int) -> None:
    """Slow the page's processor so many times."""
    assert phone.context
    phone.context.new_cdp_session(phone.page).send("Emulation.setCPUThrottlingRate", {"rate": rate})


def opening(phone: Phone, address: str) -> tuple[list[float], list[float]]:
    """Milliseconds from the address to the rooms, some times: by the clock, and of the page's processor."""
    assert phone.context
    taken, worked = [], []
    for _ in range(ROUNDS):
        phone.page.goto("about:blank")
        session = phone.context.new_cdp_session(phone.page)
        session.send("Performance.enable", {"timeDomain": "threadTicks"})
        before = spent(session)
        phone.page.goto(address, wait_until="commit")
        taken.append(phone.page.evaluate(STANDS))
        worked.append((spent(session) - before) * 1000)
    return taken, worked


def spent(session: CDPSession) -> float:
    """Seconds the page's processor was at work until now."""
    said = session.send("Performance.getMetrics")["metrics"]
    return next(one["value"] for one in said if one["name"] == "TaskDuration")


def keys(page: Page) -> list[float]:
    """Milliseconds of the processor's work for each key in the field for x, and the picture after it, as slowed."""
    session = page.context.new_cdp_session(page)
    session.send("Performance.enable", {"timeDomain": "threadTicks"})
    taken = []
    for at in range(KEYS):
        before = spent(session)
        page.keyboard.press("Backspace" if at % 3 == 2 else str(at % 10))
        page.evaluate(NEXT_PICTURE)
        taken.append((spent(session) - before) * 1000 * SLOWER)
    return taken


def at_places(phone: Phone) -> None:
    """Keys on the pages that answer for a place."""
    page = phone.page
    face = str(page.locator('#page a[href^="#/work/"]').nth(7).get_attribute("href")).split("/")[-1]
    fixing = page.evaluate(FIRST_FIXING, face)
    for route in (f"#/here/{face}", f"#/change/{fixing}", f"#/new/fixing?face={face}"):
        phone.go(route)
        page.locator('#here-x, #page input[name="x_mm"]').first.focus()
        print(f"a key on {route.split('/')[1]}: {told(keys(page))}; asked: {BOUND_KEY_MS} ms")


def told(taken: list[float]) -> str:
    """Median and worst, ms."""
    return f"median {statistics.median(taken):.0f} ms, worst {max(taken):.0f} ms of {len(taken)}" if taken else "none"


def main() -> None:
    """Make the book, join, and measure."""
    with tempfile.TemporaryDirectory(dir="/tmp") as name, sync_playwright() as driver:  # noqa: S108 - sockets want short paths
        folder = Path(name)
        start = time.perf_counter()
        furnish(folder / "book")
        print(f"{ENTRIES} entries made in {time.perf_counter() - start:.1f} s")
        laptop = Laptop(folder / "book")
        laptop.start()
        phone = Phone(folder / "phone", laptop.address, driver=driver)
        phone.open()
        phone.join(laptop.code())
        laptop.stop()
        clock, worked = opening(phone, laptop.address)
        print(f"at full speed: {told(clock)}; of the page's processor: {told(worked)}")
        print(f"that, slowed {SLOWER} times: {told([one * SLOWER for one in worked])}; asked: {BOUND_S * 1000:.0f} ms")
        at_places(phone)
        slow(phone, SLOWER)
        clock, _ = opening(phone, laptop.address)
        print(f"slowed by the browser, by the clock (on a machine with nothing else to do): {told(clock)}")
        phone.close()


if __name__ == "__main__":
    main()
