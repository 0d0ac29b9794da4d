"""Measuring in a photograph at the desk, without any script."""

from __future__ import annotations

import re
from dataclasses import asdict
from io import BytesIO
from typing import Any

import pytest
from PIL import Image

from demo_site.photographs.camera import Camera
from fieldbook.book.photographs import keep
from tests.sites import Surveyed, carded, picture, saved
from tests.web.conftest import Desk

CAMERA = Camera((1500, 3400, 1700), (1900, 0, 1400), 1250, 2)
TAPED = ((800, 600), (3000, 600), (3000, 2200), (800, 2200))


@pytest.fixture
def photograph(surveyed: Surveyed) -> str:
    """A photograph of a wall with a zone and a clamp on it."""
    surveyed.zone(outline=[[900, 700], [1200, 700], [1200, 1000], [900, 1000]])
    surveyed.fixing(surveyed.fitting())
    kept = asdict(keep(surveyed.book, picture(1600, 1200)))
    return surveyed.book.write(
        "photograph", {"site": surveyed.site, "subject": surveyed.face, "purpose": "as found"} | kept
    )


def marks(camera: Camera = CAMERA) -> list[list[float | None]]:
    """The marks of the taped corners as they are entered."""
    return [[*camera.seen((x, 0, z))[:2], x, z, None] for x, z in TAPED]


def lines(places: tuple[tuple[float, float], ...] = TAPED) -> str:
    """Marks as they are typed, where the camera shows the places."""
    return "\n".join("{:.2f} {:.2f} {} {}".format(*CAMERA.seen((x, 0, z))[:2], x, z) for x, z in places)


def test_typed_marks_make_a_photograph_measure(desk: Desk, surveyed: Surveyed, photograph: str) -> None:
    """Four lines are entered; a point is placed, what is recorded lies over the picture, and the face lies flat."""
    address = f"/item/{photograph}/measure"
    page = desk.get(address)
    assert f'value="{surveyed.face}" selected' in page.text
    assert "Four points" in page.text
    page = desk.post(address, {"plane_face": surveyed.face, "plane_marks": lines(), "mark_px": "1"})
    assert page.status_code == 200
    for words in ("Four marks always fit", ">K1<", ">D1.1<", ">D1<"):
        assert words in page.text
    across, down, _ = CAMERA.seen((1600, 0, 1540))
    page = desk.get(f"{address}?across_px={across:.2f}&down_px={down:.2f}")
    assert "x 1600, z 1540 mm; within" in page.text.replace("\u202f", "").replace("\xa0", " ")
    assert "x_mm=1600" in page.text
    with Image.open(BytesIO(desk.get(f"/item/{photograph}/flat.jpg").data)) as flat:
        assert flat.size == (1600, 960)  # 5000 by 3000 mm
        assert flat.getpixel((600, 480)) == pytest.approx((120, 90, 60), abs=4)
        assert flat.getpixel((1590, 480)) == pytest.approx((255, 255, 255), abs=4)


def test_zone_set_on_the_photograph_keeps_off_by_how_far_it_may_be_off(
    desk: Desk, surveyed: Surveyed, photograph: str
) -> None:
    """Its corners are placed together, and the worst of their errors is the margin of the zone that is begun."""
    measured = {"plane_face": surveyed.face, "mark_px": 1, "plane_marks": marks()}
    surveyed.book.write("photograph", measured, photograph)
    wanted = ((1000, 1000), (2000, 1000), (2000, 1800))
    corners = "\n".join("{:.2f} {:.2f}".format(*CAMERA.seen((x, 0, z))[:2]) for x, z in wanted)
    page = desk.get(f"/item/{photograph}/measure", query_string={"corners": corners})
    link = re.search(r'href="([^"]+/new/zone[^"]+)"', page.text)[1].replace("&amp;", "&")
    form = desk.get(link).text
    assert "1000 1000\n2000 1000\n2000 1800" in form.replace("\r", "")
    margin = re.search(r'name="margin_mm"[^>]*value="(\d+)"', form)[1]
    assert 3 <= int(margin) <= 20
    assert f"within {margin} mm in 95 cases of 100" in form
    for few in (corners.splitlines()[0], "12 left", "900000 3\n1 2\n3 4"):
        refused = desk.get(f"/item/{photograph}/measure", query_string={"corners": few})
        assert refused.status_code == 200
        assert "/new/zone" not in refused.text


def test_edge_of_a_wide_shot_is_warned_of_where_no_mark_is_near(
    desk: Desk, surveyed: Surveyed, photograph: str
) -> None:
    """What a lens may bend is told with the place, and not in the middle of the picture."""
    measured = {"plane_face": surveyed.face, "mark_px": 1, "plane_marks": marks()}
    surveyed.book.write("photograph", measured, photograph)
    asked = f"/item/{photograph}/measure?across_px={{}}&down_px={{}}"
    assert "wide lens bends straight lines" in desk.get(asked.format(1590, 1190)).text
    assert "wide lens bends straight lines" not in desk.get(asked.format(800, 600)).text


@pytest.mark.parametrize(
    ("marked", "words"),
    [
        (lambda row: [*row[:3], [*(sum(two) / 2 for two in zip(*row[:2], strict=True))]], "nearly on one line"),
        (lambda row: row[:3] + [row[0]], "same point"),
        (lambda row: [[*row[0][:2], *row[1][2:]], [*row[1][:2], *row[0][2:]], *row[2:]], "crossing order"),
    ],
    ids=["three-on-a-line", "twice", "crossing"],
)  # fmt: skip
def test_marks_that_fix_no_plane_are_told_beside_their_field(
    desk: Desk, surveyed: Surveyed, photograph: str, marked: Any, words: str
) -> None:
    """They are kept as they were set, with the reason where they are corrected; nothing is measured by them."""
    given = marked([row[:4] for row in marks()])
    typed = "\n".join(" ".join(f"{figure:.2f}" for figure in row) for row in given)
    address = f"/item/{photograph}/measure"
    page = desk.post(address, {"plane_face": surveyed.face, "plane_marks": typed, "mark_px": "1"}).text
    warning = re.search(r'id="marks-warning">([^<]+)<', page)
    assert words in warning[1]
    assert "wide lens" not in warning[1]
    assert (
        "within"
        not in desk.get(f"{address}?across_px=800&down_px=600").text.split("data-said", 1)[1].split("</p>", 1)[0]
    )
    assert desk.get(f"/face/{surveyed.face}/before-after").status_code == 200


def test_marks_that_make_no_plane_are_kept_and_told(desk: Desk, surveyed: Surveyed, photograph: str) -> None:
    """Three marks may be entered, to go on later; what is missing is said, and nothing is laid flat."""
    address = f"/item/{photograph}/measure"
    page = desk.post(address, {"plane_face": surveyed.face, "plane_marks": lines(TAPED[:3]), "mark_px": ""})
    assert "There are 3 marks" in page.text
    assert desk.get(f"/item/{photograph}/flat.jpg").status_code == 404
    crossed = lines((TAPED[0], TAPED[1], TAPED[3], TAPED[2])).splitlines()
    swapped = "\n".join(
        " ".join((*a.split()[:2], *b.split()[2:])) for a, b in zip(crossed, lines().splitlines(), strict=True)
    )
    page = desk.post(address, {"plane_face": surveyed.face, "plane_marks": swapped, "mark_px": ""})
    assert "crossing order" in page.text


def test_marks_that_are_no_figures_are_given_back_as_typed(desk: Desk, surveyed: Surveyed, photograph: str) -> None:
    """The message stands beside the input, and nothing is entered."""
    given = {"plane_face": surveyed.face, "plane_marks": "12 left 0 0", "mark_px": "1"}
    page = desk.post(f"/item/{photograph}/measure", given)
    assert page.status_code == 422
    assert "12 left 0 0" in page.text
    assert surveyed.book.item(photograph)[1]["plane_marks"] is None


def test_finish_beside_a_grey_is_entered_as_measured_again(desk: Desk, surveyed: Surveyed) -> None:
    """Light and exposure go out by the grey; how it was got and how sure it is stand with it."""
    finish = surveyed.book.write("finish", {"site": surveyed.site, "name": "Dado drab", "sort": "oil paint"})
    kept = asdict(keep(surveyed.book, saved(carded())))
    of = {"site": surveyed.site, "subject": finish, "purpose": "evidence"}
    address = f"/item/{surveyed.book.write('photograph', of | kept)}/colour"
    asked = {"finish": finish, "across_px": "300", "down_px": "100", "reach_px": "40"}
    refused = desk.post(address, asked | {"card_patches": "390 100 40 70 0 0"})
    assert refused.status_code == 422
    assert "beyond the photograph" in refused.text
    assert desk.post(address, asked | {"card_patches": "100 100 40 70 0 0"}).status_code == 303
    (colour,) = surveyed.book.items("colour")
    assert [colour[name] for name in ("lab_l", "lab_a", "lab_b")] == pytest.approx((62, 8, 20), abs=0.8)
    assert (colour["lab_white"], colour["instrument"]) == ("D65", "photograph with a grey beside it")
    assert "CIEDE2000" in colour["note"]


def test_finish_is_chosen_by_itself_only_where_the_photograph_says_which(desk: Desk, surveyed: Surveyed) -> None:
    """Of one that is of a finish, that finish; of one of a wall, none where there are several."""
    finishes = [
        surveyed.book.write("finish", {"site": surveyed.site, "name": name, "sort": "oil paint"})
        for name in ("Dado drab", "Tide blue")
    ]
    for subject, chosen in ((finishes[1], f'value="{finishes[1]}" selected'), (surveyed.face, '<option value="">–')):
        kept = asdict(keep(surveyed.book, saved(carded())))
        of = {"site": surveyed.site, "subject": subject, "purpose": "evidence"}
        page = desk.get(f"/item/{surveyed.book.write('photograph', of | kept)}/colour").text
        assert chosen in page
        assert page.count(" selected>") == (subject in finishes)


def test_photograph_that_measures_lies_under_the_drawing_when_asked(
    desk: Desk, surveyed: Surveyed, photograph: str
) -> None:
    """It fills the face's outline, faintly; switched off, and before it measures, the drawing stands alone."""
    address = f"/face/{surveyed.face}"
    assert "Under the drawing" not in desk.get(address).text
    desk.post(f"/item/{photograph}/measure", {"plane_face": surveyed.face, "plane_marks": lines(), "mark_px": "1"})
    assert "<image" not in desk.get(address).text
    page = desk.get(f"{address}?under={photograph}").text
    found = re.search(r'<image href="([^"]+)" x="([^"]+)" y="([^"]+)" width="([^"]+)" height="([^"]+)"', page)
    assert found is not None
    scale, left, top = (float(re.search(rf'data-{name}="([^"]+)"', page)[1]) for name in ("scale", "left-mm", "top-mm"))
    x, y, width, height = (float(part) * scale for part in found.groups()[1:])
    assert (x + left, top - y, width, height) == pytest.approx((0, 3000, 5000, 3000), abs=1)
    with Image.open(BytesIO(desk.get(found[1].replace("&amp;", "&")).data)) as flat:
        assert flat.getpixel((600, 480)) == pytest.approx((214, 206, 196), abs=5)  # seven tenths of the way to white


NEARER = Camera((1300, 3000, 1500), (1700, 0, 1500), 1250, -1)


def test_two_photographs_of_a_face_lie_side_by_side_at_one_scale(
    desk: Desk, surveyed: Surveyed, photograph: str
) -> None:
    """Without a script both show the same part of the face; what was seen since is listed, and nothing is guessed."""
    address = f"/face/{surveyed.face}/before-after"
    assert "there is none" in desk.get(address).text
    measured = {"plane_face": surveyed.face, "mark_px": 1}
    surveyed.book.write(
        "photograph", measured | {"plane_marks": marks(), "taken_at": "2026-03-01T10:00:00Z"}, photograph
    )
    assert "there is one" in desk.get(address).text
    kept = asdict(keep(surveyed.book, picture(1600, 1201)))
    later = {
        "site": surveyed.site,
        "subject": surveyed.face,
        "purpose": "inspection",
        "taken_at": "2027-05-01T10:00:00Z",
    }
    after = surveyed.book.write("photograph", later | kept | measured | {"plane_marks": marks(NEARER)})
    page = desk.get(address).text
    assert "Nobody has entered a change" in page
    sizes = set()
    for picked in re.findall(r'<img src="([^"]+flat[^"]+)"', page):
        with Image.open(BytesIO(desk.get(picked.replace("&amp;", "&")).data)) as flat:
            sizes.add(flat.size)
            within = [(flat.width * x // 8, flat.height * y // 8) for x in (1, 4, 7) for y in (1, 4, 7)]
            assert all(flat.getpixel(point) == pytest.approx((120, 90, 60), abs=6) for point in within)
    assert len(sizes) == 1
    seen = {
        "room": surveyed.room,
        "face": surveyed.face,
        "what": "Plaster gone by the door",
        "at": "2027-05-02T09:00:00Z",
    }
    surveyed.book.write("observation", seen)
    assert "Plaster gone by the door" in desk.get(f"{address}?before={after}&after={photograph}").text


def test_photographs_of_different_parts_are_refused_in_words(desk: Desk, surveyed: Surveyed, photograph: str) -> None:
    """Two that share no part of the face cannot be laid over each other."""
    measured = {"plane_face": surveyed.face, "mark_px": 1}
    left, right = ([[*point, x * 0.4 + begin, z, None] for *point, x, z, _ in marks()] for begin in (0, 3000))
    surveyed.book.write("photograph", measured | {"plane_marks": left}, photograph)
    kept = asdict(keep(surveyed.book, picture(1600, 1201)))
    other = {"site": surveyed.site, "subject": surveyed.face, "purpose": "inspection"}
    surveyed.book.write("photograph", other | kept | measured | {"plane_marks": right})
    page = desk.get(f"/face/{surveyed.face}/before-after")
    assert page.status_code == 422
    assert "no part of the face in common" in page.text


def test_numbered_mark_is_set_beside_its_photograph(desk: Desk, surveyed: Surveyed, photograph: str) -> None:
    """The form shows the picture with the marks there are, counts on, and the photograph's page shows all of them."""
    address = f"/site/{surveyed.site}/new/pointer"
    assert 'name="number" type="text" value="1"' in desk.get(f"{address}?photograph={photograph}").text
    (fixing,) = surveyed.book.items("fixing")
    for number, across in ((1, "640,5"), (4, "90")):
        mark = {"photograph": photograph, "number": number, "across_px": across, "down_px": "410", "of": fixing["id"]}
        assert desk.post(address, mark).status_code == 303
    form = desk.get(f"{address}?photograph={photograph}").text
    assert 'name="number" type="text" value="5"' in form
    assert f'data-photograph="{photograph}"' in form
    assert re.findall(r"<text [^>]*>(\d+)</text>", form) == ["1", "4"]
    first = next(mark for mark in surveyed.book.items("pointer") if mark["number"] == 1)
    change = desk.get(f"/item/{first['id']}/change").text
    assert re.findall(r"<text [^>]*>(\d+)</text>", change) == ["4"]  # its own is drawn from what is typed
    page = desk.get(f"/item/{photograph}").text
    assert 'cx="640.5"' in page
    assert re.findall(r"<text [^>]*>(\d+)</text>", page) == ["1", "4"]


def test_marks_on_no_face_measure_and_offer_nothing_to_enter(desk: Desk, surveyed: Surveyed, photograph: str) -> None:
    """A place is told; what would be entered there needs to know on which face, and is not offered."""
    address = f"/item/{photograph}/measure"
    desk.post(address, {"plane_face": "", "plane_marks": lines(), "mark_px": "1"})
    across, down, _ = CAMERA.seen((1600, 0, 1540))
    page = desk.get(f"{address}?across_px={across:.2f}&down_px={down:.2f}&corners=400 400%0A900 400%0A900 800")
    assert page.status_code == 200
    assert "x 1600, z 1540 mm; within" in page.text.replace("\u202f", "").replace("\xa0", " ")
    assert "Say on which face the marks lie" in page.text
    assert "/new/" not in page.text.split("data-said", 1)[1]


@pytest.mark.parametrize(
    ("changed", "words"),
    [
        ({"finish": ""}, "No finish is chosen"),
        ({"finish": "00000000-0000-7000-8000-000000000077"}, "No finish is chosen"),
        ({"card_patches": ""}, "No patch of a card"),
        ({"card_patches": "100 100 40 seventy 0 0"}, "seventy"),
        ({"card_patches": "300 100 40 62 8 20"}, "Mark greys alone"),
        ({"across_px": ""}, "Across"),
        ({"across_px": "9000"}, "beyond the photograph"),
        ({"reach_px": "2"}, "pixels"),
    ],
)  # fmt: skip
def test_colour_that_cannot_be_taken_is_told_and_nothing_typed_is_lost(
    desk: Desk, surveyed: Surveyed, changed: dict[str, str], words: str
) -> None:
    """The form comes back as it was typed, with what is wrong; no colour is entered."""
    finish = surveyed.book.write("finish", {"site": surveyed.site, "name": "Dado drab", "sort": "oil paint"})
    kept = asdict(keep(surveyed.book, saved(carded())))
    of = {"site": surveyed.site, "subject": finish, "purpose": "evidence"}
    address = f"/item/{surveyed.book.write('photograph', of | kept)}/colour"
    asked = {"finish": finish, "across_px": "300", "down_px": "100", "reach_px": "40"}
    asked |= {"card_patches": "100 100 40 70 0 0"} | changed
    page = desk.post(address, asked)
    assert page.status_code == 422
    assert words in page.text
    assert all(f'value="{asked[name]}"' in page.text for name in ("down_px", "across_px", "reach_px"))
    assert f">{asked['card_patches']}</textarea>" in page.text
    assert not list(surveyed.book.items("colour"))
