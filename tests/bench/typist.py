"""A person at the desk who counts: clicks, fields filled in, characters typed.

A press on a link, a button, a heading or a tick is a click; each input or cell that is given another content is a
field, and what is typed into it are its characters. Choosing from a list is a field without characters. Of a word that
an input offers again the first letters are typed, until it alone is left, and it is chosen by a click where that
spares four; one that differs in a piece alone is chosen and that piece typed over, by two clicks, where that spares
thirty. A word that is chosen is typed by its beginning in a cell.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import astuple, dataclass
from pathlib import Path
from typing import Any
from urllib.parse import urljoin, urlsplit

from playwright.sync_api import Locator, Page

from fieldbook.model.fields import Field, Type
from fieldbook.model.kinds import Kind
from fieldbook.model.runs import pieces_of
from fieldbook.model.typed import to_text
from fieldbook.model.written_together import groups_in

CHOSEN = (Type.LINK, Type.CHOICE, Type.YES_NO)
TICKED = (Type.LINKS, Type.CHOICES)


STANDS = """form => {
  const stands = {};
  for (const input of form.querySelectorAll("[name]")) {
    if (input.type === "checkbox") (stands[input.name] ??= []).push(...(input.checked ? [input.value] : []));
    else stands[input.name] = input.value;
  }
  return stands;
}"""
# What is typed of a text that an input offers, and the clicks it takes to choose and to change it.
TYPED_OF = """(input, words) => {
  const own = input.nextElementSibling?.matches?.("select.said-before") ? input.nextElementSibling : null;
  const offered = [...((own ?? input.list)?.options ?? [])].map((one) => one.value).filter(Boolean);
  const has = (other, piece) => other.toLowerCase().includes(piece.toLowerCase());
  const left = (one, letters) => offered.filter((other) => has(other, one.slice(0, letters)));
  const until = (one) => {
    let letters = 0;
    while (!own && letters < one.length && left(one, letters).length > 1) letters += 1;
    return letters;
  };
  if (offered.includes(words)) return until(words) + 4 < words.length ? [until(words), 1] : [words.length, 0];
  let [letters, clicks] = [words.length, 0];
  for (const one of offered) { // chosen, and the piece in which it differs typed over
    const most = Math.min(one.length, words.length);
    let [before, after] = [0, 0];
    while (before < most && one[before] === words[before]) before += 1;
    while (after < most - before && one.at(-1 - after) === words.at(-1 - after)) after += 1;
    const typed = until(one) + words.length - before - after;
    if (typed + 30 < words.length && typed < letters) [letters, clicks] = [typed, 2];
  }
  return [letters, clicks];
}"""
FILL_CELLS = (Path(__file__).parent / "fill_cells.js").read_text(encoding="utf-8").replace("TYPED_OF", TYPED_OF)
FILL_GRID = """(text, lines) => {
  let [fields, characters] = [0, 0];
  const cells = (down) => [...text.nextElementSibling.rows[down].querySelectorAll("input")];
  const type = (cell, words) => {
    cell.value = words;
    for (const told of ["input", "change"]) cell.dispatchEvent(new Event(told, { bubbles: true }));
  };
  lines.forEach((line, down) => {
    const from = down ? 0 : 1, meant = line.slice(from); // the corner takes nothing
    for (const between of [" ", "/"]) { // as one line, which parts by itself
      const whole = meant.join(between);
      type(cells(down)[from], whole);
      if (meant.every((words, at) => cells(down)[from + at].value === words)) {
        fields += 1;
        characters += whole.length;
        return;
      }
    }
    meant.forEach((words, at) => {
      type(cells(down)[from + at], words);
      fields += 1;
      characters += words.length;
    });
  });
  return [0, fields, characters];
}"""


@dataclass
class Count:
    """What something cost."""

    clicks: int = 0
    fields: int = 0
    characters: int = 0

    def __add__(self, other: Count) -> Count:
        return Count(*(one + more for one, more in zip(astuple(self), astuple(other), strict=True)))

    def __sub__(self, other: Count) -> Count:
        return Count(*(one - less for one, less in zip(astuple(self), astuple(other), strict=True)))


class Typist:
    """Works at one page of a browser, and counts.

    of_field  name of a field -> what it cost
    by_keys  whether Enter leads to the next row, and readings of a surface are entered as a grid
    """

    def __init__(self, page: Page, site: Callable[[], str], by_keys: bool = False):
        self.page, self.site, self.count, self.by_keys = page, site, Count(), by_keys
        self.of_field: defaultdict[str, Count] = defaultdict(Count)

    def click(self, place: Locator) -> None:
        """Press something."""
        self._in_sight(place)
        place.click()
        self.count.clicks += 1

    def press(self, words: str) -> None:
        """Press a button by its words, and wait for the page that comes of it."""
        with self.page.expect_navigation():
            self.click(self.page.locator("main button").filter(has_text=words).first)

    def go(self, address: str) -> None:
        """Come to a page: by a link that is there, else by way of the page of the site."""
        if urlsplit(self.page.url).path == urlsplit(address).path and "?" not in address:
            return
        if not self._follow(address):
            self._follow(f"/site/{self.site()}")
            if not self._follow(address):  # two steps away: what it lies in, then itself
                self.count.clicks += 2
                self.page.goto(urljoin(self.page.url, address))

    def _follow(self, address: str) -> bool:
        link = self.page.locator(f'main a[href="{address}"]:not(svg *), nav a[href="{address}"]').first
        if not link.count():
            return False
        self._in_sight(link)
        with self.page.expect_navigation():
            link.click()
        self.count.clicks += 1
        return True

    def _in_sight(self, place: Locator) -> None:
        """Open the headings something is folded under."""
        while not place.is_visible():
            fold = place.locator("xpath=ancestor::details[not(@open)][1]")
            if not fold.count():
                return
            fold.last.locator("summary").first.click()
            self.count.clicks += 1

    def write(self, place: Locator, text: str) -> None:
        """Let an input hold a text, unless it does."""
        if place.input_value() == text:
            return
        self._in_sight(place)
        letters, chosen = place.evaluate(TYPED_OF, text)
        place.fill(text)
        self._add(place.get_attribute("name") or "", Count(chosen, 1, letters))

    def _add(self, name: str, cost: Count) -> None:
        self.count += cost
        self.of_field[name.partition("-")[0]] += cost

    def choose(self, place: Locator, value: str) -> None:
        """Choose from a list, unless that is chosen."""
        if place.input_value() != value:
            self._in_sight(place)
            place.select_option(value)
            self._add(place.get_attribute("name") or "", Count(0, 1))

    def tick(self, boxes: Locator, values: Sequence[str]) -> None:
        """Let these boxes be ticked and no others; several of a long list by their marks."""
        by_marks = boxes.locator("xpath=ancestor::fieldset[1]").first.locator(".by-marks input")
        new = [box for box in boxes.all() if box.get_attribute("value") in values and not box.is_checked()]
        if self.by_keys and len(new) > 1 and by_marks.count():
            marks = [box.locator("xpath=..").text_content() or "" for box in new]
            text = " ".join(words.split()[0] for words in marks)
            self._in_sight(by_marks)
            by_marks.fill(text)
            by_marks.dispatch_event("change")
            self._add(boxes.first.get_attribute("name") or "", Count(0, 1, len(text)))
        for box in boxes.all():
            if box.is_checked() != (box.get_attribute("value") in values):
                self.click(box)

    def cells(self, text: Locator, lines: Sequence[Sequence[str]], columns: Sequence[str] = ()) -> None:
        """Fill the small table that stands for a text, from its first row on; `columns` where each is a field."""
        name = text.get_attribute("name") or ""
        table = text.locator("xpath=following-sibling::table[1]")
        if not table.count():
            self.write(text, "\n".join("; ".join(line) for line in lines))
            return
        as_last = "grid" in (table.get_attribute("class") or "")
        if as_last and text.input_value():  # booked already, and stands in another way than lines
            return
        self._in_sight(table)
        if as_last and not as_grid(lines):
            if lines:
                self.click(text.locator("xpath=following-sibling::button").filter(has_text="Enter row by row"))
            as_last = False
        if as_last:
            self._add(name, Count(*text.evaluate(FILL_GRID, as_grid(lines))))
            return
        begin = text.locator("xpath=following-sibling::button").filter(has_text="Enter as a grid")
        if self.by_keys and begin.count() and (grid := as_grid(lines)):
            self.click(begin)
            self._add(name, Count(*text.evaluate(FILL_GRID, grid)))
        else:
            clicks, *each = text.evaluate(FILL_CELLS, [[list(line) for line in lines], self.by_keys])
            self.count.clicks += clicks
            for place, (fields, characters) in enumerate(zip(*each, strict=True)):
                self._add(columns[place] if columns else name, Count(0, fields, characters))

    def fill(
        self, kind: Kind, values: Mapping[str, Any], form: str = "form.entry", runs: Mapping[str, str] | None = None
    ) -> None:
        """Let a form show these values, and nothing in the other fields that it shows in the open.

        runs  name of a field -> the figures it has for several things
        """
        own = dict(runs or {})
        for group in groups_in(kind.asked):
            self._together(kind, group, values, own, form)
        for name, text in own.items():
            self.write(self.page.locator(f"{form} [name={name}]"), text)
        left = [field for field in kind.asked if field.name not in (runs or {})]
        for _ in range(2):  # what follows from what was entered is looked at again
            stands = self.page.locator(form).evaluate(STANDS)
            for field in left:
                there = stands.get(field.name)
                there = sorted(there) if isinstance(there, list) else there
                meant = _as_it_would_stand(field, values.get(field.name))
                if there is not None and there != meant:
                    self._enter(field, self.page.locator(f"{form} [name={field.name}]"), values.get(field.name))

    def _together(
        self, kind: Kind, group: Sequence[Field], values: Mapping[str, Any], runs: dict[str, str], form: str
    ) -> None:
        """Figures of several inputs typed into the first, where that spares something; the rest of `runs` is left."""
        inputs = [self.page.locator(f"{form} [name={field.name}]") for field in group]
        if not all(one.count() for one in inputs):
            return
        meant = [
            pieces_of(field, runs[field.name]) if field.name in runs else [typed(field, values.get(field.name))]
            for field in group
        ]
        before = [one.input_value() for one in inputs]
        if len({len(one) for one in meant}) > 1 or not all(map(all, meant)):
            return
        if sum(was != " / ".join(figures) for was, figures in zip(before, meant, strict=True)) < 2:
            return
        for between in (" ", ";", " / "):
            whole = "/".join(between.join(figures) for figures in zip(*meant, strict=True))
            self._in_sight(inputs[0])
            inputs[0].fill(whole)
            inputs[0].dispatch_event("change")
            if [one.input_value() for one in inputs] == [" / ".join(figures) for figures in meant]:
                self._add(group[0].name, Count(0, 1, len(whole)))
                for field in group:
                    runs.pop(field.name, None)
                return
            for one, was in zip(inputs, before, strict=True):
                one.fill(was)

    def _enter(self, field: Field, inputs: Locator, value: Any) -> None:
        if field.type in TICKED:
            self.tick(inputs, value or [])
        elif field.type in CHOSEN:
            self.choose(inputs.first, to_text(field, value))
        elif field.type is Type.ROWS:
            self.cells(inputs.first, [[to_text(one, cell) for one, cell in pairs(field, row)] for row in value or []])
        else:
            self.write(inputs.first, typed(field, value))


def as_grid(lines: Sequence[Sequence[str]]) -> list[list[str]]:
    """Readings as they are booked, the places along the top and the heights at the side; [] where one is lacking."""
    along, up = (list(dict.fromkeys(line[at] for line in lines)) for at in (0, 1))
    read = {(x, z): figure for x, z, figure in lines}
    if len(read) != len(along) * len(up) or len(up) < 2:
        return []
    return [["", *along], *([z, *(read[x, z] for x in along)] for z in up)]


def _as_it_would_stand(field: Field, value: Any) -> Any:
    return sorted(value or [], key=str) if field.type in TICKED else typed(field, value)


def pairs(field: Field, row: Sequence[Any]) -> list[tuple[Field, Any]]:
    """The cells of a row with their columns."""
    return list(zip(field.columns, row, strict=True))


def letters(field: Field, value: Any) -> int:
    """How many characters a person types for a value; none for what is chosen or ticked."""
    return 0 if field.type in (*CHOSEN, *TICKED) else len(typed(field, value))


def typed(field: Field, value: Any) -> str:
    """What a person types: of an upright rectangle its corner and size; a moment by this machine's clock."""
    if field.type is Type.OUTLINE and value and len(value) == 4:
        (x, z), (right, _), (_, top), _ = value
        if value == [[x, z], [right, z], [right, top], [x, top]]:
            return f"{x:g} {z:g} {right - x:g}×{top - z:g}"
    if field.type is Type.MOMENT and value:
        return str(value)[:16].replace("T", " ")
    return to_text(field, value)
