"""Phones and the laptop in step: cuts, refusals, two phones, a restored book, being shut out, and files."""

from __future__ import annotations

import base64
import hashlib
import json
import shutil
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Route, expect

from fieldbook.book import backup, forgetting, photographs
from fieldbook.book.examine import examine
from fieldbook.book.opening import create_book, open_book
from fieldbook.book.photographs import original
from fieldbook.phones import carried_files, codes, devices
from tests.browser.phones import TAKE, InstalledApps, Laptop, Phone, in_the_book, until
from tests.browser.test_phone_offline import camera_picture, item
from tests.sites import survey, two_in_one

PIECE_BYTES = 8 * 2**20
# All that lies in the phone's store: values as text, and keys; those of bytes are the digests of photographs.
EVERYTHING = """async () => {
  const { asked, transact } = (await import("/phone/app.js")).modules["phone/store/database.js"];
  const entries = ["facts", "entries", "packed", "acknowledged", "outbox", "shelf", "drafts"];
  const names = [...entries, "pictures", "originals", "copies"];
  return transact(names, "readonly", async (stores) => {
    const [text, keys] = [[], []];
    for (const name of names) {
      text.push(JSON.stringify(await asked(stores[name].getAll())));
      keys.push(...await asked(stores[name].getAllKeys()));
    }
    return { text: text.join(), keys };
  });
}"""


@pytest.fixture
def laptop(tmp_path: Path, installed: InstalledApps) -> Iterator[Laptop]:
    """A served book with a site, a room and a face."""
    with create_book(tmp_path / "book") as book:
        survey(book)
    running = Laptop(tmp_path / "book", installed.port)
    running.start()
    yield running
    running.stop()


@pytest.fixture
def phone(installed: InstalledApps, laptop: Laptop, tmp_path: Path) -> Iterator[Phone]:
    """A phone that has joined."""
    held = Phone(tmp_path / "phone", laptop.address, installed=installed)
    held.open()
    held.join(laptop.code())
    yield held
    held.close()
    assert held.troubles == []


def ids(laptop: Laptop) -> dict[str, str]:
    """Kind -> id of what the book held at first."""
    with laptop.book() as book:
        return {kind: book.items(kind)[0]["id"] for kind in ("site", "room", "face")}


def photograph(laptop: Laptop, content: bytes) -> dict[str, Any]:
    """What a phone takes up as a photograph of the face; zeros at its end are made there."""
    known = ids(laptop)
    picture = content.rstrip(b"\0")
    about = {"site": known["site"], "subject": known["face"], "purpose": "as found"}
    return {"base64": base64.b64encode(picture).decode(), "zeros": len(content) - len(picture), "set": about}


def test_s7_photograph_goes_on_after_a_cut_from_the_last_piece(phone: Phone, laptop: Laptop) -> None:
    """The laptop disappears after two pieces; when it is back the rest follows, and the bytes are the same."""
    content = camera_picture(7) + bytes(20_000_000)
    digest = hashlib.sha256(content).hexdigest()
    firsts: list[int] = []
    assert phone.context

    def cut_after_two(route: Route) -> None:
        if route.request.method == "PUT":
            firsts.append(int(route.request.headers["content-range"].split()[1].split("-")[0]))
            if len(firsts) == 3:
                laptop.stop()
        route.continue_()

    phone.context.route("**/phone/photographs/*", cut_after_two)
    phone.page.evaluate(TAKE, [photograph(laptop, content)])
    page = phone.go("#/waiting")
    page.get_by_role("button", name="Send now").click()
    expect(page.get_by_text("Tried again by itself")).to_be_visible(timeout=240_000)
    assert phone.held()["pictures"] == [{"sha256": digest, "state": "waiting", "received": 2 * PIECE_BYTES}]
    laptop.start()
    phone.send()
    assert firsts[:4] == [0, PIECE_BYTES, 2 * PIECE_BYTES, 2 * PIECE_BYTES]
    with laptop.book() as book:
        assert original(book, digest).read_bytes() == content
        assert examine(book) == []


def test_s6_refused_entry_comes_back_with_its_reason_by_the_field_and_is_mended(phone: Phone, laptop: Laptop) -> None:
    """The entries behind it go on; mended, it takes its place."""
    face = ids(laptop)["face"]
    zone = {"face": face, "name": "Paint", "outline": [[0, 0], [9, 0], [9, 9]], "forbids": ["load"], "reason": "old"}
    phone.write(
        {"kind": "zone", "item": item(1), "set": zone | {"margin_mm": -5}},  # the pages would not have let it pass
        {"kind": "zone", "item": item(2), "set": zone | {"margin_mm": 5}},
    )
    page = phone.go("#/waiting")
    page.get_by_role("button", name="Send now").click()
    expect(page.locator("#waits")).to_contain_text("1 refused")
    with laptop.book() as book:
        assert [row["id"] for row in book.items("zone")] == [item(2)]
    page.get_by_role("link", name="Correct and send again").click()
    expect(page.locator("#margin_mm")).to_have_attribute("aria-invalid", "true")
    expect(page.locator("#margin_mm-error")).to_contain_text("-5")
    expect(page.locator("#page [data-slot='reasons']")).to_contain_text("-5")  # zones have a field called reason, too
    page.locator("#margin_mm").fill("15")
    page.get_by_role("button", name="Save").click()
    expect(page.locator("#said")).to_contain_text("Saved on this phone.")
    phone.send()
    with laptop.book() as book:
        assert {row["id"]: row["margin_mm"] for row in book.items("zone")} == {item(1): 15, item(2): 5}
    assert phone.held()["shelf"] == 0


def test_what_was_begun_about_an_entry_that_was_given_up_is_thrown_away_too(phone: Phone, laptop: Laptop) -> None:
    """Its line on the first page leads to nothing any more, and would stay there."""
    zone = {"face": ids(laptop)["face"], "name": "Paint", "outline": [[0, 0], [9, 0], [9, 9]], "forbids": ["load"]}
    phone.write({"kind": "zone", "item": item(1), "set": zone | {"reason": "old", "margin_mm": -5}})
    page = phone.go("#/waiting")
    page.get_by_role("button", name="Send now").click()
    expect(page.locator("#waits")).to_contain_text("1 refused")
    page.get_by_role("link", name="Correct and send again").click()
    page.locator("#name").fill("Old paint")
    phone.go("#/waiting")
    page.on("dialog", lambda asked: asked.accept())
    page.get_by_role("button", name="Give it up").click()
    expect(page.locator("#waits")).to_have_text("all sent")
    phone.go("#/").get_by_role("link", name="Correct keep-off zone").click()
    expect(page.get_by_role("heading", name="Not here")).to_be_visible()
    page.get_by_role("button", name="Throw it away").click()
    expect(page.locator("#said")).to_contain_text("Thrown away.")
    expect(page.get_by_role("heading", name="Rooms and faces")).to_be_visible()
    expect(page.get_by_role("link", name="Correct keep-off zone")).to_have_count(0)


def test_s18_what_was_taken_out_goes_from_every_store_of_the_phone(phone: Phone, laptop: Laptop) -> None:
    """A name and a photograph that the phone sent are in none of its stores after the next run, and it says so."""
    content = camera_picture(7)
    digest = hashlib.sha256(content).hexdigest()
    zone = {"face": ids(laptop)["face"], "name": "Paint", "outline": [[0, 0], [9, 0], [9, 9]], "forbids": ["load"]}
    zone |= {"reason": "old", "margin_mm": 5, "said_by": "A. Nother"}
    phone.write({"kind": "zone", "item": item(1), "set": zone})
    phone.page.evaluate(TAKE, [photograph(laptop, content)])
    phone.send()
    held = phone.page.evaluate(EVERYTHING)
    assert "A. Nother" in held["text"]
    assert digest in held["keys"]
    with laptop.book() as book:
        (taken,) = book.items("photograph")
        places = [*forgetting.places_of(book, "A. Nother"), forgetting.file_of(book, taken["id"])]
        forgetting.take_out(book, places)
    page = phone.go("#/waiting")
    page.get_by_role("button", name="Send now").click()
    expect(page.get_by_text("Somebody asked to be forgotten")).to_be_visible()
    held = phone.page.evaluate(EVERYTHING)
    assert "A. Nother" not in held["text"]
    assert digest not in held["keys"]
    phone.go(f"#/item/{item(1)}")
    expect(phone.page.locator("#page")).to_contain_text("taken out")
    with laptop.book() as book:
        assert examine(book) == []


def test_s5_two_phones_that_change_one_field_leave_both_values_to_be_settled(
    phones: list[Phone], laptop: Laptop
) -> None:
    """The later revision shows on both phones, and the pair waits at the desk."""
    face = ids(laptop)["face"]
    for phone, name in zip(phones, ("North wall, left", "North wall, right"), strict=True):
        phone.switch_network(on=False)
        phone.write({"kind": "face", "item": face, "set": {"name": name}})
    for phone in (*phones, phones[0]):
        phone.switch_network(on=True)  # one after the other, since each would send by itself
        phone.send()
    with laptop.book() as book:
        assert book.item(face)[1]["name"] == "North wall, right"
        assert len(book.conflicts()) == 1
        values = [entry["set"].get("name") for entry in book.history(face)]
        assert values == ["North wall", "North wall, left", "North wall, right"]
    for phone in phones:
        expect(phone.go(f"#/item/{face}").locator("h1")).to_have_text("R1-N North wall, right")
        expect(phone.page.locator(".state")).to_contain_text("to be settled at the desk")


def test_s10_restored_book_is_given_again_what_the_phone_still_keeps(
    phone: Phone, laptop: Laptop, tmp_path: Path
) -> None:
    """A backup older than what was acknowledged: the phone sends it again, entries and photographs."""
    known = ids(laptop)
    with laptop.book() as book:
        backup.backup(book, tmp_path / "saved")
    content = camera_picture(3)
    phone.write({"kind": "room", "item": item(1), "set": {"site": known["site"], "name": "Store"}})
    phone.page.evaluate(TAKE, [photograph(laptop, content)])
    phone.send()
    laptop.stop()
    laptop.folder = tmp_path / "restored"
    backup.restore(tmp_path / "saved", laptop.folder).close()
    with open_book(laptop.folder) as book:
        assert len(book.items("room")) == 1
    laptop.start()
    phone.send()
    until(lambda: original(open_and_close(laptop), hashlib.sha256(content).hexdigest()).exists())
    with laptop.book() as book:
        assert {row["name"] for row in book.items("room")} == {"Long room", "Store"}
        assert len(book.items("photograph")) == 1
        assert examine(book) == []


def test_s10_book_put_back_from_a_copy_of_its_folder_is_noticed_and_given_back_all(
    phone: Phone, laptop: Laptop, tmp_path: Path
) -> None:
    """Both count the same, and mean different things: the phone says so, and gives back what the desk had entered."""
    known = ids(laptop)
    laptop.stop()
    shutil.copytree(laptop.folder, tmp_path / "copy")
    laptop.start()
    with laptop.book() as book:
        book.write("room", {"site": known["site"], "name": "Tower"})
    phone.write({"kind": "room", "item": item(1), "set": {"site": known["site"], "name": "Store"}})
    phone.send()
    laptop.stop()
    laptop.folder = tmp_path / "copy"
    with laptop.book() as book:
        former = book.fact("epoch")
        for name in ("Cellar", "Loft"):  # as many as were lost
            book.write("room", {"site": known["site"], "name": name})
        assert book.revision() == phone.held()["cursor"]
    laptop.start()
    phone.send()
    expect(phone.page.locator("#notices")).to_contain_text("this phone knew 5 of its entries, and it has the first 3")
    expect(phone.page.locator("#notices")).to_contain_text("1 that others made")
    with laptop.book() as book:
        assert {row["name"] for row in book.items("room")} == {"Long room", "Tower", "Store", "Cellar", "Loft"}
        assert book.fact("epoch") != former
        assert examine(book) == []


def test_photograph_that_is_refused_stops_no_other_and_can_be_reduced_and_sent(phone: Phone, laptop: Laptop) -> None:
    """One is refused, one with a second picture in it goes up behind it; reduced, the first follows."""
    refused, double = camera_picture(4), two_in_one(400, 300)
    path = f"**/phone/photographs/{hashlib.sha256(refused).hexdigest()}"
    answer = {"error": "unsuitable-photograph", "reason": "It is too large.", "remedy": "Send a smaller copy."}
    assert phone.context
    phone.context.route(path, lambda route: route.fulfill(status=422, json=answer))
    phone.page.evaluate(TAKE, [photograph(laptop, content) for content in (refused, double)])
    page = phone.go("#/waiting")
    page.get_by_role("button", name="Send now").click()
    expect(page.locator("#waits")).to_contain_text("1 refused")
    expect(page.get_by_text("It is too large.")).to_be_visible()
    until(lambda: original(open_and_close(laptop), hashlib.sha256(double).hexdigest()).exists())
    with page.expect_download() as download:
        page.get_by_role("button", name="Save it out").click()
    assert Path(download.value.path()).read_bytes() == refused
    page.get_by_role("button", name="Reduce and send").click()
    expect(page.locator("#said")).to_contain_text("Reduced")
    phone.send()
    with laptop.book() as book:
        assert [original(book, row["sha256"]).exists() for row in book.items("photograph")] == [True, True]


def open_and_close(laptop: Laptop) -> Any:
    """The book, for where its files lie."""
    with laptop.book() as book:
        return book


def test_s12_shut_out_phone_keeps_what_it_has_and_joins_again(phone: Phone, laptop: Laptop) -> None:
    """It goes on recording, says so, and after joining again everything arrives."""
    known = ids(laptop)
    with laptop.book() as book:
        devices.shut_out(book, devices.every_device(book)[0].id)
    phone.write({"kind": "room", "item": item(1), "set": {"site": known["site"], "name": "Store"}})
    page = phone.go("#/waiting")
    page.get_by_role("button", name="Send now").click()
    expect(page.locator("#notices")).to_contain_text("does not know this phone")
    assert phone.held()["outbox"] == 1
    page.get_by_role("button", name="Join again").click()
    with laptop.book() as book:
        code = codes.new_join_code(book, devices.every_device(book)[0].id)
    page.get_by_label("Code").fill(code)
    page.get_by_role("button", name="Join", exact=True).click()
    expect(page.get_by_role("heading", name="Rooms")).to_be_visible()
    phone.send()
    with laptop.book() as book:
        assert len(book.items("room")) == 2
        assert len(devices.every_device(book)) == 1


def test_s9_page_of_something_else_leaves_the_outbox_as_it_is(phone: Phone, laptop: Laptop) -> None:
    """A captive portal answers 200 with a page of its own to everything: nothing counts as sent."""
    known = ids(laptop)
    assert phone.context
    phone.context.route(
        "**/phone/hello*", lambda route: route.fulfill(status=200, content_type="text/html", body="<h1>Welcome</h1>")
    )
    phone.context.route(
        "**/phone/entries*", lambda route: route.fulfill(status=200, content_type="application/json", body="{}")
    )
    phone.write({"kind": "room", "item": item(1), "set": {"site": known["site"], "name": "Store"}})
    page = phone.go("#/waiting")
    page.get_by_role("button", name="Send now").click()
    expect(page.get_by_text("Something else answers at this address.")).to_be_visible()
    assert phone.held()["outbox"] == 1
    phone.context.unroute("**/phone/hello*")
    phone.context.unroute("**/phone/entries*")
    phone.send()


def test_s13_visit_is_carried_back_and_out_by_file(phone: Phone, laptop: Laptop, tmp_path: Path) -> None:
    """What waits goes to the laptop as one file; the laptop's file tells the phone that it has it."""
    known, content = ids(laptop), camera_picture(5)
    phone.switch_network(on=False)
    phone.write({"kind": "room", "item": item(1), "set": {"site": known["site"], "name": "Store"}})
    phone.page.evaluate(TAKE, [photograph(laptop, content)])
    page = phone.go("#/waiting")
    page.get_by_role("button", name="Write the file").click()
    with page.expect_download() as download:
        page.get_by_role("button", name="Hand over file 1").click()
    back = tmp_path / "back.fieldbook.jsonl"
    download.value.save_as(back)
    lines = [json.loads(line) for line in back.read_text(encoding="utf-8").splitlines()]
    assert [next(iter(line)) for line in lines] == ["fieldbook", "entry", "entry", "photograph", "end"]
    out = tmp_path / "out.fieldbook.jsonl"
    with laptop.book() as book, back.open("rb") as file:
        carried_files.take_back(book, file)
        assert original(book, hashlib.sha256(content).hexdigest()).read_bytes() == content
        book.write("room", {"site": known["site"], "name": "From the desk"})
        with out.open("wb") as written:
            carried_files.write_out(book, devices.every_device(book)[0].id, written)
    page.locator("#carried").set_input_files(out)
    expect(page.locator("#said")).to_contain_text("Imported")
    expect(page.locator("#waits")).to_contain_text("all sent")
    expect(phone.go("#/").get_by_role("link", name="From the desk")).to_be_visible()
    phone.switch_network(on=True)
    phone.send()
    with laptop.book() as book:
        assert len(book.items("room")) == 3
        assert len(book.items("photograph")) == 1


def test_s13_large_visit_is_carried_in_parts_in_any_order(phone: Phone, laptop: Laptop, tmp_path: Path) -> None:
    """Each part is handed over by a tap of its own and is whole in itself; the last one taken first does no harm."""
    contents = [camera_picture(number) + bytes(9_000_000) for number in (6, 7, 8)]
    phone.switch_network(on=False)
    for content in contents:
        phone.page.evaluate(TAKE, [photograph(laptop, content)])
    page = phone.go("#/waiting")
    page.get_by_role("button", name="Write the file").click()
    expect(page.get_by_role("button", name="Hand over file")).to_have_count(3)
    expect(page.get_by_text("Written in 3 parts: hand over each.")).to_be_visible()
    parts = []
    for number in (1, 2, 3):
        with page.expect_download() as download:
            page.get_by_role("button", name=f"Hand over file {number}").click()
        parts.append(tmp_path / download.value.suggested_filename)
        download.value.save_as(parts[-1])
        expect(page.get_by_role("button", name=f"Hand over file {number} again")).to_be_visible()
    assert all(f"-{at}-of-3" in part.name for at, part in enumerate(parts, 1))
    with laptop.book() as book:
        for part in (parts[2], parts[0], parts[1], parts[0]):
            with part.open("rb") as file:
                carried_files.take_back(book, file)
        kept = {row["sha256"]: original(book, row["sha256"]).read_bytes() for row in book.items("photograph")}
        assert kept == {hashlib.sha256(content).hexdigest(): content for content in contents}
        out = tmp_path / "out.fieldbook.jsonl"
        with out.open("wb") as written:
            carried_files.write_out(book, devices.every_device(book)[0].id, written)
    page.locator("#carried").set_input_files(out)
    expect(page.locator("#said")).to_contain_text("Imported")
    expect(page.locator("#waits")).to_contain_text("all sent")


def test_photographs_are_kept_as_blobs_and_those_kept_as_bytes_go_up_too(phone: Phone, laptop: Laptop) -> None:
    """As the version before kept them, and as a browser that keeps no Blobs has them."""
    contents = [camera_picture(number) for number in (9, 10)]
    phone.switch_network(on=False)
    phone.page.evaluate(TAKE, [photograph(laptop, content) for content in contents])
    assert phone.page.evaluate(AS_BYTES, hashlib.sha256(contents[1]).hexdigest()) == ["Blob", "Blob"]
    phone.switch_network(on=True)
    phone.send()
    with laptop.book() as book:
        assert [original(book, hashlib.sha256(content).hexdigest()).read_bytes() for content in contents] == contents


# What the originals are kept as; one of them is changed to plain bytes.
AS_BYTES = """async (sha256) => {
  const { asked, transact } = (await import("/phone/app.js")).modules["phone/store/database.js"];
  const kept = await transact(["originals"], "readonly", ({ originals }) => asked(originals.getAll()));
  const { originalOf } = (await import("/phone/app.js")).modules["phone/store/photographs.js"];
  const bytes = await (await originalOf(sha256)).arrayBuffer();
  await transact(["originals"], "readwrite", ({ originals }) => void originals.put(bytes, sha256));
  return kept.map((one) => one.constructor.name);
}"""


def test_photograph_the_laptop_lost_with_an_older_folder_goes_up_again(phone: Phone, laptop: Laptop) -> None:
    """Its entry is there and nothing parts the books; an app that is opened again asks of all it still has."""
    content = camera_picture(11)
    phone.page.evaluate(TAKE, [photograph(laptop, content)])
    phone.send()
    with laptop.book() as book:
        photographs.look_at(book, hashlib.sha256(content).hexdigest())
    phone.send()
    with laptop.book() as book:
        file = original(book, hashlib.sha256(content).hexdigest())
    file.unlink()
    phone.page.reload()
    until(file.exists)
    assert file.read_bytes() == content


PACKED = """async (cut) => {
  const { asked, transact } = (await import("/phone/app.js")).modules["phone/store/database.js"];
  const { beginEpoch, readLedger } = (await import("/phone/app.js")).modules["phone/store/ledger.js"];
  const told = async () => {
    const packs = await transact(["packed"], "readonly", ({ packed }) => asked(packed.getAllKeys()));
    const { entries } = await readLedger(["entries"]);
    return [packs, entries.length, entries.every(({ revision }, at) => revision === at + 1)];
  };
  const before = await told();
  await beginEpoch("another", cut, { revision: cut, digest: "" });
  return [before, await told()];
}"""


def test_large_book_is_read_by_the_thousand_as_long_as_nothing_parts_it(phone: Phone, laptop: Laptop) -> None:
    """What was packed is every entry once, in order; what lies above a shared revision is forgotten with it."""
    known = ids(laptop)
    with laptop.book() as book:
        for number in range(1_010):
            book.write("room", {"use": f"use {number}"}, known["room"])
        revision = book.revision()
    phone.send()
    phone.switch_network(on=False)
    phone.page.reload()
    expect(phone.page.get_by_role("heading", name="Not sent yet")).to_be_visible()
    assert phone.held()["cursor"] == revision
    assert phone.page.evaluate(PACKED, 700) == [[[1000], revision, True], [[], 700, True]]


def test_phone_with_a_clock_wrong_by_years_does_no_harm(another_clock: Phone, laptop: Laptop) -> None:
    """Its entry, dated long ago, still stands over the one before it."""
    phone = another_clock
    face = ids(laptop)["face"]
    phone.page.clock.set_fixed_time("2001-01-01T00:00:00Z")
    phone.write({"kind": "face", "item": face, "set": {"name": "Renamed"}})
    phone.send()
    with laptop.book() as book:
        assert book.item(face)[1]["name"] == "Renamed"
        assert book.history(face)[-1]["at"].startswith("2001")
        assert book.conflicts() == []


def test_run_that_failed_is_tried_again_by_itself_though_nothing_waits(another_clock: Phone, laptop: Laptop) -> None:
    """Opened with the laptop away, the phone asks again in a while, and fetches what is new."""
    phone = another_clock
    site = ids(laptop)["site"]
    laptop.stop()
    phone.page.clock.install()
    phone.page.reload()
    expect(phone.go("#/waiting").get_by_text("Tried again by itself")).to_be_visible()
    laptop.start()
    with laptop.book() as book:
        book.write("room", {"site": site, "name": "From the desk"})
    phone.page.clock.run_for(60_000)
    phone.rest()
    expect(phone.go("#/").get_by_role("link", name="From the desk")).to_be_visible()


# What a step of sync stored is read, and something is entered before the last of it is there.
WRITTEN_WHILE_READ = in_the_book(
    """
  const { getAll } = IDBObjectStore.prototype;
  let item;
  IDBObjectStore.prototype.getAll = function (...asked) {
    const request = getAll.apply(this, asked);
    if (this.name !== "facts" || item) return request;
    const late = { get result() { return request.result; } };
    item = given[0].item;
    request.onsuccess = () => notebook.write(given).then(() => late.onsuccess());
    return late;
  };
  await notebook.readStored().finally(() => Object.assign(IDBObjectStore.prototype, { getAll }));
  return notebook.outbox.some(({ entry }) => entry.item === item) && notebook.items.has(item);"""
)


def test_what_is_entered_while_sync_reads_the_store_stays_in_sight(phone: Phone, laptop: Laptop) -> None:
    """Else it would be called sent, and its form, left without the thing, could be saved a second time."""
    with laptop.book() as book:
        site = str(book.items("site")[0]["id"])
    laptop.stop()
    room = {
        "kind": "room",
        "item": "00000000-0000-7000-8000-000000000009",
        "set": {"site": site, "mark": "R9", "name": "Loft"},
    }
    assert phone.page.evaluate(WRITTEN_WHILE_READ, [room]) is True
