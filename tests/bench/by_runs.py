"""Forms that begin like another and enter several things at a time, by figures in a run."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from fieldbook.book.next_mark import MARKS, mark_after
from fieldbook.book.opening import open_book
from fieldbook.book.placed import PLACE
from fieldbook.model.fields import Field, Type
from fieldbook.model.kinds import KINDS, Kind
from fieldbook.model.runs import NONE, figures_in
from fieldbook.web.forms.of_runs import may_run
from fieldbook.web.pages.entries import AROUND
from tests.bench.by_forms import ByForms, Entry
from tests.bench.typist import STANDS, TICKED, typed

LEAST_SPARED = 1  # as much as choosing takes


class ByRuns(ByForms):
    """A form for all that differ in figures alone, each form begun like whatever spares most."""

    def enter_fittings(self, fittings: list[Entry], fixings: list[Entry]) -> None:
        """Each fitting with its fixings after it; from one to the next by what the page offers."""
        kind, of_it = KINDS["fitting"], KINDS["fixing"]
        for entry in fittings:
            values, its = self.meant(entry), [one for one in fixings if one["set"]["fitting"] == entry["item"]]
            there = self.page.locator('main a[href*="/new/fitting?"]')
            if there.count():
                with self.page.expect_navigation():
                    self.typist.click(there.first)
                self._begin_like(kind, values)
            else:
                self._begin(kind, values)
            self.typist.fill(kind, values)
            self.typist.press("Save and enter its fixings" if its else "Save")
            self._note_last(kind, [entry])
            self._forms(of_it, its, begun=True)
        new = {entry["item"] for entry in fittings}
        self.enter(of_it, [one for one in fixings if one["set"]["fitting"] not in new])

    def _forms(self, kind: Kind, entries: list[Entry], begun: bool = False) -> None:
        """A form for each that differs in more than its own figures, which are typed as a run."""
        groups = self._alike(kind, entries)
        for number, group in enumerate(groups):
            rows = [self._without_place(kind, self.meant(entry)) for entry in group]
            if number or begun:
                self._begin_like(kind, rows[0])
            else:
                self._begin(kind, rows[0])
            self.typist.fill(kind, rows[0], runs=self._runs(kind, rows))
            goes_on = number + 1 < len(groups)
            self.typist.press("Save and enter another like it" if goes_on else "Save")
            self._note_last(kind, group)

    def _alike(self, kind: Kind, entries: list[Entry]) -> list[list[Entry]]:
        """What one form enters: neighbours that differ in figures alone, whose marks count on."""
        runs = {field.name for field in may_run(kind)} | {kind.numbered_by if kind.numbered_by in MARKS else ""}
        groups: list[list[Entry]] = []
        for entry in entries:
            own = {name: value for name, value in self.meant(entry).items() if name not in runs}
            last = groups[-1][-1] if groups else None
            mark = entry["set"].get(kind.numbered_by)
            if (
                last is not None
                and own == {n: v for n, v in self.meant(last).items() if n not in runs}
                and (kind.numbered_by not in MARKS or mark_after(last["set"].get(kind.numbered_by) or "") == mark)
            ):
                groups[-1].append(entry)
            else:
                groups.append([entry])
        return groups

    def _without_place(self, kind: Kind, values: dict[str, Any]) -> dict[str, Any]:
        """What need not be typed where a hole that is there is used."""
        if kind.name != "fixing" or not values.get("hold"):
            return values
        with open_book(self.folder) as book:
            hold = book.item(values["hold"])[1]
        there = all(values[name] == hold[name] for name in PLACE)
        return {name: value for name, value in values.items() if not there or name not in PLACE}

    @staticmethod
    def _runs(kind: Kind, rows: list[dict[str, Any]]) -> dict[str, str]:
        found = {}
        for field in may_run(kind) if len(rows) > 1 else ():
            figures = [row.get(field.name) for row in rows]
            if len(set(figures)) > 1:
                found[field.name] = as_run(field, figures)
        return found

    def _note_last(self, kind: Kind, entries: list[Entry]) -> None:
        """Remember what ids the latest of a kind got, in the order they were entered."""
        if refused := self.page.locator("#refused, .not-taken").all():
            raise AssertionError(f"{kind.name}: {refused[0].inner_text()}")
        with open_book(self.folder) as book:
            made = sorted(item["id"] for item in book.items(kind.name))[-len(entries) :]
        self.ids |= {entry["item"]: item for entry, item in zip(entries, made, strict=True)}

    def _begin(self, kind: Kind, values: Mapping[str, Any]) -> None:
        """Open a form that begins like the one of its kind that spares most, where one spares something."""
        super()._begin(kind, values)
        self._begin_like(kind, values)

    def _begin_like(self, kind: Kind, values: Mapping[str, Any]) -> None:
        offered = self.page.locator("form.like option").evaluate_all("all => all.map(one => one.value).filter(Boolean)")
        if not offered:
            return
        stands = self.page.locator("form.entry").evaluate(STANDS)
        own = [one for one in kind.asked if one.copied and one.name in stands and one.name not in AROUND]
        meant = {one: _stood(one, values.get(one.name)) for one in own}
        cost = {one: len(values.get(one.name) or []) if one.type is Type.ROWS else 1 for one in own}
        with open_book(self.folder) as book:
            others = {one["id"]: one for one in book.items(kind.name) if one["id"] in offered}

        def left(other: str) -> int:
            return sum(cost[one] for one in own if _stood(one, others[other].get(one.name)) != meant[one])

        there = {one: sorted(text) if isinstance(text := stands[one.name], list) else text for one in own}
        best = min(others, key=left)
        chosen = self.page.locator("form.like select").input_value()
        now, then = sum(cost[one] for one in own if there[one] != meant[one]), left(best)
        if now - then > LEAST_SPARED and best != chosen:
            with self.page.expect_navigation():
                self.typist.choose(self.page.locator("form.like select"), best)


def _stood(field: Field, value: Any) -> Any:
    return sorted(value or []) if field.type in TICKED else typed(field, value)


def as_run(field: Field, figures: list[Any]) -> str:
    """Figures as they are typed in a row."""
    words = [NONE if figure is None else typed(field, figure) for figure in figures]
    text = " ".join(words)
    return text if figures_in(field, text) else " / ".join(words)
