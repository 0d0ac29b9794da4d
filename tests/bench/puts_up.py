"""What went up and came down: a face's fittings with their fixings in one act, a field set for all alike."""

from __future__ import annotations

from collections import defaultdict
from itertools import groupby

from fieldbook.book.opening import open_book
from fieldbook.model.kinds import Kind
from tests.bench.by_forms import Entry
from tests.bench.by_runs import ByRuns

PLACE_FITTED = ("fitted_x_mm", "fitted_z_mm")


class PutsUp(ByRuns):
    """Changes many things at a time where they are changed alike."""

    def change(self, kind: Kind, entries: list[Entry]) -> None:
        """A fitting with its fixings in one act; what came down by a field set for all; the rest by its form."""
        up = [entry for entry in entries if entry["set"].get("state") == "fitted"]
        if kind.name == "fixing":
            for _, found in groupby(up, key=self._put_up_with):
                self._put_up(list(found))
        alone: list[Entry] = []
        for _, found in groupby((one for one in entries if not self._stands_so(kind, one)), key=self._said):
            alike = list(found)
            if len(alike) == 1:  # one after the other, as it happened: what went up may have come down
                alone += alike
                continue
            super().change(kind, alone)
            alone = []
            self._set_for_all(kind, alike)
        super().change(kind, alone)

    def cite(self, entries: list[Entry]) -> None:
        """Document by document what rests on it, what is said alike by one tick."""
        by_document: defaultdict[str, list[str]] = defaultdict(list)
        for entry in entries:
            for name, document in self.meant(entry).items():
                by_document[document].append(f"{name} {self.ids[entry['item']]}")
        left = sorted(by_document)  # in the order they were added, and so that of the pages
        self.typist.go(f"/item/{left[0]}")
        with self.page.expect_navigation():
            self.typist.click(self.page.get_by_role("link", name="What rests on it"))
        for number, document in enumerate(left, 1):
            assert document in self.page.url, "the next document is another"
            boxes = self.page.locator("main input[type=checkbox]")
            values = boxes.evaluate_all("all => all.map((box) => box.value)")
            for place, (field, *items) in enumerate(value.split() for value in values):
                if any(f"{field} {item}" in by_document[document] for item in items):
                    self.typist.click(boxes.nth(place))
            self.typist.press("Save and go on to" if number < len(left) else "Save")

    def _said(self, entry: Entry) -> str:
        return str(self.meant(entry))

    def _put_up_with(self, entry: Entry) -> list[str]:
        """What makes one act of several: the face, the day and who."""
        with open_book(self.folder) as book:
            face = book.item(self._fitting_of(entry))[1]["face"]
        return [str(one) for one in (face, entry["set"]["fitted_on"], entry["set"].get("fitted_by"))]

    def _fitting_of(self, fixing: Entry) -> str:
        with open_book(self.folder) as book:
            return str(book.item(self.ids[fixing["item"]])[1]["fitting"])

    def _stands_so(self, kind: Kind, entry: Entry) -> bool:
        values = self.typist_values(kind, self.ids[entry["item"]])
        return all(values.get(name) == value for name, value in self.meant(entry).items())

    def _put_up(self, entries: list[Entry]) -> None:
        """Fittings of one face with their fixings; where it is one fitting, from its own page."""
        fittings = list(dict.fromkeys(map(self._fitting_of, entries)))
        with open_book(self.folder) as book:
            face = book.item(fittings[0])[1]["face"]
        self.typist.go(f"/face/{face}")
        if len(fittings) == 1:
            self.typist.go(f"/item/{fittings[0]}")
            with self.page.expect_navigation():
                self.typist.click(self.page.get_by_role("link", name="Fitted, with its fixings"))
        else:
            for fitting in fittings:
                self.typist.click(self.page.locator(f'input.tick[value="{fitting}"]'))
            self.typist.press("Fitted")
        shared = entries[0]["set"]
        self.typist.write(self.page.locator("[name=fitted_on]"), shared["fitted_on"])
        self.typist.write(self.page.locator("[name=fitted_by]"), shared.get("fitted_by") or "")
        for fitting in fittings:
            self._places(fitting, [entry for entry in entries if self._fitting_of(entry) == fitting])
        for entry in entries:
            values = {name: value for name, value in entry["set"].items() if value is not None}
            for name, value in values.items():
                place = self.page.locator(f'[name="{name}-{self.ids[entry["item"]]}"]')
                if place.count():
                    self.typist.write(place, f"{value:g}" if isinstance(value, float) else str(value))
        if any(entry["set"].get("fitted_x_mm") is None for entry in entries):
            self.typist.choose(self.page.locator("[name=fitted_place]"), "not measured")
        self.typist.press("Save")

    def _places(self, fitting: str, entries: list[Entry]) -> None:
        """Where the fixings of one fitting came to sit, one after the other in the first cell, in the page's order."""
        order = self.page.locator(f'input[data-of="{fitting}"]').evaluate_all("all => all.map((one) => one.name)")
        by_name = {f"{PLACE_FITTED[0]}-{self.ids[entry['item']]}": entry["set"] for entry in entries}
        told = [[by_name[name].get(one) for one in PLACE_FITTED] if name in by_name else [None] for name in order]
        if not any(figure is not None for figures in told for figure in figures):
            return
        words = ["- -" if None in figures else " ".join(f"{one:g}" for one in figures) for figures in told]
        while words[-1] == "- -":
            words.pop()
        first = self.page.locator(f'[name="{order[0]}"]')
        self.typist.write(first, "/".join(words))
        first.dispatch_event("change")

    def _set_for_all(self, kind: Kind, entries: list[Entry]) -> None:
        items = [self.ids[entry["item"]] for entry in entries]
        with open_book(self.folder) as book:
            faces = {book.item(item)[1].get("face") for item in items}
        (face,) = faces if len(faces) == 1 else ("",)
        self.typist.go(f"/face/{face}" if face else f"/site/{self.ids[self.site]}/all/{kind.name}")
        for item in items:
            self.typist.click(self.page.locator(f'input.tick[value="{item}"]'))
        self.typist.press("Set a field for all")
        self.typist.fill(kind, self.meant(entries[0]))
        self.typist.press("Set for all")
