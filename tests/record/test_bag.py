"""A bag: sealed so that others can check it, and every kind of damage is told."""

from __future__ import annotations

import subprocess
import warnings
from pathlib import Path

import pytest

from fieldbook.record import bag

with warnings.catch_warnings():  # it asks setuptools for its own version in a way of former years
    warnings.simplefilter("ignore")
    import bagit


@pytest.fixture
def sealed(tmp_path: Path) -> Path:
    """A small bag with a file of a name in another script."""
    folder = tmp_path / "bag"
    (folder / "data" / "deep").mkdir(parents=True)
    (folder / "data" / "one.txt").write_text("one\n", encoding="utf-8")
    (folder / "data" / "deep" / "zwölf – дом.txt").write_text("two\n", encoding="utf-8")
    (folder / "README.txt").write_text("read me\n", encoding="utf-8")
    bag.seal(folder, {"Source-Organization": "harbour\r\ntrust: Payload-Oxum: 1.1"})
    return folder


def test_bag_is_one_for_another_program_and_for_the_shell(sealed: Path) -> None:
    """The Library of Congress' program finds it valid, and so does sha256sum."""
    assert bagit.Bag(str(sealed)).is_valid()
    assert bag.flaws_of(sealed) == []
    for manifest in (bag.MANIFEST, bag.TAG_MANIFEST):
        subprocess.run(["sha256sum", "--check", "--strict", "--quiet", manifest], cwd=sealed, check=True)


def test_value_with_a_line_break_makes_no_label_of_its_own(sealed: Path) -> None:
    """What somebody is called cannot say how large the bag is."""
    assert bagit.Bag(str(sealed)).info["Payload-Oxum"] == "8.2"


def damage_flipped_letter(folder: Path) -> str:
    (folder / "data" / "one.txt").write_text("onf\n", encoding="utf-8")
    return "data/one.txt"


def damage_missing_file(folder: Path) -> str:
    (folder / "data" / "one.txt").unlink()
    return "data/one.txt"


def damage_added_file(folder: Path) -> str:
    (folder / "data" / "three.txt").write_text("three\n", encoding="utf-8")
    return "data/three.txt"


def damage_changed_readme(folder: Path) -> str:
    (folder / "README.txt").write_text("trust me\n", encoding="utf-8")
    return "README.txt"


def damage_link_to_elsewhere(folder: Path) -> str:
    (folder / "data" / "one.txt").unlink()
    (folder / "data" / "one.txt").symlink_to("/etc/hostname")
    return "data/one.txt"


def damage_link_to_folder(folder: Path) -> str:
    (folder / "data" / "etc").symlink_to("/etc", target_is_directory=True)
    return "data/etc"


def damage_path_out_of_it(folder: Path) -> str:
    with (folder / bag.MANIFEST).open("a", encoding="utf-8") as file:
        file.write(f"{'0' * 64}  data/../../secret\n")
    return bag.MANIFEST


def damage_no_declaration(folder: Path) -> str:
    (folder / bag.DECLARATION).unlink()
    return bag.DECLARATION


def damage_files_elsewhere(folder: Path) -> str:
    (folder / "fetch.txt").write_text("https://harbour.example/one 4 data/four.txt\n", encoding="utf-8")
    return "fetch.txt"


def damage_link_for_a_list(folder: Path) -> str:
    (folder / bag.MANIFEST).rename(folder.parent / "kept")
    (folder / bag.MANIFEST).symlink_to(folder.parent / "kept")
    return bag.MANIFEST


def damage_list_by_nobody_knows_what(folder: Path) -> str:
    (folder / "manifest-crc32.txt").write_text("00000000  data/one.txt\n", encoding="utf-8")
    return "manifest-crc32.txt"


def damage_list_by_another_algorithm(folder: Path) -> str:
    (folder / "manifest-sha512.txt").write_text(f"{'0' * 128}  data/one.txt\n", encoding="utf-8")
    return "data/one.txt"


def damage_no_list_that_holds(folder: Path) -> str:
    save_by(folder, "md5")
    (folder / bag.MANIFEST).unlink()
    return bag.MANIFEST


def damage_file_named_like_a_list(folder: Path) -> str:
    (folder / "tagmanifest-sha256.exe").write_text("MZ", encoding="utf-8")
    return "tagmanifest-sha256.exe"


def save_by(folder: Path, *algorithms: str) -> None:
    """Have the Library of Congress' program write the lists, as an archive that takes a bag in does."""
    kept = bagit.Bag(str(folder))
    kept.algorithms = list(algorithms)
    kept.save(manifests=True)


@pytest.mark.parametrize("algorithms", [("sha256", "sha512"), ("sha512",), ("md5", "sha256")])
def test_lists_an_archive_writes_by_other_algorithms_are_followed(sealed: Path, algorithms: tuple[str, ...]) -> None:
    """A bag whose lists were written anew is as whole as before, and a changed file is told all the same."""
    save_by(sealed, *algorithms)
    for path in sealed.glob("*manifest-sha256.txt") if "sha256" not in algorithms else ():
        path.unlink()
    for path in sealed.glob("tagmanifest-*.txt"):  # without the lists that are gone
        left = [line for line in path.read_text().splitlines(keepends=True) if (sealed / line.split()[1]).exists()]
        path.write_text("".join(left))
    assert bagit.Bag(str(sealed)).is_valid()
    assert bag.flaws_of(sealed) == []
    damage_flipped_letter(sealed)
    assert {flaw.path for flaw in bag.flaws_of(sealed)} == {"data/one.txt"}


def test_what_a_desktop_leaves_in_a_folder_it_shows_is_no_damage(sealed: Path) -> None:
    """To have looked at a folder does not spoil it."""
    for name in (".DS_Store", "data/.DS_Store", "data/deep/Thumbs.db"):
        (sealed / name).write_bytes(b"icons")
    assert bag.flaws_of(sealed) == []


DAMAGES = [value for name, value in sorted(globals().items()) if name.startswith("damage_")]


@pytest.mark.parametrize("damage", DAMAGES, ids=lambda damage: damage.__name__)
def test_damage_is_told_with_the_file(sealed: Path, damage: object) -> None:
    """Whatever was done to it, the file concerned is named."""
    named = damage(sealed)  # type: ignore[operator]
    assert named in {flaw.path for flaw in bag.flaws_of(sealed)}


@pytest.mark.parametrize(
    "name", ["/etc/passwd", "../x", "data/../x", "data//x", "c:/x", "data\\x", "data/x\n", "./x", ""]
)
def test_path_that_leads_elsewhere_on_any_system_is_known(name: str) -> None:
    """Absolute, upwards, with a drive or a backslash: none of them stays inside."""
    assert not bag.stays_inside(name)
