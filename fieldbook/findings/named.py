"""What the name of a layer, board or lining says it is, in the languages that old papers of a house may be in.

A name is read by its words, without accents. What a name says beside a word that is known here is not read, so the
worst of all that its words say counts; and a name none of whose words is known says nothing, which is no fine word.
All lists: common practice, no source; of a hazard, of what is tender and of old iron they rather say too much.
"""

from __future__ import annotations

import re
import unicodedata
from functools import lru_cache

from ..checks import materials, metal_pair
from ..errors import FieldbookError
from ..model.choices import LOOKED_FOR

*_, ASBESTOS, LEAD_PAINT = LOOKED_FOR
LETTERS = str.maketrans({"ł": "l", "ø": "o", "đ": "d", "ß": "ss", "æ": "ae", "œ": "oe", "ı": "i"})

# fmt: off
# Lead as a metal, paint, and the pigments made of lead that have names of their own.
LEAD = r"(lead|blei\w*|plomb|piombo|plomo|chumbo|lood\w*|bly\w*|olow\w*|olov\w*|lyijy\w*)"
PAINT = (
    r"(farbe|anstrich|lackier|peinture|pittura|vernice|pintura|tinta|verf|maling|malning|farg|farba|barva|maali)"
)
PIGMENT = (
    r"\b(red|white)\W+lead\b|\blead\W+(white|red)\b|mennige|minium|\bminio\b|menie\b|monj[ae]\b|bleiwei|loodwit"
    r"|blyhvi|blyvi|biacca|\bcerus[ae]\b|blanc de plomb|albayalde|alvaiade|zarcao|\bsurik"
)
# A name that says it has none, just there; a "no" elsewhere in it says nothing of that.
NONE_OF_IT = re.compile(
    r"\b(non|no|not|without|free of|sans|sin|sem|senza|ohne|zonder|uten|uden|utan|bez)\W+"
    rf"(a[sz]bes[tz]\w*|amiant\w*|{LEAD}\b)"
    r"|\b(a[sz]bes[tz]\w{0,2}|lead|blei|lood|bly)\W*(free|frei(e[mnrs]?)?|vrij|fri)\b"
)
# Asbestos in most languages of Europe; AIB is the trade's short name of asbestos insulating board.
HAZARDS = {
    ASBESTOS: re.compile(r"a[sz]bes[tz]|amiant|amyant|αμιαντ|а[сз]бест|\baib\b"),
    LEAD_PAINT: re.compile(
        rf"{PIGMENT}|\b{LEAD}(\W+\w+){{0,2}}\W+(paint|primer|\w*{PAINT})|\b(blei|lood|bly|lyijy)\w*{PAINT}"
        rf"|{PAINT}\w*(\W+\w+){{0,2}}\W+(blei|plomb|piombo|plomo|chumbo|lood|bly|olow|olov)"
    ),
}
WOODEN = frozenset((
    "wood", "wooden", "timber", "timbers", "board", "boards", "boarding", "boarded", "deal", "batten", "battens",
    "joist", "joists", "stud", "studs", "plank", "planks", "planking", "hardwood", "plywood", "chipboard",
    "hardboard", "mdf", "matchboard", "matchboarding", "panelling", "wainscot", "parquet", "veneer", "mahogany",
    "cypress", "rosewood", "douglas",
    "roble", "pino", "rovere", "castagno", "trave", "hout", "eik", "dub", "ek", "furu",
))
WOODEN_PART = re.compile(
    "holz|eiche|kiefer|fichte|larche|tanne(?!n?bein)|dielen?$|bohlen?$|balken|brett|tafelung|parkett"
    "|^bois|chene|sapin|meleze|planche|poutre|lambris|legno|quercia|larice|madera|madeira|carvalho|pinho"
    "|eiken|grenen|vuren|hardhout|drewn|debow|sosnow|dreven|borovic|smrkov"
)
# Strength classes of EN 338 and EN 14080; C20/25 is one of concrete.
STRENGTH_CLASS = re.compile(r"\b([cd]|gl)\d\d[ch]?\b(?!/)")
# Stone, brick, plaster and what is brushed on them.
MINERAL = frozenset((
    "stone", "stones", "sandstone", "limestone", "freestone", "gritstone", "granite", "marble", "slate", "flint",
    "flints", "chalk", "tufa", "ashlar", "rubble", "masonry", "brick", "bricks", "brickwork", "block", "blocks",
    "blockwork", "plaster", "plasterboard", "render", "stucco", "scagliola", "mortar", "lime", "gypsum", "cement",
    "concrete", "screed", "tile", "tiles", "terracotta", "ceramic", "cob", "earth", "clay", "adobe", "daub",
    "limewash", "whitewash", "wash", "distemper", "paint", "paints", "emulsion", "varnish", "primer", "glass",
    "gres", "marmo", "malta", "gesso", "calce", "tufo", "yeso", "travertine",
    "cal", "caliza", "sandsten", "kalksten", "mursten",
))
MINERAL_PART = re.compile(
    "putz$|mortel|ziegel|gips|stein(e|platten?)?$|mauerwerk|kalkfarbe|^kalk$|lehm|beton|schiefer|^marmor$"
    "|granit|enduit|platre|pierre|brique|moellon|mortier|chaux|torchis|^marbre|ardoise|badigeon|intonaco|pietra"
    "|mattone|arenaria|piedra|ladrillo|mortero|hormigon|enlucido|pizarra|arenisca|pedra|tijolo|argamassa|betao"
    "|steen$|pleister|tynk|cegla|omitk|cihl"
)
# What lies on a wall and bears no bare metal for all that is under it.
TENDER = frozenset((
    "gilding", "gilt", "gilded", "leaf", "wallpaper", "paper", "papered", "leather", "canvas", "silk", "linen",
    "textile", "fabric", "tapestry", "mural", "fresco",
    "toile", "tela", "lienzo", "doek", "tissu", "tessuto", "tejido", "stoff", "soie", "seide", "seta", "seda", "oro",
    "behang", "carta", "papel",
))
TENDER_PART = re.compile(
    "tap[ei]t|tapis|tapiz|tappezz|papier|paper|leder|laeder|lader|cuir|cuero|cuoio|couro|gold(?!en)|gild|dor(e|ee|es|ure)$"
    "|dorad|dorat|dourad|zloc|zlac|zlat|leinwand|leinen|textil|seiden|feuille|foglia|fres[ckq]|affresc|malerei|wandbild"
    "|muurschilder|malning$|dipint|graffit|marmorier|polychrom"
)
# Iron in an old building is cast or wrought, by whatever is said beside it.
IRON = re.compile(
    r"\b(iron|fer|ferro|hierro|ijzer|jern|jarn)\b(?!\W*(oxide|red|gall))|\beisen|\bzelaz|\bzelez"
    r"|\b(cast|wrought)\W?iron\b|gusseis|schmiedeeis|\bfonte\b|\bfer forge|\bghisa\b|ferro battuto|\bferro fundido"
    r"|hierro (fundido|forjado|colado)|gietijzer|smeedijzer|stobejern|smedejern|stopejern|smijern|gjutjarn|smidesjarn"
    r"|zeliw|\blitin"
)
# fmt: on


@lru_cache(maxsize=4096)
def plain(name: str) -> str:
    """A name in small letters without accents, as the lists here have theirs.

    >>> plain("Żółty dąb, Bleiweiß")
    'zolty dab, bleiweiss'
    """
    parts = unicodedata.normalize("NFD", name.lower())
    return "".join(letter for letter in parts if not unicodedata.combining(letter)).translate(LETTERS)


@lru_cache(maxsize=4096)
def words(name: str) -> frozenset[str]:
    """The words of a name, without figures and units."""
    return frozenset(re.findall(r"[^\W\d_]+", plain(name))) - {"mm"}


def hazards_in(name: str) -> list[str]:
    """The hazards that a name says are there."""
    rest = NONE_OF_IT.sub("", plain(name))
    return [hazard for hazard, said in HAZARDS.items() if said.search(rest)]


@lru_cache(maxsize=1024)
def is_metal(name: str) -> bool:
    """Whether a name means a metal of the table."""
    try:
        metal_pair.metal(name)
    except FieldbookError:
        return False
    return True


def is_old_iron(name: str) -> bool:
    """Whether a name means cast or wrought iron."""
    return bool(IRON.search(plain(name)))


def is_wood(name: str) -> bool:
    """Whether a name means wood, by what it is of or by its strength class alone."""
    return _says(name, _wooden(), WOODEN_PART) or bool(STRENGTH_CLASS.search(plain(name)))


@lru_cache(maxsize=1)
def _wooden() -> frozenset[str]:
    """The words for wood, with the species of the table: of “red oak” the oak."""
    species = (name.partition(",")[0].partition("(")[0] for name in materials.names("species"))
    return WOODEN | {re.findall(r"[a-z]+", name.lower())[-1] for name in species}


def is_mineral(name: str) -> bool:
    """Whether a name means stone, brick, plaster or a coat on them."""
    return _says(name, MINERAL, MINERAL_PART)


def is_tender(name: str) -> bool:
    """Whether a name means paper, cloth, leather, leaf of metal or a picture on a wall, whatever else it names."""
    return _says(name, TENDER, TENDER_PART)


def _says(name: str, whole: frozenset[str], part: re.Pattern[str]) -> bool:
    return any(word in whole or part.search(word) for word in words(name))
