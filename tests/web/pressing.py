"""What a browser sends when somebody fills in a form of a page, more or less, and presses one of its buttons."""

from __future__ import annotations

import random
from collections.abc import Mapping, Sequence
from io import BytesIO
from typing import Any
from urllib.parse import urldefrag, urljoin

from lxml import html
from lxml.html import FormElement, HtmlElement

from demo_site import letters
from tests.sites import picture

# fmt: off
TYPED = {
    "date": ("2026-05-31",), "datetime-local": ("2026-05-31T14:30",), "number": ("7", "120"), "decimal": ("7", "2.5"),
    "text": ("Ash", "3", "120.5", "2026-05-31", "100 200; 900 200; 900 800"),
    "textarea": ("Ash", "100 200\n900 200\n900 800\n100 800", "mark\tx\tz\nD9.1\t100\t200", "20 1800\n40 2000"),
}
# By the ending that a page asks for.
FILES = {
    "csv": (b"when,rh\n2026-05-01 10:00,50\n2026-05-02 10:00,61\n", b"mark,x,z\nD9.1,100,200\n", b"\xff\xfe\x00"),
    "jsonl": (b'{"fieldbook": 1}\n{"end": 1}\n',),
    "": (picture(), picture(form="PNG"), picture(form="PNG")[:50], letters.pdf(("As drawn.",)), b""),
}
# fmt: on
FILLED, CHANGED, SENT = 0.5, 0.1, 0.8  # of what is blank, of what is not, of the files that are asked for
FITTING = 0.8  # of what is filled in: something that a field of this name holds elsewhere


class Press:
    """A form sent: method, address, and its fields and files as Werkzeug's client takes them.

    page   the address it stands at
    known  field -> what is typed in fields of this name
    """

    def __init__(self, form: FormElement, page: str, known: Mapping[str, Sequence[str]], chance: random.Random):
        buttons = [one for one in form.iter("button") if one.get("type", "submit") == "submit"]
        button = chance.choice([*buttons, None])
        action = (button.get("formaction") if button is not None else None) or form.get("action") or page
        self.method = form.method
        self.address = urldefrag(urljoin(page, action)).url
        self.fields: dict[str, list[Any]] = {}
        for control in form.inputs:
            for value in _sent(control, known.get(control.name or "", ()), chance):
                self.fields.setdefault(control.name, []).append(value)
        if button is not None and button.get("name"):
            self.fields.setdefault(button.get("name"), []).append(button.get("value", ""))

    def sent(self) -> dict[str, Any]:
        """For the client: in the address of a GET, in the body of a POST."""
        if self.method == "GET":
            return {"query_string": self.fields}
        return {"data": self.fields, "content_type": "multipart/form-data"}


def press(content: str, page: str, known: Mapping[str, Sequence[str]], chance: random.Random) -> Press | None:
    """One of the forms of a page pressed; the longest one as often as all others."""
    forms = html.document_fromstring(content).forms
    if not forms:
        return None
    longest = max(forms, key=lambda form: len(list(form.inputs)))
    return Press(chance.choice([longest, chance.choice(forms)]), page, known, chance)


def _sent(control: HtmlElement, known: Sequence[str], chance: random.Random) -> list[Any]:
    if not control.name or control.get("disabled") is not None:
        return []
    sort = control.get("type", "text") if control.tag == "input" else control.tag
    if sort in {"checkbox", "radio"}:
        return [control.get("value", "on")] if control.checked != (chance.random() < CHANGED) else []
    if sort == "file":
        asked = control.get("accept", "")
        several = range(chance.choice([1, 1, 3]) if control.get("multiple") is not None else 1)
        return [_file(asked, chance) for _ in several] if chance.random() < SENT else []
    if sort == "hidden":
        return [control.value or ""]
    if sort == "select":
        return _chosen(control, chance)
    if chance.random() >= (CHANGED if control.value else FILLED):
        return [control.value or ""]
    if known and chance.random() < FITTING:
        return [chance.choice(known)]
    return [chance.choice(TYPED.get(control.get("inputmode", sort), TYPED.get(sort, TYPED["text"])))]


def _chosen(control: HtmlElement, chance: random.Random) -> list[str]:
    shown = control.value
    now = sorted(shown) if control.multiple else [shown] if shown else []
    if control.value_options and chance.random() < (CHANGED if now else FILLED):
        return [chance.choice(control.value_options)]
    return now or ([] if control.multiple else [""])


def _file(asked: str, chance: random.Random) -> tuple[BytesIO, str]:
    ending = next((one for one in FILES if one and one in asked), "")
    return BytesIO(chance.choice(FILES[ending])), f"taken.{ending or chance.choice(['jpg', 'png', 'pdf'])}"
