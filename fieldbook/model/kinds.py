"""Every kind of entry, described once.

The only place that says which fields a fixing has, parted by subject: what is there (`surveyed.py`, `face.py`), what is
put up (`fitting.py`, `fixing.py`), what is settled (`settled.py`), what is done later (`kept_up.py`). Columns,
forms, validation, CSV heads, the record's tables and the glossary are all made from it: a new field is one line there.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ..errors import UnknownKind, shown
from .built_up import BUILD_UP
from .description import Kind
from .face import FACE
from .fitting import FITTING
from .fixing import FIXING
from .kept_up import COLOUR, STATEMENT, WORK
from .materials import COST, FINISH, MATERIAL
from .observed import LOG, OBSERVATION, PATCH, READING
from .settled import AGREEMENT, DECISION, DOCUMENT, PHOTOGRAPH, POINTER, TASK, VISIT
from .surveyed import HOLD, LIMIT, MEMBER, ROOM, SITE, ZONE

KINDS: Mapping[str, Kind] = {
    kind.name: kind
    for kind in (
        SITE,
        ROOM,
        FACE,
        ZONE,
        LIMIT,
        HOLD,
        MEMBER,
        READING,
        LOG,
        OBSERVATION,
        PATCH,
        FITTING,
        FIXING,
        FINISH,
        COLOUR,
        AGREEMENT,
        DECISION,
        DOCUMENT,
        TASK,
        VISIT,
        WORK,
        STATEMENT,
        PHOTOGRAPH,
        POINTER,
        COST,
        MATERIAL,
        BUILD_UP,
    )
}


def kind_named(name: Any) -> Kind:
    """The kind of this name; raises UnknownKind."""
    try:
        return KINDS[name]
    except (KeyError, TypeError):
        raise UnknownKind(
            f"“{shown(name)}” is no kind of entry.", f"The kinds are: {', '.join(KINDS)}.", field="kind", value=name
        ) from None
