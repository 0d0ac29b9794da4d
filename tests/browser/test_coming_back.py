"""Three years of one site on phones: rounds, a loose nut, a touch-up, a second phase, a knock, and all of it down."""

from __future__ import annotations

import re
from collections.abc import Iterator
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Locator, expect

from fieldbook.book.gathering import gather
from fieldbook.book.opening import create_book
from fieldbook.book.site import Site
from fieldbook.findings.due import due_on, state
from fieldbook.record.as_left import as_left
from fieldbook.record.compile import compile_record
from fieldbook.record.diary import diary_of, gone_from
from fieldbook.record.removal import removal_of
from tests.browser.phones import HELD_PHONE, Laptop, Phone
from tests.sites import picture, survey

MOST_TAPS_OF_A_KNOCK = 6


@pytest.fixture
def laptop(tmp_path: Path) -> Iterator[Laptop]:
    """A served book with a rail on two clamps and a panel on it, put up, with their care and a touch-up card."""
    with create_book(tmp_path / "book") as book:
        known = survey(book)
        book.write("site", {"call": "gate lodge, 5 55 01", "fitter": "joiner"}, known.site)
        card = {"site": known.site, "mark": "P1", "name": "Rail green", "sort": "oil paint", "batch": "B7"}
        finish = book.write("finish", card | {"lab_l": 42, "lab_a": -18, "lab_b": 9, "lab_white": "D50"})
        up = {"state": "fitted", "fitted_on": "2026-05-31", "phase": "1"}
        own = {
            "mass_empty_kg": 4,
            "mass_loaded_kg": 9,
            "people_to_remove": 2,
            "removal": "Undo the clamps. Lift it off.",
        }
        rail = known.fitting(**up, **own, finishes=[finish], moves_mm=200)
        panel = {"mark": "D2", "name": "Panel", "x_mm": 1200, "z_mm": 900, "width_mm": 500, "height_mm": 600}
        panel |= {"glass": "none", "gives": ["nothing"]}
        known.fitting(**up, **panel, hangs_on=rail, mass_loaded_kg=3, people_to_remove=1, removal="Unhook it.")
        clamp = {"state": "fitted", "fitted_on": "2026-05-31", "fitted_by": "joiner", "trace": "a mark that cleans off"}
        clamp |= {
            "torque_nm": 2.5,
            "make_good": "Brush the felt off.",
            "removal": "Half a turn.",
            "removal_tool": "spanner",
        }
        for number in (1, 2):
            place = {"x_mm": 1000 + 300 * number, "fitted_x_mm": 1000 + 300 * number, "fitted_z_mm": 1540}
            known.fixing(rail, mark=f"D1.{number}", **clamp, **place, looked_at_on="2027-05-31")
        task = {"site": known.site, "what": "Dust the rail", "fitting": rail, "every_months": 6, "who": "caretaker"}
        book.write("task", task | {"first_on": "2026-11-30"})
    running = Laptop(tmp_path / "book")
    running.start()
    yield running
    running.stop()


class Hand:
    """A hand on a phone, which counts its taps."""

    def __init__(self, phone: Phone):
        self.phone = phone
        self.page = phone.page
        self.taps = 0

    def tap(self, where: Locator) -> None:
        """Touch something."""
        where.click()
        self.taps += 1

    def button(self, name: str) -> None:
        """Touch a button by its whole name; what is saved is waited for, since it leads on by itself."""
        stood = self.page.url
        self.tap(self.page.get_by_role("button", name=name, exact=True).first)
        if name == "Save":
            self.page.wait_for_url(lambda url: url != stood)

    def link(self, name: str) -> None:
        """Touch a link by its beginning."""
        self.tap(self.page.get_by_role("link", name=re.compile(rf"^{re.escape(name)}")).first)

    def heading(self, name: str) -> None:
        """Wait until a page stands."""
        expect(self.page.get_by_role("heading", level=1)).to_contain_text(name)

    def on(self, day: str) -> None:
        """Some time later: this phone's clock stands at noon of a day."""
        self.page.clock.set_fixed_time(f"{day}T12:00:00Z")
        self.phone.go("#/waiting")
        self.phone.go("#/")

    def sign(self, area: Locator) -> None:
        """Draw a stroke."""
        area.scroll_into_view_if_needed()
        box = area.bounding_box()
        assert box
        self.page.mouse.move(box["x"] + 30, box["y"] + 30)
        self.page.mouse.down()
        self.page.mouse.move(box["x"] + 130, box["y"] + 70, steps=5)
        self.page.mouse.up()


@pytest.fixture
def hands(browser: Browser, laptop: Laptop, tmp_path: Path) -> Iterator[tuple[Hand, Hand]]:
    """The fitter's and the volunteer's phone, joined; at the end nothing may have gone wrong in them."""
    phones = [Phone(tmp_path / name, laptop.address, browser) for name in ("fitter", "volunteer")]
    for phone in phones:
        phone.open(viewport=HELD_PHONE, has_touch=True, timezone_id="UTC")
        phone.join(laptop.code())
    yield Hand(phones[0]), Hand(phones[1])
    for phone in phones:
        phone.close()
        assert phone.troubles == []


def now(laptop: Laptop, *kinds: str) -> tuple[Site, dict[str, list[Any]]]:
    """The site as the laptop has it."""
    with laptop.book() as book:
        site = gather(book, book.items("site")[0]["id"])
        return site, {kind: list(site.all(kind)) for kind in kinds}


def first_round_without_network(hand: Hand, laptop: Laptop) -> None:
    """The panel as it should be, in two taps and one more; the rail with rust, its first nut tightened."""
    laptop.stop()
    hand.phone.switch_network(on=False)
    hand.on("2027-05-31")
    expect(hand.page.get_by_role("link", name=re.compile("Due: 3 things"))).to_be_visible()
    hand.link("Inspection round")
    hand.page.get_by_label("Who goes round").fill("joiner")
    hand.page.get_by_label("Who goes round").press("Tab")
    hand.link("Begin")
    hand.heading("D1 Rail")
    hand.tap(hand.page.get_by_text("Tightened, or measured again"))
    hand.page.get_by_label("Torque found").fill("1,5")
    hand.page.get_by_label("Torque left").fill("2.5")
    hand.button("Enter the torque")
    expect(hand.page.locator("#said")).to_contain_text("torque entered")
    hand.page.get_by_label("Of what").fill("x")
    hand.page.get_by_label("Measured").fill("1.303")
    hand.button("Enter the measure")
    expect(hand.page.locator("#said")).to_contain_text("Say of what, and give the figures in mm.")
    hand.page.get_by_label("Measured").fill("1303")
    expect(hand.page.get_by_text("it has moved, and still moves")).to_be_visible()
    hand.button("Enter the measure")
    expect(hand.page.locator("#said")).to_contain_text("D1.1, x")
    hand.tap(hand.page.get_by_text("Something is not"))
    hand.tap(hand.page.get_by_role("group", name="Condition class").get_by_role("button", name="1"))
    hand.tap(hand.page.get_by_role("group", name="Urgency class").get_by_role("button", name="2"))
    hand.page.get_by_label("In words").fill("Rust at the first clamp.")
    hand.button("Enter what was found")
    hand.heading("D2 Panel")
    hand.taps = 0
    hand.button("As it should be")
    assert hand.taps == 1
    hand.heading("Inspection round")
    hand.phone.go("#/due")
    hand.button("Done")
    expect(hand.page.locator("#said")).to_contain_text("Dust the rail: done")
    laptop.start()
    hand.phone.switch_network(on=True)
    hand.phone.send()
    site, found = now(laptop, "observation", "work", "reading", "fixing")
    assert [one.what for one in found["observation"]] == ["Rust at the first clamp", "As it should be"]
    assert {(one.sort, one.torque_before_nm, one.by) for one in found["work"]} == {
        ("tightening", 1.5, "joiner"),
        ("care", None, "joiner"),
    }
    assert [one.looked_at_on for one in found["fixing"]] == ["2028-05-31", "2027-05-31"]
    due = {one.what: one.on.isoformat() for one in due_on(site, date(2027, 6, 1)) if one.on}
    assert due == {
        "Look whether D1.1 is tight": "2028-05-31",
        "Look whether D1.2 is tight": "2027-05-31",
        "Rust at the first clamp": "2027-06-30",
        "Dust the rail": "2027-11-30",
    }


def second_round_by_another(hand: Hand, laptop: Laptop) -> None:
    """On a leap day, by the volunteer: both as they should be, and the rail touched up with what its card says."""
    hand.phone.send()
    hand.on("2028-02-29")
    hand.link("Inspection round")
    hand.link("Begin")
    hand.heading("D1 Rail")
    expect(hand.page.get_by_text("Open since")).to_be_visible()
    hand.link("Touched up")
    expect(hand.page.locator("#batch")).to_have_value("B7")
    hand.page.locator("#used").evaluate("one => one.closest('details')?.setAttribute('open', '')")
    hand.page.locator("#used").fill("fine brush, one coat")
    hand.button("Save")
    hand.phone.go("#/round")
    hand.link("Begin")
    hand.button("As it should be")
    hand.heading("D2 Panel")
    hand.button("As it should be")
    hand.heading("Inspection round")
    hand.phone.send()
    site, found = now(laptop, "work")
    assert {one.sort for one in found["work"]} == {"tightening", "care", "touch-up"}
    assert "Rust at the first clamp" not in {one.what for one in due_on(site, date(2028, 3, 1))}


def knock_told_by_the_volunteer(hand: Hand, laptop: Laptop) -> None:
    """At most six taps and a sentence, and what to do now and whom to call before it is saved."""
    hand.on("2028-08-31")
    hand.taps = 0
    hand.link("Something happened")
    hand.link("a knock")
    hand.link("D2 Panel")
    expect(hand.page.get_by_text("a knock: take it off")).to_be_visible()
    expect(hand.page.get_by_text("Call: gate lodge, 5 55 01")).to_be_visible()
    hand.button("left as it was")
    hand.page.get_by_label("In a sentence").fill("A trolley ran into it.")
    hand.phone.go("#/")
    hand.page.get_by_role("link", name="A knock: D2 Panel").click()
    expect(hand.page.get_by_label("In a sentence")).to_have_value("A trolley ran into it.")
    expect(hand.page.get_by_role("button", name="left as it was")).to_have_attribute("aria-pressed", "true")
    hand.button("Save")
    hand.heading("A knock: D2 Panel")
    assert hand.taps <= MOST_TAPS_OF_A_KNOCK
    hand.phone.send()
    site, found = now(laptop, "observation")
    (knock,) = [one for one in found["observation"] if one.happened]
    assert (knock.happened, knock.at_once, knock.urgency_class) == ("a knock", "left as it was", "3")
    assert (
        state(next(one for one in due_on(site, date(2028, 9, 1)) if one.sort == "finding"), date(2028, 9, 1))
        == "overdue"
    )


def phase_two_and_a_colour_as_the_desk_answers(hand: Hand, laptop: Laptop) -> None:
    """What the second phase does to the first comes along; a colour measured again is held against its card at once."""
    hand.phone.send()
    hand.on("2028-06-30")
    hand.phone.go("#/phases")
    second = hand.page.locator("#page section", has=hand.page.get_by_role("heading", name="Phase 2", exact=True))
    expect(second).to_contain_text("D3 Lamp covers D1 Rail")
    expect(hand.page.locator("#page")).not_to_contain_text("The desk answers this when")
    (rail,) = [one for one in now(laptop, "fitting")[1]["fitting"] if one.mark == "D1"]
    hand.phone.go(f"#/inspect/{rail.id}")
    hand.link("Colour measured again")
    for name, figure in (("lab_l", "45"), ("lab_a", "-15"), ("lab_b", "9")):
        hand.page.locator(f"#{name}").fill(figure)
    hand.page.get_by_role("group", name="Reference white").get_by_role("button", name="D50").click()
    expect(hand.page.get_by_text("Against its card: difference 3.5 (CIEDE2000): seen by whoever looks")).to_be_visible()
    hand.button("Save")
    expect(hand.page.locator("#page")).to_contain_text("difference 3.5")
    hand.phone.send()


def take_down(hand: Hand, fitting: str, *fixings: str) -> None:
    """One fitting, its steps ticked, with what each fixing left."""
    hand.link(fitting)
    hand.heading(fitting)
    hand.page.get_by_role("checkbox").first.check()
    expect(hand.page.locator("#said")).to_contain_text("Ticked.")
    for number, mark in enumerate(fixings):
        part = hand.page.locator("details.off-fixing", has_text=mark)
        for name in ("Photograph before", "Photograph after"):
            with hand.page.expect_file_chooser() as chooser:
                part.get_by_role("button", name=name).click()
            shade = picture(64 + number, 48 + len(name))
            chooser.value.set_files({"name": "a.jpg", "mimeType": "image/jpeg", "buffer": shade})
        expect(part).to_contain_text("1 before, 1 after")
        part.get_by_role("button", name="It is off").click()
        expect(hand.page.locator("#said")).to_contain_text("choose the trace that is there")  # none is taken for found
        part.get_by_label("Trace found").select_option("none" if number else "a mark that cleans off")
        if number:
            part.get_by_label("In words").fill("Not even a shine.")
        else:
            part.get_by_role("button", name="As planned").click()
        part.get_by_role("button", name="It is off").click()
        expect(hand.page.locator("#page")).to_contain_text(f"{mark} is off")
    hand.page.get_by_role("group", name="Where it goes").get_by_role("button", name="store").click()
    hand.page.get_by_label("Shelf, new place or taker").fill("shelf 3")
    hand.button("Taken down")
    hand.heading("Taking down")


def all_down_and_signed(hand: Hand, laptop: Laptop) -> None:
    """Stage by stage: the rail waits for what hangs on it and covers it; both sign for what was left."""
    hand.phone.send()
    hand.on("2029-05-31")
    hand.link("Taking down")
    hand.heading("Taking down")
    sections = hand.page.locator("#page section")
    expect(sections.nth(0)).to_contain_text("D3")
    expect(sections.nth(0)).not_to_contain_text("D1 ")
    expect(sections.nth(1)).to_contain_text("after D2, D3")
    take_down(hand, "D3")
    take_down(hand, "D2")
    take_down(hand, "D1", "D1.1", "D1.2")
    hand.link("As left: sign")
    for area in hand.page.locator(".pad-area").all():
        hand.sign(area)
    hand.button("Save")
    expect(hand.page.locator(".signature svg")).to_have_count(2)
    hand.phone.send()


@pytest.mark.long
def test_three_years_from_the_first_round_to_the_statement(laptop: Laptop, hands: tuple[Hand, Hand]) -> None:
    """Two rounds by two people, one without a network; each step is in record and diary, and nothing stands twice."""
    fitter, volunteer = hands
    first_round_without_network(fitter, laptop)
    second_round_by_another(volunteer, laptop)
    with laptop.book() as book:
        (rail,) = [one for one in book.items("fitting") if one["mark"] == "D1"]
        phase_two = {"mark": "D3", "name": "Lamp", "state": "fitted", "phase": "2", "covers": [rail["id"]]}
        place = {"x_mm": 3000, "z_mm": 1500, "width_mm": 100, "height_mm": 80, "face": rail["face"]}
        book.write("fitting", phase_two | place | {"removal": "Unplug it."})
        before = diary_of(gather(book, rail_site(book)), [], book.revision(), "2028-03-01T12:00:00+00:00")
    phase_two_and_a_colour_as_the_desk_answers(volunteer, laptop)
    knock_told_by_the_volunteer(volunteer, laptop)
    all_down_and_signed(fitter, laptop)
    with laptop.book() as book:
        site = gather(book, rail_site(book))
        left = as_left(site)
        ((statement, downs),) = left.statements
        assert (left.unsigned, removal_of(site).steps) == ((), ())
        assert {down.fitting.mark for down in downs} == {"D1", "D2", "D3"}
        rail_down = next(down for down in downs if down.fitting.mark == "D1")
        assert [place.as_expected for place in rail_down.places] == [True, False]
        assert all(place.before and place.after for place in rail_down.places)
        assert statement.signature
        assert statement.fitter_signature
        record = compile_record(book, site.item.id)
        assert {one.sort for one in record.works} == {"tightening", "care", "touch-up", "taking down"}
        assert [one.id for one in record.statements] == [statement.id]
        after = diary_of(site, gone_from(book, site), book.revision(), "2029-06-01T12:00:00+00:00")
    for text in (before, after):
        uids = re.findall(r"^UID:(\S+)", text, re.MULTILINE)
        assert len(uids) == len(set(uids))
    assert set(re.findall(r"^UID:(\S+)", before, re.MULTILINE)) <= set(re.findall(r"^UID:(\S+)", after, re.MULTILINE))


def rail_site(book: Any) -> str:
    """The id of the only site."""
    return book.items("site")[0]["id"]
