"""The same job with what the desk offers for several things: rows, a fitting put up in one act, a field set for all."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Mapping
from itertools import groupby
from typing import Any
from urllib.parse import urlsplit

from fieldbook.book.opening import open_book
from fieldbook.book.placed import PLACE
from fieldbook.model.fields import Field, Type
from fieldbook.model.kinds import Kind
from fieldbook.model.order import counting
from fieldbook.model.runs import figures_in
from fieldbook.web.pages.photographs import OWN
from tests.bench.by_forms import NOT_TYPED, Entry, taken
from tests.bench.puts_up import PutsUp
from tests.bench.typist import CHOSEN, Count, typed

# Forms, each like the one before.
ONE_BY_ONE = {"fixing", "reading", "observation", "finish", "room", "limit", "agreement", "decision"}
BY_THE_ROW = {"hold", "cost", "member", "task", "visit", "material", "zone"}
SHARED = {"zone": (), "hold": ()}
OF_A_SERIES = ("room", "face", "quantity", "instrument")
FEWEST = 3
FEWEST_FORMS = 6  # that are entered by the row instead
DITTO = '"'
OF_A_CORNER = {"start_x_mm": 100, "start_y_mm": 100, "bearing_deg": 3}


class AtOnce(PutsUp):
    """By the row where there are three of a kind; what is left as with forms alone."""

    by_keys = True

    def enter(self, kind: Kind, entries: list[Entry]) -> None:
        """New items of one kind."""
        if kind.name == "face":
            self._from_the_plan(kind, entries)
            return
        if kind.name == "photograph":
            self._photographs(kind, entries)
            return
        if kind.name in ONE_BY_ONE:
            self._series(kind, entries)
            return
        if kind.name not in BY_THE_ROW:
            super().enter(kind, entries)
            return
        shared = SHARED.get(kind.name, ("face",) if "face" in kind.by_name else ())
        in_order = sorted(entries, key=lambda entry: [str(entry["set"].get(name)) for name in shared])
        if kind.name in SHARED:  # as their marks count, so that none but the first is typed
            in_order.sort(key=lambda entry: counting(entry["set"]["mark"]))
        for _, found in groupby(in_order, key=lambda entry: [entry["set"].get(name) for name in shared]):
            group = list(found)
            if len(group) < FEWEST:
                super().enter(kind, group)
            else:
                self._by_the_row(kind, group)

    def _series(self, kind: Kind, entries: list[Entry]) -> None:
        """Forms, each like the one before; a long series by the row."""
        if kind.name != "reading":
            self._forms(kind, entries)
            return
        in_order = sorted(
            entries, key=lambda entry: [str(entry["set"].get(one.name)) for one in kind.asked if one.copied]
        )
        alone, long = [], []
        for _, found in groupby(in_order, key=lambda entry: [entry["set"].get(name) for name in OF_A_SERIES]):
            series = list(found)
            if len(self._alike(kind, series)) < FEWEST_FORMS:
                alone += series
            else:
                long.append(series)
        self._forms(kind, alone)
        for number, series in enumerate(long):
            self._by_the_row(kind, series, begun=number > 0, goes_on=number + 1 < len(long))

    def _photographs(self, kind: Kind, entries: list[Entry]) -> None:
        """All that one person took in one form, with what is said of each beside it."""
        numbers = {entry["item"]: number for number, entry in enumerate(entries)}

        def shared(entry: Entry) -> dict[str, Any]:
            return {name: value for name, value in self.meant(entry).items() if name not in (*OWN, "taken_at")}

        for _, found in groupby(sorted(entries, key=lambda entry: str(shared(entry))), key=shared):
            group = list(found)
            values = [self.meant(entry) for entry in group]
            usual = {"purpose": Counter(each["purpose"] for each in values).most_common(1)[0][0]}
            common = shared(group[0]) | usual | {"subject": values[0]["subject"]}
            self._begin(kind, values[0])
            self.page.locator("#files").set_input_files(
                [
                    {"name": f"{at}.jpg", "mimeType": "image/jpeg", "buffer": taken(numbers[entry["item"]], each)}
                    for at, (entry, each) in enumerate(zip(group, values, strict=True))
                ]
            )
            self.typist.count.clicks += 3 if len(group) > 1 else 2  # the first and the last in the picker of files
            self.typist.fill(kind, common)
            for line, each in zip(self.page.locator("ol.each li").all(), values, strict=True):
                each = dict(each)
                if all(one in each for one in PLACE):  # both into the first
                    each[PLACE[0]] = "; ".join(typed(kind.by_name[one], each.pop(one)) for one in PLACE)
                for name in OWN:
                    if each.get(name, "") != common.get(name, ""):
                        field, place = kind.by_name[name], line.locator(f"[name=each-{name}]")
                        write = self.typist.choose if field.type in CHOSEN else self.typist.write
                        write(place, each[name] if isinstance(each[name], str) else typed(field, each[name]))
            self.typist.press("Add")
            self._note_last(kind, group)

    def _by_the_row(self, kind: Kind, group: list[Entry], begun: bool = False, goes_on: bool = False) -> None:
        """All in one table; `begun` where the page shows one, `goes_on` where another of the kind comes after it."""
        values = [self.meant(entry) for entry in group]
        differ = [one for one in kind.asked if len({str(row.get(one.name)) for row in values}) > 1]
        columns = [one.name for one in differ if one.type is not Type.ROWS]
        assert len(columns) == len(differ), "a table in a cell"
        common = {name: value for name, value in values[0].items() if name not in columns}
        if not begun:
            super()._begin(kind, values[0])
            with self.page.expect_navigation():
                self.typist.click(self.page.get_by_role("link", name="Several at once"))
        boxes = self.page.locator("input[type=checkbox][name=columns]")
        shown = boxes.evaluate_all("all => all.filter(box => box.checked).map(box => box.value)")
        there = boxes.evaluate_all("all => all.map(box => box.value)")
        if len(set(shown) ^ set(columns)) > FEWEST and not any(common.get(name) for name in there):
            self.typist.press("Show all columns")
            columns = there
        elif shown != columns:
            self.typist.tick(boxes, columns)
            self.typist.press("Show these columns")
        self._begin_like(kind, common)
        self.typist.fill(kind, common)
        steps = self._steps(kind, columns, values)
        lines: list[list[str]] = []
        for number, row in enumerate(values):
            above = values[number - 1] if number else {}
            lines.append([self._cell(kind, name, row, above, steps) for name in columns])
        self.typist.cells(self.page.locator("#rows"), self._as_one(kind, columns, lines), columns)
        for name, step in steps.items():
            self.typist.write(self.page.locator(f"form.entry [name=step-{name}]"), step)
        self.typist.press("Save all and enter more like them" if goes_on else "Save all")
        self._note_last(kind, group)

    @staticmethod
    def _as_one(kind: Kind, columns: list[str], lines: list[list[str]]) -> list[list[str]]:
        """One row with runs, where the rows differ in figures alone or count on."""
        fields = [kind.by_name[name] for name in columns]
        first = []
        for place, field in enumerate(fields):
            cells = [line[place] for line in lines]
            if field.type in {Type.NUMBER, Type.WHOLE}:
                figures = [next(one for one in reversed(cells[: at + 1]) if one != DITTO) for at in range(len(cells))]
                first.append(" ".join(figures))
                if not all(figures) or figures_in(field, first[-1]) != figures:
                    return lines
            elif any(cell not in ("", DITTO) for cell in cells[1:]):
                return lines
            else:
                first.append(cells[0])
        return [first]

    def _save_all(self, kind: Kind, words: str) -> None:
        self.typist.press(words)
        if refused := self.page.locator(".not-taken").all():
            raise AssertionError(f"{kind.name}: {refused[0].inner_text()}")

    @staticmethod
    def _steps(kind: Kind, columns: list[str], values: list[dict[str, Any]]) -> dict[str, str]:
        """What moments of a series count on by: a week here."""
        from datetime import datetime, timedelta

        if "at" not in columns or kind.by_name["at"].type is not Type.MOMENT:
            return {}
        at = [datetime.fromisoformat(row["at"]).replace(tzinfo=None) for row in values]
        weekly = all(later - one == timedelta(days=7) for one, later in zip(at, at[1:], strict=False))
        return {"at": "7 d"} if weekly else {}

    def _cell(
        self, kind: Kind, name: str, row: Mapping[str, Any], above: Mapping[str, Any], steps: Mapping[str, str]
    ) -> str:
        field, value, last = kind.by_name[name], row.get(name), above.get(name)
        if value is None or (above and name in steps) or (above and name == "mark" and _goes_on(last, value)):
            return ""
        if value == last:
            return DITTO
        if field.type is Type.LINK:
            with open_book(self.folder) as book:
                return str(book.item(value)[1].get("mark") or value)
        if field.type is Type.LINKS:
            with open_book(self.folder) as book:
                return ", ".join(str(book.item(one)[1].get("mark") or one) for one in value)
        if field.type is Type.CHOICES:
            return ", ".join(value)
        return _below(field, typed(field, value), typed(field, last)).replace("\n", " / ")

    def _from_the_plan(self, kind: Kind, entries: list[Entry]) -> None:
        """The walls of each room in one act, and what each is made of on its own form; what is no wall by itself."""
        left = []
        for room, found in groupby(entries, key=lambda entry: entry["set"]["room"]):
            group = list(found)
            self.typist.go(self.page_of(self.ids[room]))
            with self.page.expect_navigation():
                self.typist.click(self.page.get_by_role("link", name="Walls from the plan"))
            boxes = self.page.locator("input[type=checkbox][name=columns]:checked")
            columns = boxes.evaluate_all("all => all.map(box => box.value)")
            shown = [line.split("; ") for line in self.page.locator("#rows").input_value().splitlines()]
            rows, walls = [], []
            for line in shown:
                there = dict(zip(columns, line, strict=True))
                wall = next((one for one in group if one not in walls and _starts_there(one["set"], there)), None)
                if wall is not None:
                    walls.append(wall)
                    rows.append([typed(kind.by_name[name], wall["set"].get(name)) for name in columns])
            left += [one for one in group if one not in walls]
            self.typist.cells(self.page.locator("#rows"), rows, columns)
            self._save_all(kind, "Save all and go through them" if walls else "Save all")
            with open_book(self.folder) as book:
                made = sorted(item["id"] for item in book.items(kind.name))[-len(walls) :]
            self.ids |= {entry["item"]: item for entry, item in zip(walls, made, strict=True)}
            self._one_after_the_other(kind, walls)
        super().enter(kind, left)

    def _one_after_the_other(self, kind: Kind, entries: list[Entry]) -> None:
        """The forms of these as each leads on to the next, from the first on, which is open."""
        values = {self.ids[entry["item"]]: self.meant(entry) for entry in entries}
        while values:
            item = urlsplit(self.page.url).path.split("/")[2]
            self.typist.fill(kind, self.typist_values(kind, item) | values.pop(item))
            self.typist.press("Save and go on to" if values else "Save")


def _starts_there(values: Mapping[str, Any], row: Mapping[str, str]) -> bool:
    """Whether a face is the wall that a row of the plan's walls is about."""
    return values["sort"] == "wall" and all(
        abs(values[name] - float(row[name].replace(",", ""))) <= OF_A_CORNER[name] for name in OF_A_CORNER
    )


def _below(field: Field, text: str, above: str) -> str:
    """What is typed of a day or a moment below another: its year is typed once, and its day."""
    if field.type is Type.MOMENT and above[:10] == text[:10]:
        return text[11:]
    if field.type is Type.DATE and above[:4] == text[:4]:
        return f"{text[8:]}.{text[5:7]}."
    return text


def _goes_on(last: Any, mark: Any) -> bool:
    """Whether a mark is the next after another, so that it need not be typed."""
    one, other = (re.fullmatch(r"(.*?)(\d+)", str(each)) for each in (last, mark))
    return bool(one and other and one[1] == other[1] and int(one[2]) + 1 == int(other[2]))


__all__ = ["NOT_TYPED", "AtOnce", "Count"]
