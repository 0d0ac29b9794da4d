"""What each face looks like before anything is put up: a zone's cause is drawn where the zone is."""

from __future__ import annotations

from collections.abc import Mapping

from . import hall_looks, inner_looks, store_looks
from .look import Look

LOOKS: Mapping[str, Look] = {**hall_looks.LOOKS, **inner_looks.LOOKS, **store_looks.LOOKS}
