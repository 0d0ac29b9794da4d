"""What was worked out is kept while what it rests on stays, or, where it is only told of much, comes to the same."""

from __future__ import annotations

from collections.abc import Mapping

import pytest

from fieldbook.book.worked import WorkedOnce


class Heights(WorkedOnce):
    """Some heights, and a word on the highest."""

    def __init__(self, of: Mapping[str, float]):
        super().__init__("heights")
        self.of = of

    def highest(self) -> float:
        """Asked of each."""
        assert self.notes is not None
        self.notes.update(self.of)
        return max(self.of.values())

    def said(self) -> str:
        """It looks at the highest alone."""
        return str(self.once(("said",), lambda: f"under {self.told_once(('highest',), Heights.highest):g}"))


def test_who_asked_is_asked_again_only_where_it_comes_to_another() -> None:
    """A lower height may change; the highest, or none at all, is told."""
    before = Heights({"left": 3, "right": 5})
    assert before.said() == "under 5"
    same = Heights({"left": 4, "right": 5})
    assert same.take_over(before, {"left"}) == {"left"}
    assert same.worked[("said",)] is before.worked[("said",)]
    higher = Heights({"left": 6, "right": 5})
    assert higher.take_over(same, {"left"}) == {"left", ("highest",), ("said",)}
    assert higher.said() == "under 6"
    none = Heights({})
    assert ("said",) in none.take_over(higher, {"left", "right"})
    with pytest.raises(ValueError, match="empty"):
        none.said()
