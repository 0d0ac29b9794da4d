"""Words that were entered before in the same field of a kind are offered again while typing, as the phone does."""

from __future__ import annotations

from collections.abc import Iterable

from ...book.site import Site
from ...checks import materials
from ...model.fields import Field, Type
from ...model.kinds import Kind

MOST = 20
OF_MATERIALS = {"material", "moving_part", "made_of", "bears_on"}


def words_before(site: Site | None, kind: Kind, fields: Iterable[Field]) -> dict[str, list[str]]:
    """Name of a field -> what was entered in it, the latest first; of a material also the names the tables know.

    What is ordinary in it is offered as well: that there is none, where that is to be said.
    """
    if site is None:
        return {}
    newest = sorted(site.all(kind.name), key=lambda one: one.id, reverse=True)
    found: dict[str, list[str]] = {}
    for field in fields:
        if field.type is not Type.LINE or field.name == kind.numbered_by:
            continue
        words = [one.values[field.name] for one in newest if one.values.get(field.name)]
        names = _names_of_materials() if field.name in OF_MATERIALS else list(reversed(field.ordinary))
        if field.name == "cut_from":
            names = [row[0] for row in [*(site.item.stock or []), *(site.item.prices or [])] if row[1] is not None]
        if offered := list(dict.fromkeys([*list(dict.fromkeys(words))[:MOST], *names])):
            found[field.name] = offered
    return found


def _names_of_materials() -> list[str]:
    return [name for group in ("species", "sheet", "metal", "plastic", "substrate") for name in materials.names(group)]
