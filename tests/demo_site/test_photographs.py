"""It is known where everything is in the drawn photographs."""

from __future__ import annotations

import json
import math
from io import BytesIO
from random import Random

import numpy as np
import pytest
from PIL import Image

from demo_site import ground_truth
from demo_site.photographs import draw
from demo_site.photographs.camera import Camera
from demo_site.photographs.patch import Patch, noise
from demo_site.photographs.shots import SHOTS
from fieldbook.book.book import Book
from fieldbook.book.evidence import path_of
from fieldbook.checks.picture_plane import plane_of
from tests.demo_site.conftest import Shed

WITH_TARGETS = [shot.name for shot in SHOTS if shot.targets]
RED = 1.5  # how much more red than green and blue a pixel of the disc has, in any light


def picture_of(book: Book, name: str) -> Image.Image:
    """The photograph of this name, from the book."""
    taken = dict(zip((shot.name for shot in SHOTS), book.items("photograph"), strict=True))
    return Image.open(BytesIO(path_of(book.folder, "photograph", taken[name]["sha256"]).read_bytes()))


def red_in(picture: Image.Image) -> np.ndarray:
    """Which pixels are plainly red."""
    red, green, blue = np.moveaxis(np.asarray(picture.convert("RGB"), dtype=float), 2, 0)
    return (red > RED * green) & (red > RED * blue) & (red > 60)


def homography(face_mm: list[tuple[float, float]], image_px: list[tuple[float, float]]) -> np.ndarray:
    """The 3 × 3 matrix from face to picture through four pairs of points, by linear equations (last element 1)."""
    rows, right = [], []
    for (x, z), (u, v) in zip(face_mm, image_px, strict=True):
        rows += [[x, z, 1, 0, 0, 0, -u * x, -u * z], [0, 0, 0, x, z, 1, -v * x, -v * z]]
        right += [u, v]
    return np.append(np.linalg.solve(np.array(rows), np.array(right)), 1).reshape(3, 3)


def test_camera_sees_a_point_where_similar_triangles_put_it() -> None:
    """A camera 1 m in front of the face with 1,000 px of focal length sees 100 mm as 100 px, x to the right, z up."""
    camera = Camera((0, 1000, 0), (0, 0, 0), 1000)
    assert camera.seen((100, 0, 50)) == pytest.approx((900, 550, 1000))
    assert camera.seen((100, 500, 50)) == pytest.approx((1000, 500, 500))


def test_camera_rolled_by_a_right_angle_clockwise_turns_the_picture_the_other_way() -> None:
    """What was to the right appears above the middle when the hand turns the camera clockwise by 90°."""
    camera = Camera((0, 1000, 0), (0, 0, 0), 1000, roll_deg=90)
    assert camera.seen((100, 0, 0)) == pytest.approx((800, 500, 1000))


@pytest.mark.parametrize("name", WITH_TARGETS)
def test_targets_are_drawn_where_the_ground_truth_has_them(shed_book: Book, name: str) -> None:
    """Around each target's stated pixel lies a vermilion disc whose middle is that pixel, to half a pixel."""
    truth = ground_truth(name)
    red = red_in(picture_of(shed_book, name))
    assert len(truth.targets) == 4
    for target in truth.targets:
        near = max(4, 0.2 * truth.card_mm * _px_per_mm(truth.matrix, target.x_mm, target.z_mm) * 1.25)
        left, top = round(target.x_px - near), round(target.y_px - near)
        window = red[top : round(target.y_px + near), left : round(target.x_px + near)]
        assert red[int(target.y_px), int(target.x_px)]
        rows, columns = np.indices(window.shape)
        middle = (
            left + 0.5 + (columns * window).sum() / window.sum(),
            top + 0.5 + (rows * window).sum() / window.sum(),
        )
        assert math.dist(middle, (target.x_px, target.y_px)) < 0.5


def _px_per_mm(matrix, x_mm: float, z_mm: float) -> float:
    def seen(x: float) -> np.ndarray:
        u, v, w = np.array(matrix) @ (x, 0, z_mm, 1)
        return np.array((u / w, v / w))

    return float(np.linalg.norm(seen(x_mm + 1) - seen(x_mm)))


@pytest.mark.parametrize("name", WITH_TARGETS)
def test_homography_through_the_targets_is_that_of_the_camera(name: str) -> None:
    """Solved from the four targets alone, it takes any point of the face where the camera matrix takes it."""
    truth = ground_truth(name)
    solved = homography(
        [(target.x_mm, target.z_mm) for target in truth.targets],
        [(target.x_px, target.y_px) for target in truth.targets],
    )
    plane = np.array(truth.matrix)[:, [0, 2, 3]]  # y = 0 on the face
    assert solved == pytest.approx(plane / plane[2, 2], rel=1e-6, abs=1e-9)


def test_point_outside_the_targets_is_found_in_the_picture(shed_book: Book) -> None:
    """The open peg hole H14, which is no target, is a dark spot where the four targets say it is."""
    truth = ground_truth("shelf-down")
    solved = homography([(t.x_mm, t.z_mm) for t in truth.targets], [(t.x_px, t.y_px) for t in truth.targets])
    u, v, w = solved @ (1500, 1420, 1)
    grey = np.asarray(picture_of(shed_book, "shelf-down").convert("L"), dtype=float)
    x, y = round(u / w), round(v / w)
    hole, around = grey[y - 2 : y + 3, x - 2 : x + 3], grey[y - 40 : y + 40, x - 40 : x + 40]
    assert hole.mean() < 0.5 * around.mean()


def test_ground_truth_is_plain_and_says_which_face(shed_book: Book) -> None:
    """It can be written to a file as it is, and names the face whose axes it is in."""
    truth = ground_truth("r4-n-datum")
    assert truth.face == "R4-N"
    assert truth.size_px == picture_of(shed_book, "r4-n-datum").size
    assert json.loads(json.dumps(truth.matrix)) == [list(row) for row in truth.matrix]


def test_photograph_drawn_again_is_the_same_to_the_byte(shed: Shed) -> None:
    """Whatever was drawn before it, and by whichever thread."""
    shot, content = shed.drawn[5]
    assert draw(shot) == content


def test_photograph_of_another_name_is_refused() -> None:
    """There is no ground truth for a photograph that was not drawn."""
    with pytest.raises(KeyError):
        ground_truth("attic")


def test_noise_stays_where_it_is_on_the_surface() -> None:
    """Two patches that overlap show the same there: two photographs of a wall show the same stones."""
    wide = noise(Patch(0, 0, 400, 300, 0.5), "wall", 20)
    narrow = noise(Patch(100, 100, 300, 200, 0.5), "wall", 20)
    shared = np.asarray(wide.crop((50, 50, 150, 100)), dtype=int)
    assert np.abs(shared - np.asarray(narrow, dtype=int))[3:-3, 3:-3].max() <= 2


def test_places_are_recovered_from_the_drawn_photographs() -> None:
    """By the four targets, marked a pixel or two beside, what lies between them is placed within what is stated."""
    rng, held, off = Random(13), [], []
    for name in WITH_TARGETS:
        truth = ground_truth(name)
        xs, zs = ([getattr(target, axis) for target in truth.targets] for axis in ("x_mm", "z_mm"))
        for error_px in (1.0, 2.0) * 5:
            marks = [
                (t.x_px + rng.gauss(0, error_px), t.y_px + rng.gauss(0, error_px), t.x_mm, t.z_mm)
                for t in truth.targets
            ]
            plane = plane_of(marks, error_px)
            for _ in range(4):
                x, z = rng.uniform(min(xs), max(xs)), rng.uniform(min(zs), max(zs))
                u, v, w = np.array(truth.matrix) @ (x, 0, z, 1)
                place = plane.place(u / w + rng.gauss(0, error_px), v / w + rng.gauss(0, error_px))
                off.append(math.dist(place[:2], (x, z)))
                held.append(off[-1] <= place.within_mm)
    assert sum(held) / len(held) >= 0.95
    assert np.median(off) < 6
