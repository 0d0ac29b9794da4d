"""Reading the JSON that `fieldbook calc` is given, key by key."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ..errors import Missing, NotAChoice, NotANumber, UnknownField, UnsuitableShape, UnsuitableText, shown
from .limits import within

BIGGEST = 1e9
LONGEST = 200


class Inputs:
    """A calculation's payload. Every read names the key; an unknown key is refused at once.

    keys    all keys the calculation takes, required first
    inside  what stands before each key in messages: "layers[2]." for a row of `layers`
    """

    def __init__(self, payload: Any, keys: tuple[str, ...], inside: str = ""):
        if not isinstance(payload, Mapping):
            raise WrongPayload(keys, payload, inside)
        for key in payload:
            if key not in keys:
                raise UnknownField(
                    f"“{key}” is not a key of this calculation.",
                    f"It takes: {', '.join(keys)}.",
                    field=f"{inside}{key}",
                    value=payload[key],
                )
        self._payload = payload
        self._keys = keys
        self._inside = inside

    def name(self, key: str) -> str:
        """The key as messages name it."""
        return self._inside + key

    def has(self, key: str) -> bool:
        """Whether the key was given a value other than null."""
        return self._payload.get(key) is not None

    def get(self, key: str) -> Any:
        """The raw value; Missing when it is not there."""
        if not self.has(key):
            name = self.name(key)
            raise Missing(f"{name} is missing.", f"Give {name}. The keys are: {', '.join(self._keys)}.", field=name)
        return self._payload[key]

    def number(self, key: str, low: float = -BIGGEST, high: float = BIGGEST, unit: str = "") -> float:
        """A finite number between bounds."""
        return within(self.name(key), self.get(key), low, high, unit)

    def number_or(
        self, key: str, default: float | None, low: float = -BIGGEST, high: float = BIGGEST, unit: str = ""
    ) -> float | None:
        """A number, or the default where the key was left out."""
        return self.number(key, low, high, unit) if self.has(key) else default

    def choice(self, key: str, choices: tuple[str, ...]) -> str:
        """One of some words."""
        value = self.get(key)
        if value not in choices:
            name = self.name(key)
            raise NotAChoice(
                f"{name} is {shown(value)}.", f"Choose one of: {', '.join(choices)}.", field=name, value=value
            )
        return value

    def whole(self, key: str, low: int, high: int, unit: str = "") -> int:
        """A whole number between bounds."""
        value = self.number(key, low, high, unit)
        if value != int(value):
            name = self.name(key)
            raise NotANumber(
                f"{name} is {value:g}; it must be a whole number.",
                f"Give {name} as a whole number.",
                field=name,
                value=value,
            )
        return int(value)

    def text(self, key: str) -> str:
        """Text, as it was given."""
        value = self.get(key)
        if not isinstance(value, str):
            name = self.name(key)
            raise UnsuitableText(
                f"{name} is {shown(value)}, which is not text.", f"Give {name} as text.", field=name, value=value
            )
        return value

    def line(self, key: str) -> str:
        """Words on one line, of at most 200 letters."""
        return _line(self.name(key), self.get(key))

    def lines(self, key: str, most: int = 1_000) -> list[str]:
        """A list of lines of words; empty when the key was left out."""
        if not self.has(key):
            return []
        value = _list(self.name(key), self.get(key), 0, most, "lines of words")
        return [_line(f"{self.name(key)}[{place}]", words) for place, words in enumerate(value)]

    def part(self, key: str, keys: tuple[str, ...]) -> Inputs:
        """An object, read like a payload of its own."""
        return Inputs(self.get(key), keys, f"{self.name(key)}.")

    def parts(self, key: str, keys: tuple[str, ...], least: int = 1, most: int = 10_000) -> list[Inputs]:
        """A list of objects, each read like a payload of its own."""
        value = _list(self.name(key), self.get(key), least, most, f"objects with the keys {', '.join(keys)}")
        return [Inputs(part, keys, f"{self.name(key)}[{place}].") for place, part in enumerate(value)]

    def flag(self, key: str, default: bool) -> bool:
        """True or false, or the default where the key was left out."""
        value = self.get(key) if self.has(key) else default
        if not isinstance(value, bool):
            name = self.name(key)
            raise NotAChoice(f"{name} is {shown(value)}.", "Choose true or false.", field=name, value=value)
        return value

    def entries(self, key: str, what: str, most: int = 1_000) -> list[Any]:
        """A list whose entries the check itself reads; empty when the key was left out."""
        return list(_list(self.name(key), self.get(key), 0, most, what)) if self.has(key) else []

    def rows(
        self, key: str, width: int, least: int = 1, most: int = 100_000, unit: str = ""
    ) -> list[tuple[float, ...]]:
        """A list of rows of `width` numbers each, such as [[x, z], ...]."""
        value = _list(self.name(key), self.get(key), least, most, f"rows of {width} numbers, as in [[…], […]]")
        return [self._row(f"{self.name(key)}[{place}]", row, width, unit) for place, row in enumerate(value)]

    def row(self, key: str, width: int, unit: str = "") -> tuple[float, ...]:
        """One row of `width` numbers, such as [x, z]."""
        return self._row(self.name(key), self.get(key), width, unit)

    def numbers(
        self,
        key: str,
        least: int = 1,
        most: int = 100_000,
        low: float = -BIGGEST,
        high: float = BIGGEST,
        unit: str = "",
    ) -> list[float]:
        """A flat list of numbers."""
        value = _list(self.name(key), self.get(key), least, most, "numbers, as in [1, 2, …]")
        return [within(f"{self.name(key)}[{place}]", number, low, high, unit) for place, number in enumerate(value)]

    @staticmethod
    def _row(name: str, row: Any, width: int, unit: str) -> tuple[float, ...]:
        if not isinstance(row, (list, tuple)) or len(row) != width:
            raise NotANumber(
                f"{name} must be {width} numbers.", f"Give {name} as a list of {width} numbers.", field=name, value=row
            )
        return tuple(within(f"{name}[{place}]", number, -BIGGEST, BIGGEST, unit) for place, number in enumerate(row))


class WrongPayload(UnsuitableShape):
    """The payload is not an object of keys and values."""

    def __init__(self, keys: tuple[str, ...], payload: Any, inside: str = ""):
        name = inside.removesuffix(".")
        super().__init__(
            f"{name or 'The input'} is not a JSON object.",
            f"Give an object with the keys: {', '.join(keys)}.",
            field=name or None,
            value=payload,
        )


def _list(name: str, value: Any, least: int, most: int, of: str) -> list[Any] | tuple[Any, ...]:
    if not isinstance(value, (list, tuple)):
        raise UnsuitableShape(f"{name} is no list.", f"Give {least} to {most} {of}.", field=name, value=value)
    if not least <= len(value) <= most:
        count = f"{len(value)} of them"
        raise UnsuitableShape(f"{name} holds {count}.", f"Give {least} to {most} {of}.", field=name, value=count)
    return value


def _line(name: str, value: Any) -> str:
    if not isinstance(value, str) or not value.strip() or len(value) > LONGEST or not value.isprintable():
        raise UnsuitableText(
            f"{name} is {shown(value)}.",
            f"Give {name} as words on one line, at most {LONGEST} letters.",
            field=name,
            value=value,
        )
    return value.strip()
