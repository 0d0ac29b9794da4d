"""What is made for a phase: parts of all fittings out of stock together, holes from one edge, hardware."""

from __future__ import annotations

from fieldbook.book.entering import enter
from fieldbook.book.gathering import gather
from fieldbook.book.makes import copy_lines, row
from fieldbook.findings.shopping import shopping_of
from fieldbook.findings.told_workshop import told_workshop
from fieldbook.findings.workshop import phases_of, workshop_of
from tests.sites import Surveyed


def furnished(surveyed: Surveyed) -> None:
    """A shelf of four boards of 400 mm from sheets of 900 by 410 mm, copied once; another fitting of no phase."""
    cut = {"parts": [["board", 400, 200, 2, "along"]], "stock_length_mm": 900, "stock_width_mm": 410, "kerf_mm": 3}
    shelf = surveyed.fitting(phase="2", x_mm=100, **cut)
    surveyed.fixing(shelf, size="M6", x_mm=130)
    surveyed.fixing(shelf, mark="D1.2", size="M6", x_mm=1050)
    site = gather(surveyed.book, surveyed.site)
    enter(surveyed.book, copy_lines(site, site[shelf], row(site[shelf], 1, [1200])), surveyed.book.folder)
    surveyed.fitting(mark="D9", name="Sign", z_mm=100)


def test_parts_of_all_fittings_come_out_of_the_stock_together(surveyed: Surveyed) -> None:
    """Four boards of 400 by 200 fit one sheet of 900 by 410, two rows of two, where each fitting alone takes one."""
    furnished(surveyed)
    site = gather(surveyed.book, surveyed.site)
    assert phases_of(site) == ["", "2"]
    (lot,) = workshop_of(site, "2").lots
    ((part, fittings),) = lot.parts
    assert (part.count, [one.mark for one in fittings], lot.spare) == (4, ["D1", "D2"], 0)
    assert lot.cut is not None
    assert [one.needed for one in lot.cut.taken] == [1]
    (more,) = workshop_of(site, "2", 10).lots
    assert more.cut is not None
    assert (more.spare, [one.needed for one in more.cut.taken], more.cut.at_least) == (1, [2], 2)


def test_what_is_made_alike_is_drilled_and_counted_together(surveyed: Surveyed) -> None:
    """Places from the left and the lower edge, once for all copies."""
    furnished(surveyed)
    made = workshop_of(gather(surveyed.book, surveyed.site), "2")
    (batch,) = made.batches
    assert [one.mark for one in batch.fittings] == ["D1", "D2"]
    assert [(hole.along_mm, hole.up_mm) for hole in batch.holes] == [(30, 40), (950, 40)]
    assert made.hardware == (("clamp, M6", 4),)


def test_stock_that_is_not_entered_is_told(surveyed: Surveyed) -> None:
    """The parts are listed all the same."""
    surveyed.fitting(parts=[["rail", 900, None, 1, "along"]])
    (lot,) = workshop_of(gather(surveyed.book, surveyed.site), "").lots
    assert lot.cut is None
    assert lot.refusal is not None
    assert lot.refusal.field == "stock_length_mm"
    assert [part.name for part, _ in lot.parts] == ["rail"]


BATTEN = "larch batten 21 × 45"


def battened(surveyed: Surveyed, **more: object) -> None:
    """Two rails of 640 and a post of 1500 mm of one batten, for two fittings; two clamps."""
    cut = {"cut_from": BATTEN, "kerf_mm": 3, **more}
    rack = surveyed.fitting(parts=[["rail", 640, None, 2, "along"]], **cut)
    surveyed.fixing(rack, size="M6")
    surveyed.fixing(rack, mark="D1.2", size="M6", x_mm=1050)
    surveyed.fitting(mark="D2", parts=[["post", 1500, None, 1, "along"]], **cut | {"cut_from": BATTEN.upper()})


def test_stock_in_hand_and_prices_are_used_for_all_of_one_name(surveyed: Surveyed) -> None:
    """A rail from the offcut of 700; the other and the post, 640 + 3 + 1500, from one of 2200 that is bought."""
    battened(surveyed)
    stock = [[BATTEN, 700, None, 1, "offcut"], ["clamp, M6", None, None, 1, "whole"], ["other", 3000, None, 9, "whole"]]
    prices = [[BATTEN, 2200, None, 8.2], [BATTEN, 1550, None, 6.9], ["clamp, M6", None, None, 3.15]]
    surveyed.book.write("site", {"stock": stock, "prices": prices}, surveyed.site)
    site = gather(surveyed.book, surveyed.site)
    made = workshop_of(site, "")
    (lot,) = made.lots
    assert lot.cut is not None
    assert [(one.offer.source, one.offer.length_mm, one.needed) for one in lot.cut.taken] == [
        ("offcut", 700, 1),
        ("to buy", 2200, 1),
    ]
    found = shopping_of(site, made)
    assert [(one.what, one.length_mm, one.wanted, one.there, one.number, one.together) for one in found.items] == [
        (BATTEN, 700, 1, 1, 0, 0),
        (BATTEN, 2200, 1, 0, 1, 8.2),
        ("clamp, M6", None, 2, 1, 1, 3.15),
    ]
    assert (round(found.total, 2), found.unknown) == (11.35, ())


def test_price_that_is_not_entered_is_told_and_not_taken_for_nothing(surveyed: Surveyed) -> None:
    """The size that stands with the fittings can be bought; neither it nor the clamps have a price."""
    battened(surveyed, stock_length_mm=3000)
    site = gather(surveyed.book, surveyed.site)
    made = workshop_of(site, "")
    (lot,) = made.lots
    assert lot.cut is not None
    assert [(one.offer.source, one.needed) for one in lot.cut.taken] == [("to buy", 1)]
    found = shopping_of(site, made)
    assert (found.total, found.unknown) == (0, (BATTEN, "clamp, M6"))
    assert [one.together for one in found.items] == [None, None]


def test_name_without_a_size_or_a_kerf_is_told(surveyed: Surveyed) -> None:
    """Nothing is laid out, and what is missing is asked for."""
    battened(surveyed)
    (lot,) = workshop_of(gather(surveyed.book, surveyed.site), "").lots
    assert lot.refusal is not None
    assert lot.refusal.field == "cut_from"
    surveyed.fitting(mark="D3", cut_from=BATTEN, parts=[["peg", 90, None, 1, "along"]])
    (lot,) = workshop_of(gather(surveyed.book, surveyed.site), "").lots
    assert lot.refusal is not None
    assert (lot.refusal.field, lot.cut) == ("kerf_mm", None)


def test_stock_in_hand_is_counted_once_over_the_phases(surveyed: Surveyed) -> None:
    """The offcut of 700 serves a rail of phase 2; one of phase 10, which comes later, finds no offcut and one clamp."""
    cut = {"cut_from": BATTEN, "kerf_mm": 3, "parts": [["rail", 640, None, 1, "along"]]}
    late = surveyed.fitting(mark="D2", phase="10", x_mm=1500, **cut)
    early = surveyed.fitting(phase="2", x_mm=100, **cut)
    for number, fitting in enumerate((early, late), 1):
        surveyed.fixing(fitting, mark=f"D{number}.1", size="M6", x_mm=310 if fitting == early else 1710)
        surveyed.fixing(fitting, mark=f"D{number}.2", size="M6", x_mm=540 if fitting == early else 1940)
    stock = [[BATTEN, 700, None, 1, "offcut"], ["clamp, M6", None, None, 3, "whole"]]
    surveyed.book.write("site", {"stock": stock, "prices": [[BATTEN, 2200, None, 8.2]]}, surveyed.site)
    site = gather(surveyed.book, surveyed.site)
    assert phases_of(site) == ["2", "10"]
    taken = {phase: shopping_of(site, workshop_of(site, phase)).items for phase in ("2", "10")}
    assert [(one.what, one.length_mm, one.there, one.number) for one in taken["2"]] == [
        (BATTEN, 700, 1, 0), ("clamp, M6", None, 3, 0),
    ]  # fmt: skip
    assert [(one.what, one.length_mm, one.there, one.number) for one in taken["10"]] == [
        (BATTEN, 2200, 0, 1), ("clamp, M6", None, 1, 1),
    ]  # fmt: skip
    surveyed.book.write("fitting", {"kerf_mm": None}, early)
    left = workshop_of(gather(surveyed.book, surveyed.site), "10").hand
    assert left.held == (BATTEN,)
    assert left.rows == (("clamp, M6", None, None, 1, "whole"),)


def test_what_an_earlier_phase_leaves_over_is_an_offcut_for_a_later_one(surveyed: Surveyed) -> None:
    """Of 2200 mm bought for a rail of 640 there is 1557 left, 3 lost; of a rest of 57 mm nobody cuts a peg."""
    cut = {"cut_from": BATTEN, "kerf_mm": 3}
    for number, phase in enumerate(("1", "2", "3"), 1):
        surveyed.fitting(mark=f"D{number}", phase=phase, parts=[["rail", 640, None, 1, "along"]], **cut)
    surveyed.fitting(mark="D4", phase="4", parts=[["peg", 50, None, 1, "along"]], **cut)
    surveyed.book.write("site", {"prices": [[BATTEN, 2200, None, 8.2]]}, surveyed.site)
    site = gather(surveyed.book, surveyed.site)
    rows = {phase: workshop_of(site, phase).hand.rows for phase in phases_of(site)}
    assert rows == {
        "1": (),
        "2": ((BATTEN, 1557, None, 1, "offcut"),),
        "3": ((BATTEN, 914, None, 1, "offcut"),),
        "4": ((BATTEN, 271, None, 1, "offcut"),),
    }
    assert shopping_of(site, workshop_of(site, "3")).total == 0


def test_finish_is_told_by_the_litre_once_all_it_takes_is_known(surveyed: Surveyed) -> None:
    """3.7 m² in two coats at 11.5 m² the litre: 0.643 l, upwards; an area that is not entered is not none."""
    paint = surveyed.book.write(
        "finish", {"site": surveyed.site, "mark": "P1", "name": "Tar black", "sort": "oil paint"}
    )
    one = surveyed.fitting(finishes=[paint], coated_m2=2.4)
    other = surveyed.fitting(mark="D2", z_mm=400, finishes=[paint])
    (told,) = workshop_of(gather(surveyed.book, surveyed.site), "").finishes
    assert (told.area_m2, told.litres) == (None, None)
    assert told.lacking == ("area to be coated of D2", "number of coats of P1", "what one litre covers of P1")
    surveyed.book.write("fitting", {"coated_m2": 1.3}, other)
    surveyed.book.write("finish", {"coats": 2, "covers_m2_l": 11.5}, paint)
    (told,) = workshop_of(gather(surveyed.book, surveyed.site), "").finishes
    assert (told.area_m2, told.litres, told.lacking) == (3.7, 0.65, ())
    assert [fitting.id for fitting in told.fittings] == [one, other]


def test_phones_bring_the_sheets_along(surveyed: Surveyed) -> None:
    """What each piece is cut into and where, holes from the edges, what has to be bought; of a refusal the words."""
    battened(surveyed)
    surveyed.book.write(
        "site", {"stock": [[BATTEN, 700, None, 1, "offcut"]], "prices": [[BATTEN, 2200, None, 8.2]]}, surveyed.site
    )
    site = gather(surveyed.book, surveyed.site)
    (phase,) = told_workshop(site)
    (lot,) = phase["cut"]
    assert lot["pieces"] == [
        ["offcut", 700, None, [["rail", 640, None, 0, 0]]],
        ["to buy", 2200, None, [["post", 1500, None, 0, 0], ["rail", 640, None, 1503, 0]]],
    ]
    assert [(name, count) for name, _, _, count, _ in lot["parts"]] == [("rail", 2), ("post", 1)]
    assert phase["buy"] == [[BATTEN, 2200, None, 1], ["clamp, M6", None, None, 2]]
    (holes,) = [batch["holes"] for batch in phase["drill"]]
    assert [(site[fixing].mark, along, up) for fixing, along, up in holes] == [("D1.1", 100, 40), ("D1.2", 50, 40)]
    surveyed.book.write("site", {"prices": [[BATTEN, 900, None, 2]]}, surveyed.site)
    (phase,) = told_workshop(gather(surveyed.book, surveyed.site))
    assert phase["cut"][0]["pieces"] == []
    assert "post" in phase["cut"][0]["refusal"]
