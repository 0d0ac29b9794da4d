"""The phone measured: opening offline, storing an entry, and a day's sync against plain uploads of as many bytes.

Run by hand: python -m tests.bench.bench_phone
"""

from __future__ import annotations

import base64
import itertools
import os
import statistics
import tempfile
import threading
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import lru_cache
from io import BytesIO
from pathlib import Path
from typing import Any

from PIL import Image
from playwright.sync_api import Page, sync_playwright

from fieldbook.book.opening import create_book, open_book
from fieldbook.phones import codes
from fieldbook.serving import authority
from fieldbook.serving.address import address_of
from fieldbook.serving.server import prepared
from fieldbook.web import create_app
from tests.browser.conftest import FLAGS
from tests.browser.phones import Laptop, Phone
from tests.browser.test_phone_offline import FIXING
from tests.sites import survey

FACES, FIXINGS = 5, 500
SLOWER = 4
ROUNDS = 7
ENTRIES, PHOTOGRAPHS = 200, 60
SIZE = (4000, 3000)  # 12 megapixels
GRAIN = 20  # of 255: about 4 MB at the quality of phones
UNLIKE = 4  # pictures drawn; the others have other bytes behind their end
STORE_ONE = """async () => {
  const { uuid7 } = (await import("/phone/app.js")).modules["phone/book/identity.js"];
  const { record } = (await import("/phone/app.js")).modules["phone/store/ledger.js"];
  const { readFacts } = (await import("/phone/app.js")).modules["phone/store/facts.js"];
  const { device, cursor } = await readFacts();
  const times = [];
  for (let at = 0; at < 60; at += 1) {
    const head = { id: uuid7(), device, at: new Date().toISOString(), base: cursor };
    const start = performance.now();
    await record([{ ...head, kind: "room", item: uuid7(), set: { use: `use ${at}` } }], { draft: "new room" });
    times.push(performance.now() - start);
  }
  return times;
}"""
KEYS = 40
NEXT_PICTURE = "() => new Promise((done) => requestAnimationFrame(() => setTimeout(done)))"
PAUSES_MS = (60, 400)  # between keys: typed on, and read
TRACED = "toplevel,devtools.timeline,disabled-by-default-devtools.timeline"
TAKE_UP = """async ({ base64, count, bytes, set }) => {
  const { modules } = await import("/phone/app.js");
  const { readPhotograph, fieldsOf } = modules["phone/camera.js"];
  const notebook = await modules["phone/notebook.js"].openNotebook(modules["phone/book/registry.js"].registryHere());
  const small = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
  for (let at = 0; at < count; at += 1) {
    const whole = new Uint8Array(bytes);
    whole.set(small);
    new DataView(whole.buffer).setUint32(bytes - 4, at); // after the picture's end: another digest, the same picture
    const picture = await readPhotograph(new File([whole], "a.jpg", { type: "image/jpeg" }));
    await notebook.write([{ kind: "photograph", item: crypto.randomUUID(), set: { ...set, ...fieldsOf(picture) } }],
      { picture: { ...picture, state: "waiting" } });
  }
}"""
SYNC = """async () => {
  const { readLedger } = (await import("/phone/app.js")).modules["phone/store/ledger.js"];
  const start = performance.now();
  [...document.querySelectorAll(".action")].find((one) => one.textContent.trim() === "Send now").click();
  for (;;) {
    const { outbox, pictures } = await readLedger(["outbox", "pictures"]);
    if (!outbox.length && !pictures.some(({ state }) => state === "waiting")) return (performance.now() - start) / 1000;
    await new Promise((go) => setTimeout(go, 50));
  }
}"""
PLAIN = """async ({ count, bytes }) => {
  const bodies = Array.from({ length: count }, (_, at) => crypto.getRandomValues(new Uint8Array(65_536)));
  const copies = Math.ceil(bytes / 65_536);
  const whole = bodies.map((part) => new Blob(Array.from({ length: copies }, () => part)).slice(0, bytes));
  const start = performance.now();
  for (const [at, body] of whole.entries()) {
    const answer = await fetch(`/upload/${at}`, { method: "PUT", body });
    if (!answer.ok) throw new Error(answer.status);
  }
  return (performance.now() - start) / 1000;
}"""


def furnish(folder: Path) -> None:
    """A book with 500 fixings on five faces of one room."""
    with create_book(folder) as book:
        known = survey(book)
        for at in range(FACES):
            size = {"sort": "wall", "width_mm": 6000, "height_mm": 3000}
            face = book.write("face", {"room": known.room, "mark": f"F{at}", "name": "Wall", **size})
            place = {"state": "planned", "x_mm": 100, "z_mm": 900, "width_mm": 5500, "height_mm": 900}
            fitting = book.write("fitting", {"face": face, "mark": f"D{at}", "name": "Case", **place})
            outline = [[0, 0], [5400, 0], [5400, 2600], [0, 2600]]
            zone = {"face": face, "name": "Scheme", "outline": outline, "forbids": ["drilling", "contact"]}
            book.write("zone", zone | {"margin_mm": 50, "reason": "painted"})
            for number in range(FIXINGS // FACES):
                where = {"x_mm": 150 + 54 * number, "z_mm": 950 + 37 * (number % 20), "trace": "none"}
                mark = {"fitting": fitting, "face": face, "mark": f"D{at}.{number + 1}"}
                book.write("fixing", FIXING | mark | where)


def opening(phone: Phone, laptop: Laptop) -> None:
    """Opening offline on a processor slowed four times: until the rooms can be read, and until a face is drawn."""
    laptop.stop()
    page = phone.page
    slow(phone, SLOWER)
    first, drawn = [], []
    for _ in range(ROUNDS):
        page.goto("about:blank")
        start = time.perf_counter()
        page.goto(laptop.address)
        page.get_by_role("link", name="Long room").wait_for()
        first.append(time.perf_counter() - start)
        page.get_by_role("link", name="Long room").click()
        page.get_by_role("link", name="F3").wait_for()
        start = time.perf_counter()
        page.get_by_role("link", name="F3").click()
        page.locator("svg.elevation").wait_for()
        drawn.append(time.perf_counter() - start)
    print(f"opening offline, {FIXINGS} fixings, processor slowed {SLOWER} times, to the first page: {told(first)}")
    print(f"a face with {FIXINGS // FACES} fixings, drawn and booked, slowed {SLOWER} times: {told(drawn)}")
    page.get_by_role("link", name="May I, here?").click()
    page.locator("#here-z").fill("1000")
    slow(phone, 1)
    print(f"longest task after a key at the wall, deep in a zone, {SLOWER} times as slow: {told(pressing(page))}")
    slow(phone, SLOWER)
    stored = [each / 1000 for each in page.evaluate(STORE_ONE)]
    print(f"storing one entry (strict), slowed {SLOWER} times: {told(stored)}")
    slow(phone, 1)
    print(f"storing one entry (strict): {told([each / 1000 for each in page.evaluate(STORE_ONE)])}")


def slow(phone: Phone, rate: int) -> None:
    """Slow the page's processor so many times."""
    assert phone.context
    phone.context.new_cdp_session(phone.page).send("Emulation.setCPUThrottlingRate", {"rate": rate})


def pressing(page: Page) -> list[float]:
    """Seconds of processor time of the longest task that follows each key, as on a processor slowed four times.

    So long another key may wait; what answers to a key comes in several tasks.
    """
    session = page.context.new_cdp_session(page)
    events: list[dict[str, Any]] = []
    over: list[object] = []
    session.on("Tracing.dataCollected", lambda part: events.extend(part["value"]))
    session.on("Tracing.tracingComplete", lambda said: over.append(said))
    session.send("Tracing.start", {"traceConfig": {"includedCategories": TRACED.split(",")}})
    page.locator("#here-x").focus()
    for at in range(KEYS):
        page.keyboard.press("Backspace" if at % 3 == 2 else str(at % 10))
        page.evaluate(NEXT_PICTURE)
        page.wait_for_timeout(PAUSES_MS[at % 2])
    session.send("Tracing.end")
    while not over:
        page.wait_for_timeout(50)
    return longest_after(events)


def longest_after(events: list[dict[str, Any]]) -> list[float]:
    """Seconds, as slowed, of the longest task between each key and the next, in the thread of the page."""
    keys = [one for one in events if one["args"].get("data", {}).get("type") == "keydown" and "dur" in one]
    begun = [*sorted(one["ts"] for one in keys), float("inf")]
    thread = keys[0]["pid"], keys[0]["tid"]
    whole = [one for one in events if (one["pid"], one["tid"]) == thread and "tdur" in one]  # not cut by the end
    tasks = [one for one in whole if one["name"].endswith("RunTask")]
    return [
        max(one["tdur"] for one in tasks if begin <= one["ts"] + one["dur"] and one["ts"] < end) / 1e6 * SLOWER
        for begin, end in itertools.pairwise(begun)
    ]


def told(seconds: list[float]) -> str:
    """Median and worst, ms."""
    return f"median {statistics.median(seconds) * 1000:.0f} ms, worst {max(seconds) * 1000:.0f} ms of {len(seconds)}"


@contextmanager
def over_tls(app: Callable[..., Any], folder: Path) -> Iterator[int]:
    """An app served over TLS with the book's own certificate; gives the port."""
    with open_book(folder) as book:
        keys = authority.keys_of(book, address_of(book), ["127.0.0.1"])
    server = prepared(app, 0, certificate=keys.certificate, key=keys.key)
    thread = threading.Thread(target=server.serve)
    thread.start()
    try:
        yield server.bind_addr[1]
    finally:
        server.stop()
        thread.join()


@lru_cache
def drawn(number: int) -> bytes:
    """A picture of 12 megapixels, of about 4 MB."""
    grain = Image.effect_noise((SIZE[0] // 2, SIZE[1] // 2), GRAIN + number).resize(SIZE)
    buffer = BytesIO()
    Image.merge("RGB", (grain, grain.point(lambda level: level * 0.8), grain)).save(buffer, "JPEG", quality=92)
    return buffer.getvalue()


def picture(number: int) -> bytes:
    """One of the day's photographs, like no other by its digest."""
    return drawn(number % UNLIKE) + number.to_bytes(4, "big")


def plain_app(folder: Path) -> Callable[..., Any]:
    """What takes an upload and writes it, and nothing else."""

    def app(environ: dict[str, Any], begin: Callable[..., Any]) -> list[bytes]:
        if environ["REQUEST_METHOD"] == "PUT":
            content = environ["wsgi.input"].read(int(environ["CONTENT_LENGTH"]))
            with (folder / Path(environ["PATH_INFO"]).name).open("wb") as file:
                file.write(content)
                os.fsync(file.fileno())
        begin("200 OK", [("Content-Type", "text/html")])
        return [b"<!doctype html><title>plain</title>"]

    return app


def syncing(driver: Any, folder: Path) -> None:
    """A day's entries and photographs sent, and the same bytes put up plainly, over TLS both."""
    book = folder / "tls"
    with create_book(book) as opened:
        known = survey(opened)
    with over_tls(create_app(book, tls=True, access="open"), book) as port, over_tls(plain_app(folder), book) as plain:
        phone = Phone(folder / "tls-phone", f"https://127.0.0.1:{port}/phone/", driver=driver)
        page = phone.open(args=[*FLAGS, "--ignore-certificate-errors"])
        with open_book(book) as opened:
            code = codes.new_join_code(opened)
        phone.join(code)
        assert phone.context
        phone.context.route("**/phone/hello*", lambda route: route.abort())  # nothing goes before it is measured
        about = {"site": known.site, "subject": known.face, "purpose": "as found"}
        size = len(drawn(0)) + 4
        given = {"base64": base64.b64encode(drawn(0)).decode(), "count": PHOTOGRAPHS, "bytes": size, "set": about}
        page.evaluate(TAKE_UP, given)
        phone.write(
            *({"kind": "room", "item": known.room, "set": {"use": str(at)}} for at in range(ENTRIES - PHOTOGRAPHS))
        )
        phone.go("#/waiting").get_by_role("button", name="Send now").wait_for()
        phone.context.unroute("**/phone/hello*")
        seconds = page.evaluate(SYNC)
        uploaded = uploads(page, plain, size)
        sizes = f"{ENTRIES} entries and {PHOTOGRAPHS} photographs of 12 megapixels, {size / 1e6:.1f} MB each"
        print(f"sync of {sizes}, TLS, this machine: {seconds:.1f} s")
        print(f"plain uploads of as many bytes, TLS, this machine: {uploaded:.1f} s: {seconds / uploaded:.2f} times")
        phone.close()


def uploads(page: Page, port: int, size: int) -> float:
    """Seconds for the same number of bytes put up one after the other by fetch."""
    page.goto(f"https://127.0.0.1:{port}/")
    return page.evaluate(PLAIN, {"count": PHOTOGRAPHS, "bytes": size})


def main() -> None:
    """All of it, on this machine."""
    with tempfile.TemporaryDirectory(dir="/tmp") as name, sync_playwright() as driver:  # noqa: S108 - sockets want short paths
        folder = Path(name)
        furnish(folder / "book")
        laptop = Laptop(folder / "book")
        laptop.start()
        phone = Phone(folder / "phone", laptop.address, driver=driver)
        phone.open()
        phone.join(laptop.code())
        opening(phone, laptop)
        phone.close()
        syncing(driver, folder)


if __name__ == "__main__":
    main()
