"""One thing open in several places: two windows of one phone, two phones, and drafts that lie while others go on."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import datetime, timedelta
from pathlib import Path
from urllib.parse import urlencode

import pytest
from playwright.sync_api import Dialog, Page, expect

from fieldbook.book.opening import create_book
from fieldbook.model.kinds import KINDS
from tests.browser.phones import InstalledApps, Laptop, Phone
from tests.sites import picture, survey

# Wait until a draft that holds these words is in the phone's store.
KEPT = """async (words) => {
  const { everyDraft } = (await import("/phone/app.js")).modules["phone/store/drafts.js"];
  while (!JSON.stringify(await everyDraft()).includes(words)) await new Promise((go) => setTimeout(go, 20));
}"""
SYNC = "() => void dispatchEvent(new Event('online'))"  # as when the phone comes back into reach


@pytest.fixture
def laptop(tmp_path: Path, installed: InstalledApps) -> Iterator[Laptop]:
    """A served book with a wall and a rail on it."""
    with create_book(tmp_path / "book") as book:
        survey(book).fitting()
    running = Laptop(tmp_path / "book", installed.port)
    running.start()
    yield running
    running.stop()


def first(laptop: Laptop, kind: str) -> str:
    """The id of what the book held of a kind at first."""
    with laptop.book() as book:
        return str(book.items(kind)[0]["id"])


def second_window(phone: Phone, route: str) -> Page:
    """The same app in another window of the phone, once it stands."""
    assert phone.context
    window = phone.context.new_page()
    window.goto(phone.address + route)
    expect(window.get_by_role("button", name="Save", exact=True)).to_be_visible()
    return window


def save(page: Page) -> None:
    """Press Save, and wait until it is said that it was saved."""
    page.get_by_role("button", name="Save", exact=True).click()
    expect(page.locator("#said")).to_contain_text("aved")


def elsewhere(phone: Phone, **change: object) -> None:
    """Let another phone change something, and bring it to the laptop."""
    phone.write(change)
    phone.send()


def test_one_draft_in_two_windows_enters_one_thing(phones: list[Phone], laptop: Laptop) -> None:
    """The second window is told, and leads to what was saved; what was typed on there changes it."""
    phone = phones[0]
    route = f"#/new/room?site={first(laptop, 'site')}"
    phone.switch_network(on=False)
    page = phone.go(route)
    page.locator("#name").fill("Store")
    page.evaluate(KEPT, "Store")
    window = second_window(phone, route)
    expect(window.locator("#name")).to_have_value("Store")
    save(page)
    expect(window.locator("#said")).to_contain_text("saved in another window")
    expect(window.locator("h1")).to_contain_text("Store")

    page = phone.go(route)
    page.locator("#name").fill("Cellar")
    page.evaluate(KEPT, "Cellar")
    window.evaluate("(route) => { location.hash = route; }", route)
    expect(window.locator("#name")).to_have_value("Cellar")
    window.locator("#name").fill("Cellar below the stairs")
    save(page)
    expect(window.locator("#said")).to_contain_text("What you typed on changes it")
    expect(window.locator("#name")).to_have_value("Cellar below the stairs")
    save(window)
    expect(window.locator("h1")).to_contain_text("Cellar below the stairs")
    window.close()
    phone.switch_network(on=True)
    phone.send()
    with laptop.book() as book:
        assert sorted(one["name"] for one in book.items("room")) == ["Cellar below the stairs", "Long room", "Store"]


def test_one_draft_thrown_away_in_one_window_can_be_saved_in_the_other(phones: list[Phone], laptop: Laptop) -> None:
    """What is still on a screen is not lost."""
    phone = phones[0]
    route = f"#/new/room?site={first(laptop, 'site')}"
    page = phone.go(route)
    page.locator("#name").fill("Store")
    page.evaluate(KEPT, "Store")
    window = second_window(phone, route)
    page.once("dialog", lambda asked: asked.accept())
    page.get_by_role("button", name="Throw this away").click()
    expect(page.locator("#said")).to_contain_text("Thrown away.")
    save(window)
    window.close()
    phone.send()
    with laptop.book() as book:
        assert sorted(one["name"] for one in book.items("room")) == ["Long room", "Store"]


def test_one_photograph_in_two_windows_is_entered_once(phones: list[Phone], laptop: Laptop) -> None:
    """The second window says that it was saved."""
    phone = phones[0]
    route = f"#/photograph/{first(laptop, 'face')}"
    page = phone.go(route)
    page.locator("#camera-file").set_input_files({"name": "a.jpg", "mimeType": "image/jpeg", "buffer": picture()})
    expect(page.locator("#camera-said")).to_contain_text("kept on this phone")
    page.locator("#purpose").select_option("as found")
    window = second_window(phone, route)
    expect(window.locator("#camera-said")).to_contain_text("kept on this phone")
    save(page)
    window.get_by_role("button", name="Save", exact=True).click()
    expect(window.locator("#said")).to_contain_text("saved in another window already")
    window.close()
    phone.send()
    with laptop.book() as book:
        assert len(book.items("photograph")) == 1


def test_what_happened_is_entered_once_from_two_windows(phones: list[Phone], laptop: Laptop) -> None:
    """So too where what is typed is no form of a kind."""
    phone = phones[0]
    with laptop.book() as book:
        what = next(field for field in KINDS["observation"].fields if field.name == "happened").choices[0]
        fitting = book.items("fitting")[0]["id"]
    route = f"#/happened?{urlencode({'what': what, 'about': str(fitting)})}"
    page = phone.go(route)
    page.locator("#happened-words").fill("A trolley ran into it.")
    page.evaluate(KEPT, "A trolley ran into it.")
    window = second_window(phone, route)
    expect(window.locator("#happened-words")).to_have_value("A trolley ran into it.")
    page.get_by_role("button", name="Save", exact=True).click()
    expect(page.locator("#said")).to_contain_text("Now call.")
    window.locator("#happened-words").fill("A trolley ran into it at noon.")
    window.get_by_role("button", name="Save", exact=True).click()
    expect(window.locator("#said")).to_contain_text("not entered twice")
    window.close()
    phone.send()
    with laptop.book() as book:
        assert [one["words"] for one in book.items("observation")] == ["A trolley ran into it."]


def test_open_form_takes_over_what_another_phone_changed(phones: list[Phone], laptop: Laptop) -> None:
    """Saving sets only what was typed; the field both set is kept both ways; a withdrawal is told."""
    one, other = phones
    fitting = first(laptop, "fitting")
    page = one.go(f"#/change/{fitting}")
    page.locator("#name").fill("Rail, long")
    elsewhere(other, kind="fitting", item=fitting, set={"name": "Rail of ash", "width_mm": 1900})
    page.evaluate(SYNC)
    told = page.locator('[data-slot="meanwhile"]')
    expect(told).to_contain_text("taken over here: Width “1900")
    expect(told).to_contain_text("Set otherwise elsewhere meanwhile: Name “Rail of ash”")
    expect(page.locator("#width_mm")).to_have_value("1900")
    expect(page.locator("#name")).to_have_value("Rail, long")
    elsewhere(other, kind="fitting", item=fitting, withdraw=True)
    page.evaluate(SYNC)
    expect(told).to_contain_text("It was withdrawn elsewhere meanwhile.")
    save(page)
    one.send()
    with laptop.book() as book:
        stands = book.item(fitting)[1]
        assert (stands["name"], stands["width_mm"]) == ("Rail, long", 1900)
        assert sorted(str(pair["field"]) for pair in book.conflicts()) == ["name", "withdrawn"]


def test_draft_that_lay_while_others_went_on_undoes_nothing(phones: list[Phone], laptop: Laptop) -> None:
    """Opened again it shows what has changed, and saving sets what was typed alone."""
    one, other = phones
    fitting = first(laptop, "fitting")
    page = one.go(f"#/change/{fitting}")
    page.locator("#note").evaluate(
        "field => { for (let at = field.closest('details'); at; at = null) at.open = true; }"
    )
    page.locator("#note").fill("mine")
    page.get_by_role("button", name="Back").click()
    expect(page.locator("#page form")).to_have_count(0)
    elsewhere(other, kind="fitting", item=fitting, set={"width_mm": 1900})
    one.send()
    page = one.go(f"#/change/{fitting}")
    expect(page.locator("#width_mm")).to_have_value("1900")
    expect(page.locator("#note")).to_have_value("mine")
    save(page)
    one.send()
    with laptop.book() as book:
        stands = book.item(fitting)[1]
        assert (stands["note"], stands["width_mm"]) == ("mine", 1900)
        assert [sorted(entry["set"]) for entry in book.history(fitting)[-2:]] == [["width_mm"], ["note"]]
        assert book.conflicts() == []


def test_form_tells_that_what_it_lies_in_was_withdrawn(phones: list[Phone], laptop: Laptop) -> None:
    """Nothing is entered out of sight unawares."""
    one, other = phones
    fitting = first(laptop, "fitting")
    page = one.go(f"#/new/fixing?fitting={fitting}")
    told = page.locator('[data-slot="out-of-sight"]')
    expect(told).to_have_text("")
    elsewhere(other, kind="face", item=first(laptop, "face"), withdraw=True)
    page.evaluate(SYNC)
    expect(told).to_contain_text("North wall was withdrawn")


def test_steps_of_taking_down_ticked_on_two_phones_stand_together(phones: list[Phone], laptop: Laptop) -> None:
    """Different steps, and the same one, ticked without a network: all stay ticked on both, without a conflict."""
    fitting = first(laptop, "fitting")
    steps = "Take off the panel. Turn the stopper half a turn. Lift the rail off."
    elsewhere(phones[0], kind="fitting", item=fitting, set={"removal": steps, "state": "fitted"})
    phones[1].send()
    for phone, ticked in zip(phones, ((0, 1), (1, 2)), strict=True):
        phone.switch_network(on=False)
        boxes = phone.go(f"#/off/{fitting}").get_by_role("checkbox")
        for at in ticked:
            boxes.nth(at).check()
            expect(phone.page.locator("#waits")).to_contain_text(f"{ticked.index(at) + 1} not sent")
    for phone in phones:
        phone.switch_network(on=True)
        phone.page.evaluate(SYNC)
        phone.rest()
    phones[0].page.evaluate(SYNC)
    for phone in phones:
        for at in range(3):
            expect(phone.page.get_by_role("checkbox").nth(at)).to_be_checked()
    with laptop.book() as book:
        assert book.conflicts() == []
        assert {one["what"] for one in book.items("work")} == set(steps.replace(". ", ".\n").split("\n"))
    phones[0].page.get_by_role("checkbox").nth(1).uncheck()  # of both: whoever sees them takes back what there is
    phones[0].page.evaluate(SYNC)
    phones[0].rest()
    phones[1].page.evaluate(SYNC)
    expect(phones[1].page.get_by_role("checkbox").nth(1)).not_to_be_checked()
    with laptop.book() as book:
        assert book.conflicts() == []


def test_page_that_was_open_undoes_nothing_others_did_meanwhile(phones: list[Phone], laptop: Laptop) -> None:
    """What is shown as it is now is reckoned from there; what was not seen waits as a pair, with both values."""
    (one, other), fitting = phones, first(laptop, "fitting")
    elsewhere(other, kind="fitting", item=fitting, set={"state": "fitted", "removal": "Lift it off."})
    one.send()
    page = one.go(f"#/move/{fitting}")
    expect(page.locator("#page")).to_contain_text("Now at x 1000")
    elsewhere(other, kind="fitting", item=fitting, set={"x_mm": 1100})
    page.evaluate(SYNC)
    expect(page.locator("#page")).to_contain_text("Now at x 1100")
    page.get_by_label("Left edge x").fill("1.250")  # it may be two places, and is within no room
    expect(page.locator("[data-slot=reasons] li")).to_have_text("Give a place, or a mass, in figures.")
    expect(page.get_by_text("within its room to move")).to_have_count(0)
    page.get_by_label("Left edge x").fill("1250")
    page.get_by_role("button", name="It is there now").click()
    expect(page.locator("#said")).to_contain_text("Entered")
    one.send()
    with laptop.book() as book:
        assert (book.item(fitting)[1]["x_mm"], book.conflicts()) == (1250, [])
    one.go(f"#/off/{fitting}")
    other.send()
    elsewhere(other, kind="fitting", item=fitting, set={"went_to": "store"})
    page.evaluate(SYNC)
    one.rest()
    page.get_by_role("button", name="disposed of", exact=True).click()
    page.get_by_role("button", name="Taken down", exact=True).click()
    expect(page.get_by_role("heading", name="Taking down", exact=True)).to_be_visible()
    one.send()
    with laptop.book() as book:
        assert [pair["field"] for pair in book.conflicts()] == ["went_to"]
    one.go("#/").get_by_role("region", name="Set in two ways").get_by_role("link", name="D1").click()
    expect(page.get_by_text("Where it went was set in two ways, “store” and then “disposed of”")).to_be_visible()


def test_what_another_took_down_meanwhile_is_not_taken_down_again(phones: list[Phone], laptop: Laptop) -> None:
    """Neither the fitting nor its fixing, of which the page that was open still asks."""
    (one, other), fitting = phones, first(laptop, "fitting")
    with laptop.book() as book:
        known = {"fitting": fitting, "face": first(laptop, "face"), "mark": "D1.1", "state": "fitted", "trace": "none"}
        place = {"x_mm": 1103, "z_mm": 1544, "contact_radius_mm": 12, "sort": "clamp", "hole": "none"}
        fixing = book.write("fixing", known | place | {"fabric": "old fabric"})
        book.write("fitting", {"state": "fitted"}, fitting)
    for phone in phones:
        phone.send()
    page = one.go(f"#/off/{fitting}")
    page.get_by_label("Trace found").select_option(index=1)
    page.get_by_label("In words").fill("as it was")
    found = {"state": "taken down", "taken_down_on": "2025-05-31"}
    other.write({"kind": "fixing", "item": fixing, "set": found | {"trace_found": "none"}})
    elsewhere(other, kind="fitting", item=fitting, set=found | {"went_to": "store"})
    page.evaluate(SYNC)
    one.rest()
    page.get_by_role("button", name="It is off").click()
    expect(page.locator("#page")).to_contain_text("D1.1 was entered as off elsewhere meanwhile.")
    page.get_by_role("button", name="given back", exact=True).click()
    page.get_by_role("button", name="Taken down", exact=True).click()
    expect(page.locator("#said")).to_contain_text("taken down elsewhere meanwhile")
    expect(page.locator("#waits")).to_contain_text("all sent")
    with laptop.book() as book:
        assert (book.item(fitting)[1]["went_to"], book.conflicts()) == ("store", [])


def test_who_signs_how_it_was_left_is_asked_for_what_nobody_said(phones: list[Phone], laptop: Laptop) -> None:
    """Nothing is signed unawares where what a fixing left is not entered; with words for it, it is."""
    phone, fitting = phones[0], first(laptop, "fitting")
    with laptop.book() as book:
        known = {"fitting": fitting, "face": first(laptop, "face"), "mark": "D1.1", "state": "fitted", "trace": "none"}
        place = {"x_mm": 1103, "z_mm": 1544, "contact_radius_mm": 12, "sort": "clamp", "hole": "none"}
        book.write("fixing", known | place | {"fabric": "old fabric"})
    page = phone.go("#/left")
    expect(page.locator("#page")).to_contain_text("Nothing was taken down yet.")
    expect(page.locator(".pad-area")).to_have_count(0)
    elsewhere(phone, kind="fitting", item=fitting, set={"state": "taken down", "taken_down_on": "2025-05-31"})
    phone.go("#/")
    phone.go("#/left")
    expect(page.locator("#page .warning")).to_contain_text("What was found at D1.1 is not entered.")
    page.get_by_label("Taken down by (role)").fill("joiner")
    page.get_by_label("Seen and taken over by (role)").fill("caretaker")
    for area in page.locator(".pad-area").all():
        area.scroll_into_view_if_needed()
        box = area.bounding_box()
        assert box
        page.mouse.move(box["x"] + 40, box["y"] + 40)
        page.mouse.down()
        page.mouse.move(box["x"] + 120, box["y"] + 60, steps=4)
        page.mouse.up()
    page.get_by_role("button", name="Save", exact=True).click()
    expect(page.locator("#notices, #said").filter(has_text="why it is signed without")).not_to_have_count(0)
    page.get_by_label("Remarks").fill("The place is behind the shelf, and was not looked at.")
    page.get_by_role("button", name="Save", exact=True).click()
    expect(page.locator(".signature svg")).to_have_count(2)


def test_what_was_said_last_stays_though_the_same_was_said_before(another_clock: Phone, laptop: Laptop) -> None:
    """The time of the first does not take the second away."""
    phone = another_clock
    elsewhere(phone, kind="fitting", item=first(laptop, "fitting"), set={"state": "taken down"})
    page = phone.go("#/left")
    page.clock.install()
    page.clock.pause_at(datetime.now() + timedelta(hours=1))  # by the browser's own time, which stands still from here
    press = page.get_by_role("button", name="Save", exact=True)
    shown = page.locator("#said.shown", has_text="Both sign.")
    press.click()
    expect(shown).to_be_visible()
    page.clock.run_for(3_000)
    press.click()
    page.clock.run_for(2_000)
    expect(shown).to_be_visible()
    page.clock.run_for(2_001)
    expect(shown).to_have_count(0)


def test_nothing_is_said_to_be_up_or_looked_at_where_all_is_planned(phones: list[Phone], laptop: Laptop) -> None:
    """Nor is anything to be taken down; and something on another site is not said to be gone."""
    phone, rail = phones[0], first(laptop, "fitting")
    with laptop.book() as book:
        other = book.write("site", {"name": "Customs shed", "address": "Second quay"})
        room = book.write("room", {"site": other, "mark": "R1", "name": "Long room"})
    phone.send()
    expect(phone.go("#/down").locator("#page")).to_contain_text("Nothing is up yet.")
    expect(phone.go("#/round").locator("#page")).to_contain_text("Nothing is up.")
    expect(phone.page.locator("#page")).not_to_contain_text("looked at")
    page = phone.go(f"#/off/{rail}")
    expect(page.locator("#page")).to_contain_text("there is nothing to take down")
    expect(page.get_by_role("button", name="Taken down", exact=True)).to_have_count(0)
    phone.go(f"#/room/{room}")
    expect(page.locator("#page")).to_contain_text("It lies on another site of this book: Customs shed.")
    page.get_by_role("link", name="Customs shed").click()
    expect(page.locator("#page")).to_contain_text("Second quay")
    expect(phone.go(f"#/room/{room}").get_by_role("heading", name="Long room")).to_be_visible()


def test_undoing_what_was_made_names_what_others_added_and_asks(phones: list[Phone], laptop: Laptop) -> None:
    """Nothing goes out of sight unasked; a no leaves all as it is."""
    one, other = phones
    (room,) = one.write({"kind": "room", "item": "00000000-0000-7000-8000-000000000001", "set": named(laptop, "R2")})
    one.send()
    other.send()
    face = {"room": room, "mark": "R2-N", "name": "North wall", "sort": "wall", "width_mm": 3000, "height_mm": 2500}
    elsewhere(other, kind="face", item="00000000-0000-7000-8000-000000000002", set=face)
    elsewhere(other, kind="room", item=room, set={"use": "coats"})
    one.send()
    page = one.go("#/mine")
    asked: list[str] = []

    def refuse(dialog: Dialog) -> None:
        asked.append(dialog.message)
        dialog.dismiss()

    page.once("dialog", refuse)
    page.get_by_role("button", name="Undo").click()
    expect(page.locator(".mine > li")).to_have_count(1)
    assert "face R2-N North wall" in asked[0]
    assert "Others have entered of it: Use." in asked[0]
    page.once("dialog", lambda dialog: dialog.accept())
    page.get_by_role("button", name="Undo").click()
    expect(page.locator("#said")).to_contain_text("Undone.")
    one.send()
    with laptop.book() as book:
        assert [entry["withdraw"] for entry in book.history(room) if "withdraw" in entry] == [True]


def named(laptop: Laptop, mark: str) -> dict[str, str]:
    """What a room of the book's site is entered with."""
    return {"site": first(laptop, "site"), "mark": mark, "name": "Store"}
