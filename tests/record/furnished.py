"""A site with something for every chapter of a record: two rooms of an invented customs shed."""

from __future__ import annotations

from dataclasses import dataclass
from io import BytesIO
from typing import Any

from PIL import Image, ImageDraw

from fieldbook.book import photographs
from fieldbook.book.book import Book
from fieldbook.model.choices import LOOKED_FOR

OVER_MARK, CLOSE_MARK = "D1.1", "D1.2"
"""Fixings of the furnished site that stand too near to a keep-off zone, and just far enough from it."""


@dataclass(frozen=True)
class Furnished:
    """A book, its site, and the ids of some items by their marks."""

    book: Book
    site: str
    ids: dict[str, str]


def furnish(book: Book) -> Furnished:
    """Enter the site."""
    ids: dict[str, str] = {}

    def put(kind: str, /, **values: Any) -> str:
        item = book.write(kind, values)
        ids[values.get("mark") or values.get("reference") or kind] = item
        return item

    site = put(
        "site",
        name="Customs shed",
        address="North mole, Marrow Quay",
        protection="protected as a whole, register no. 1147",
        keeper="harbour trust, caretaker at the gate lodge",
        adviser="conservation office of the county",
        fitter="joiner to the harbour trust",
        access="Key at the gate lodge. Alarm panel left of the door. Assembly point: the weigh house.",
        budget=2400,
        currency="EUR",
    )
    _rooms(put, ids, site)
    _fittings(put, ids)
    _papers(put, ids, site)
    for subject, purpose, caption in (
        ("R1-N", "datum", "brass pin in the third joint above the dado"),
        ("D1", "as fitted", "rail from the left"),
        ("D1", "at work", "lining under the jaw"),
    ):
        kept = photographs.keep(book, picture(caption))
        put("photograph", site=site, subject=ids[subject], purpose=purpose, caption=caption, taken_by="fitter",
            taken_at="2026-05-30T11:20:00+01:00", **vars(kept))  # fmt: skip
    return Furnished(book, site, ids)


def _rooms(put: Any, ids: dict[str, str], site: str) -> None:
    put("room", site=site, mark="R1", name="Weighing hall", use="exhibition", ceiling_mm=4200, floor="stone flags",
        plan=[[0, 0], [8000, 0], [8000, 5000], [0, 5000]], conditions="unheated; damp below 800 mm in winter",
        hazards=["old lead paint", "dust"], light_limit_lx=150, humidity_low_pct=45, humidity_high_pct=70)  # fmt: skip
    put("room", site=site, mark="R2", name="Clerks’ office")
    put("face", room=ids["R1"], mark="R1-N", name="North wall", sort="wall", width_mm=8000, height_mm=4200,
        start_x_mm=8000, start_y_mm=5000, bearing_deg=180, datum="Brass pin in the third joint above the dado.",
        looked_for=[[what, "adviser", "raking light and detector", "2026-03-02"] for what in LOOKED_FOR],
        layers=[["limewash", 1, "later"], ["lime plaster", 25, "old"], ["rubble stone", 600, "old"]])  # fmt: skip
    put("face", room=ids["R2"], mark="R2-E", name="Partition", sort="wall", width_mm=2400, height_mm=2900)
    put("zone", face=ids["R1-N"], mark="K1", name="Painted date stone", margin_mm=50, forbids=["drilling", "contact"],
        outline=[[1000, 1400], [1500, 1400], [1500, 1900], [1000, 1900]], reason="lettering in old paint",
        evidence="seen in raking light", said_by="adviser", said_on="2026-03-02")  # fmt: skip
    put("limit", face=ids["R1-N"], mark="L1", name="Yard door", sort="leaf", leaf="door", margin_mm=20, hinge_x_mm=7000,
        hinge_y_mm=-60, swing_from_deg=0, swing_to_deg=110, boxes=[[0, 900, -45, 0]], z_to_mm=2200)  # fmt: skip
    put("hold", face=ids["R1-N"], mark="H1", sort="hook", x_mm=4000, z_mm=2600, may_be_used="yes", load_limit_n=150)
    for at, value in (("2026-01-10T09:00:00+00:00", 4.5), ("2026-05-10T09:00:00+01:00", 14)):
        put("reading", room=ids["R1"], quantity="air temperature", value=value, unit="°C", at=at, instrument="logger 2")
    put("observation", room=ids["R1"], face=ids["R1-N"], what="Hairline crack above the door", seen_by="fitter",
        at="2026-03-02T10:00:00+00:00", condition_class="1", urgency_class="0", recommendation_class="1")  # fmt: skip


def _fittings(put: Any, ids: dict[str, str]) -> None:
    put("finish", site=ids["site"], mark="P1", name="Rail green", sort="oil paint", binder="linseed oil",
        pigments=[["PG7", 12], ["PW6", 88]], sheen="eggshell", coats=2, lightfastness="7",
        lightfastness_scale="ISO Blue Wool 1 to 8", comes_off_with="wood turpentine", touch_up="Thin, by fine brush.",
        lab_l=42, lab_a=-18, lab_b=9, lab_white="D50", colour_from="measured with an instrument")  # fmt: skip
    put("fitting", face=ids["R1-N"], mark="D1", name="Rail", purpose="carries the panels", state="fitted",
        x_mm=1540, z_mm=1600, width_mm=3060, height_mm=110, build_up=[["cork lining", 3, 0.5], ["ash rail", 28, 1]],
        mass_empty_kg=9, mass_loaded_kg=24, climbable=1, people_to_remove=2, minutes_to_remove=30,
        removal="Undo the clamps from the right.", care="Dust with a dry brush.", finishes=[ids["P1"]],
        fitted_on="2026-05-30")  # fmt: skip
    put("fitting", face=ids["R1-N"], mark="D2", name="Panel", state="planned", x_mm=1800, z_mm=1100, width_mm=900,
        height_mm=700, hangs_on=ids["D1"], gives=["light"], mass_loaded_kg=6)  # fmt: skip
    place = {"x_mm": 1556, "z_mm": 1640}
    put("fixing", fitting=ids["D1"], face=ids["R1-N"], mark="D1.1", sort="clamp", state="fitted", hole="none",
        contact_radius_mm=30, fabric="old fabric", trace="a mark that cleans off", size="jaw 60", lining="cork 3 mm",
        adhesive=0, torque_nm=2.5, locking="second nut", removal_tool="spanner 10 mm", removal="Half a turn at a time.",
        fitted_x_mm=1558.5, fitted_z_mm=1640, fitted_on="2026-05-30", fitted_by="fitter", **place)  # fmt: skip
    put("fixing", fitting=ids["D1"], face=ids["R1-N"], mark="D1.2", sort="clamp", state="fitted", hole="none",
        contact_radius_mm=30, fabric="old fabric", trace="a mark that cleans off", x_mm=1582, z_mm=1700,
        adhesive=0)  # fmt: skip
    put("fixing", fitting=ids["D1"], face=ids["R1-N"], mark="D1.3", sort="wood screw", state="planned", hole="new",
        contact_radius_mm=8, fabric="old fabric", trace="a new hole in old fabric", x_mm=4000, z_mm=1640,
        diameter_mm=5, penetration_mm=40, into="oak plug", stands_out_mm=4)  # fmt: skip


def _papers(put: Any, ids: dict[str, str], site: str) -> None:
    put("agreement", site=site, reference="A1", items=[ids["D1.1"], ids["D1.2"]], answer="yes, with conditions",
        words="Clamps on cork.", conditions="Looked at every spring.", conditions_met="yes", said_by="adviser",
        on="2026-04-01")  # fmt: skip
    put("task", site=site, what="Dust the rail", fitting=ids["D1"], every_months=6, first_on="2026-11-01", minutes=15,
        who="caretaker", tools="dry brush", how="From above, without a ladder.", caution="Not on a chair.")  # fmt: skip
    put("visit", site=site, purpose="fitting", on="2026-05-30", by="fitter", done="Rail up.", next_on="2027-05-01")
    put("cost", site=site, fitting=ids["D1"], what="Ash, planed", sort="material", amount=146.5, currency="EUR",
        state="paid", receipt="no. 31")  # fmt: skip


def picture(words: str) -> bytes:
    """The bytes of a photograph that shows its own caption on limewash."""
    image = Image.new("RGB", (1200, 900), (214, 208, 190))
    ImageDraw.Draw(image).text((60, 400), words, fill=(40, 40, 40), font_size=48)
    buffer = BytesIO()
    image.save(buffer, "JPEG", quality=88)
    return buffer.getvalue()
