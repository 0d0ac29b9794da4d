"""The phone at the wall with the laptop really stopped: reading, a day's entries, and what survives."""

from __future__ import annotations

import base64
import hashlib
import io
import random
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from PIL import Image
from playwright.sync_api import Page, Playwright, expect

from fieldbook.book.examine import examine
from fieldbook.book.opening import create_book
from fieldbook.book.photographs import original
from fieldbook.model.choices import LOOKED_FOR
from tests.browser.phones import TAKE, InstalledApps, Laptop, Phone
from tests.sites import Surveyed, survey

FIXING = {"sort": "clamp", "state": "planned", "contact_radius_mm": 12, "hole": "none", "fabric": "old fabric"}


@pytest.fixture
def laptop(tmp_path: Path, installed: InstalledApps) -> Iterator[Laptop]:
    """A served book with a site, a room and a face."""
    with create_book(tmp_path / "book") as book:
        survey(book)
    running = Laptop(tmp_path / "book", installed.port)
    running.start()
    yield running
    running.stop()


@contextmanager
def joined(held: Phone, laptop: Laptop) -> Iterator[Phone]:
    """A phone that has joined and holds the book; at the end nothing may have gone wrong in it."""
    held.open()
    held.join(laptop.code())
    yield held
    held.close()
    assert held.troubles == []


@pytest.fixture
def phone(installed: InstalledApps, laptop: Laptop, tmp_path: Path) -> Iterator[Phone]:
    """A phone that is not put away during the test."""
    with joined(Phone(tmp_path / "phone", laptop.address, installed=installed), laptop) as held:
        yield held


@pytest.fixture
def phone_put_away(driver: Playwright, laptop: Laptop, tmp_path: Path) -> Iterator[Phone]:
    """A phone whose app can be closed or killed, and opened again."""
    with joined(Phone(tmp_path / "phone", laptop.address, driver=driver), laptop) as held:
        yield held


@pytest.fixture
def surveyed(laptop: Laptop) -> Iterator[Surveyed]:
    """The ids of what the book held at first."""
    with laptop.book() as book:
        (site,), (room,), (face,) = book.items("site"), book.items("room"), book.items("face")
        yield Surveyed(book, site["id"], room["id"], face["id"])


def camera_picture(number: int) -> bytes:
    """A photograph of its own, of about 100 kB."""
    noise = random.Random(number)
    grain = Image.frombytes("RGB", (80, 60), bytes(noise.randrange(256) for _ in range(80 * 60 * 3)))
    buffer = io.BytesIO()
    grain.resize((800, 600), Image.Resampling.BICUBIC).save(buffer, "JPEG", quality=92)
    return buffer.getvalue()


def fill_fixing(page: Page, mark: str, x: int, z: int = 1540) -> None:
    """Fill in the form of a fixing as a person does."""
    page.locator("#fitting").select_option(index=1)
    page.locator("#mark").fill(mark)
    page.locator("#sort").select_option("clamp")
    page.locator("#x_mm").fill(str(x))
    page.locator("#z_mm").fill(str(z))
    page.locator("#contact_radius_mm").fill("12")
    page.locator("#hole").select_option("none")
    page.locator("#fabric").select_option("old fabric")
    page.locator("#trace").select_option("none")


def test_app_opens_offline_after_a_reload_and_after_the_browser_was_closed(
    phone_put_away: Phone, laptop: Laptop
) -> None:
    """With the laptop stopped, the face is read with its drawing, limits and booking, twice over."""
    phone = phone_put_away
    laptop.stop()
    phone.page.reload()
    page = phone.page
    page.get_by_role("link", name="Long room").click()
    page.get_by_role("link", name="North wall").click()
    expect(page.locator("svg.elevation")).to_be_visible()
    phone.close()
    page = phone.open()
    expect(page.get_by_role("link", name="Long room")).to_be_visible()
    expect(page.locator("#waits")).to_contain_text("all sent")


def test_app_opens_with_the_network_switched_off(phone: Phone) -> None:
    """The browser's own word for it, under which nothing at all goes out."""
    phone.switch_network(on=False)
    phone.page.reload()
    expect(phone.page.get_by_role("link", name="Long room")).to_be_visible()
    phone.switch_network(on=True)


def day_of_entries(phone: Phone, surveyed: Surveyed) -> tuple[list[str], list[dict[str, Any]]]:
    """Two rooms, five faces and a fitting on each, with what their fixings take from them."""
    rooms = phone.write(
        *(
            {
                "kind": "room",
                "item": item(number),
                "set": {"site": surveyed.site, "mark": f"R{number}", "name": "Store"},
            }
            for number in (2, 3)
        )
    )
    size = {"sort": "wall", "width_mm": 4000, "height_mm": 2800}
    faces = phone.write(
        *(
            {
                "kind": "face",
                "item": item(10 + at),
                "set": {"room": rooms[at % 2], "mark": f"F{at}", "name": "Wall", **size},
            }
            for at in range(5)
        )
    )
    place = {"state": "planned", "x_mm": 100, "z_mm": 1000, "width_mm": 3000, "height_mm": 80}
    fittings = phone.write(
        *(
            {"kind": "fitting", "item": item(20 + at), "set": {"face": face, "mark": f"D{at}", "name": "Rail", **place}}
            for at, face in enumerate(faces)
        )
    )
    return faces, [{"fitting": fitting, "face": face} for fitting, face in zip(fittings, faces, strict=True)]


def item(number: int) -> str:
    """An id for an item made here."""
    return f"00000000-0000-7000-8000-{number:012d}"


def test_day_entered_offline_arrives_once_and_whole(phone_put_away: Phone, laptop: Laptop, surveyed: Surveyed) -> None:
    """Two rooms, 5 faces, 60 fixings and 40 photographs; closed and opened; then the laptop comes back."""
    phone = phone_put_away
    laptop.stop()
    faces, holders = day_of_entries(phone, surveyed)
    phone.write(
        *(
            {
                "kind": "fixing",
                "item": item(100 + at),
                "set": FIXING
                | holders[at % 5]
                | {"mark": f"D{at % 5}.{at}", "x_mm": 150 + 40 * at, "z_mm": 1040, "trace": "none"},
            }
            for at in range(57)
        )
    )
    for number in range(3):
        page = phone.go(f"#/new/fixing?face={faces[0]}")
        fill_fixing(page, f"by hand {number}", 200 + number, 1040)
        page.get_by_role("button", name="Save").click()
        expect(page.locator("#said")).to_contain_text("Saved on this phone.")
        expect(page.locator("h1")).to_contain_text(f"by hand {number}")
    photographs = [camera_picture(number) for number in range(40)]
    about = {"site": surveyed.site, "subject": faces[0], "purpose": "as found"}
    phone.page.evaluate(
        TAKE, [{"base64": base64.b64encode(content).decode(), "set": about} for content in photographs[:38]]
    )
    for content in photographs[38:]:
        page = phone.go(f"#/photograph/{faces[1]}")
        page.locator("#purpose").select_option("as found")
        page.locator("#camera-file").set_input_files({"name": "a.jpg", "mimeType": "image/jpeg", "buffer": content})
        expect(page.get_by_text("kept on this phone")).to_be_visible()
        page.get_by_role("button", name="Save").click()
        expect(page.locator("#said")).to_contain_text("Photograph saved on this phone.")
    expect(page.locator("#waits")).to_contain_text("152 not sent")  # 2 + 5 + 5 + 60 + 40 entries, and 40 photographs
    phone.close()
    page = phone.open()
    expect(page.locator("#waits")).to_contain_text("152 not sent")
    laptop.start()
    phone.send()
    with laptop.book() as book:
        counts = {kind: len(book.items(kind)) for kind in ("room", "face", "fitting", "fixing", "photograph")}
        assert counts == {"room": 3, "face": 6, "fitting": 5, "fixing": 60, "photograph": 40}
        assert len(list(book.db.query("SELECT id FROM ledger WHERE device <> 'desk'"))) == 112
        for content in photographs:
            assert original(book, hashlib.sha256(content).hexdigest()).read_bytes() == content
        assert examine(book) == []


def test_draft_survives_the_app_being_killed(phone_put_away: Phone, laptop: Laptop, surveyed: Surveyed) -> None:
    """What was typed is back, and so is the photograph taken for it, though nobody pressed Save."""
    phone = phone_put_away
    laptop.stop()
    page = phone.go(f"#/new/zone?face={surveyed.face}")
    page.locator("#name").fill("Old paint")
    page.locator("#outline").fill("rectangle 100 100 50 50")
    page.get_by_role("checkbox", name="drilling").check()
    page = phone.go(f"#/photograph/{surveyed.face}")
    content = camera_picture(1)
    page.locator("#caption").fill("by the door")
    page.locator("#camera-file").set_input_files({"name": "a.jpg", "mimeType": "image/jpeg", "buffer": content})
    expect(page.get_by_text("kept on this phone")).to_be_visible()
    phone.kill()
    page = phone.open()
    page.get_by_role("link", name="New keep-off zone").click()
    expect(page.locator("#name")).to_have_value("Old paint")
    expect(page.locator("#outline")).to_have_value("rectangle 100 100 50 50")
    expect(page.get_by_role("checkbox", name="drilling")).to_be_checked()
    phone.go("#/")
    page.get_by_role("link", name="Photograph of R1-N North wall").click()
    expect(page.locator("#caption")).to_have_value("by the door")
    expect(page.get_by_text("kept on this phone")).to_be_visible()


def test_planned_fixing_is_ticked_off_where_it_came_to_sit(phone: Phone, laptop: Laptop, surveyed: Surveyed) -> None:
    """The deviation and the verdict are those of the place typed, before anything is saved."""
    zone = {"face": surveyed.face, "name": "Paint", "mark": "K1", "forbids": ["contact"], "margin_mm": 20}
    outline = [[1200, 1500], [1300, 1500], [1300, 1600], [1200, 1600]]
    rail = {"face": surveyed.face, "mark": "D1", "name": "Rail", "state": "planned"}
    size = {"x_mm": 1000, "z_mm": 1500, "width_mm": 1000, "height_mm": 80}
    clamp = FIXING | {"fitting": item(51), "face": surveyed.face, "mark": "D1.1", "trace": "none"}
    looked = [[what, "caretaker", "on the spot", "2026-05-30"] for what in LOOKED_FOR]
    phone.write(
        {"kind": "face", "item": surveyed.face, "set": {"looked_for": looked}},
        {"kind": "zone", "item": item(50), "set": zone | {"outline": outline, "reason": "painted"}},
        {"kind": "fitting", "item": item(51), "set": rail | size},
        {"kind": "fixing", "item": item(52), "set": clamp | {"x_mm": 1100, "z_mm": 1540}},
    )
    laptop.stop()
    page = phone.go(f"#/fitted/{item(52)}")
    expect(page.locator(".finding", has_text="K1")).to_contain_text("within")
    page.locator("#fitted_x_mm").fill("1175")
    page.locator("#fitted_z_mm").fill("1540")
    expect(page.get_by_text("75 mm", exact=True)).to_be_visible()
    expect(page.locator(".finding", has_text="K1")).to_contain_text("over")
    page.locator("#fitted_x_mm").fill("1103")
    page.locator("#fitted_z_mm").fill("1544")
    expect(page.get_by_text("5 mm", exact=True)).to_be_visible()  # 3-4-5
    page.get_by_role("button", name="Fitted", exact=True).click()
    expect(page.locator(".just-done")).to_contain_text("D1.1 is fitted")
    phone.go(f"#/face/{surveyed.face}")
    expect(page.locator("tr.fixing")).to_contain_text("5 mm off the plan")
    laptop.start()
    phone.send()
    with laptop.book() as book:
        (fixing,) = book.items("fixing")
        assert (fixing["state"], fixing["fitted_x_mm"], fixing["fitted_z_mm"]) == ("fitted", 1103, 1544)


def test_agreement_is_signed_with_a_finger(phone: Phone, laptop: Laptop, surveyed: Surveyed) -> None:
    """The strokes are kept as rows, and come to the book with the words."""
    laptop.stop()
    page = phone.go(f"#/new/agreement?site={surveyed.site}")
    page.locator("#reference").fill("A1")
    page.locator("#answer").select_option("yes")
    page.locator("#words").fill("Clamps only on the dado.")
    page.locator("#said_by").fill("caretaker")
    pad = page.locator(".pad-area")
    pad.scroll_into_view_if_needed()
    box = pad.bounding_box()
    assert box
    for start in (0.2, 0.5):
        page.mouse.move(box["x"] + box["width"] * start, box["y"] + 20)
        page.mouse.down()
        page.mouse.move(box["x"] + box["width"] * (start + 0.2), box["y"] + 60, steps=6)
        page.mouse.up()
    page.get_by_role("button", name="Save").click()
    expect(page.locator(".signature svg path")).to_have_count(2)
    laptop.start()
    phone.send()
    with laptop.book() as book:
        (agreement,) = book.items("agreement")
        assert {row[2] for row in agreement["signature"]} == {0, 1}
        assert len(agreement["signature"]) > 8


def test_wall_is_asked_offline_and_answers_with_reason_and_nearest_place(
    phone: Phone, laptop: Laptop, surveyed: Surveyed
) -> None:
    """A point inside a zone: no, why, and where no zone forbids it: 100 + 20 mm to the right, 3-4-5 aside."""
    phone.write({"kind": "zone", "item": item(50), "set": {"face": surveyed.face, "name": "Paint", "mark": "K1",
                 "outline": [[1000, 1000], [1100, 1000], [1100, 2000], [1000, 2000]], "forbids": ["drilling"],
                 "margin_mm": 20, "reason": "painted scheme"}})  # fmt: skip
    laptop.stop()
    page = phone.go(f"#/here/{surveyed.face}?x_mm=1080&z_mm=1500")
    drill = page.locator(".finding", has_text="May I drill?")
    expect(drill).to_contain_text("no")
    expect(drill).to_contain_text("painted scheme")
    expect(drill).to_contain_text("No zone forbids it at x 1120, z 1500: 40 mm away.")
    expect(page.locator(".finding", has_text="May I touch?")).to_contain_text("not known")
    page.locator("#here-x").fill("9000")
    expect(page.get_by_text("the face reaches from 0 to 5000 mm")).to_be_visible()


def test_taken_mark_is_told_while_it_is_typed_and_saved_all_the_same(
    phone: Phone, laptop: Laptop, surveyed: Surveyed
) -> None:
    """Another like a fixing lacks its place, and its mark goes on counting; a taken one is told, never refused."""
    laptop.stop()
    rail = {"face": surveyed.face, "mark": "D1", "name": "Rail", "state": "planned"}
    rail |= {"x_mm": 100, "z_mm": 1000, "width_mm": 900, "height_mm": 80}
    fixing = FIXING | {"face": surveyed.face, "mark": "D1.1", "x_mm": 150, "z_mm": 1040, "trace": "none"}
    phone.write({"kind": "fitting", "item": item(1), "set": rail})
    phone.write({"kind": "fixing", "item": item(2), "set": fixing | {"fitting": item(1)}})
    page = phone.go(f"#/item/{item(2)}")
    page.get_by_role("link", name="Another like this").click()
    expect(page.locator("#sort")).to_have_value("clamp")
    expect(page.locator("#mark")).to_have_value("D1.2")
    expect(page.locator("#x_mm")).to_have_value("")
    warning = page.locator("#mark-warning")
    expect(warning).to_be_hidden()
    page.locator("#mark").fill("d1-01")
    expect(warning).to_contain_text("Taken already by fixing D1.1 (D1).")
    page.locator("#x_mm").fill("200")
    page.locator("#z_mm").fill("1040")
    page.get_by_role("button", name="Save").click()
    expect(page.locator("#said")).to_contain_text("Saved on this phone.")
