"""Reading the JSON that `fieldbook calc` is given, key by key."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ..errors import Missing, NotAChoice, NotANumber, UnknownField, UnsuitableShape, UnsuitableText, shown
from .limits import within

BIGGEST = 1e9


class Inputs:
    """A calculation's payload. Every read names the key; an unknown key is refused at once.

    keys  all keys the calculation takes, required first
    """

    def __init__(self, payload: Any, keys: tuple[str, ...]):
        if not isinstance(payload, Mapping):
            raise WrongPayload(keys, payload)
        for key in payload:
            if key not in keys:
                raise UnknownField(
                    f"“{key}” is not a key of this calculation.",
                    f"It takes: {', '.join(keys)}.",
                    field=str(key),
                    value=payload[key],
                )
        self._payload = payload
        self._keys = keys

    def has(self, key: str) -> bool:
        """Whether the key was given a value other than null."""
        return self._payload.get(key) is not None

    def get(self, key: str) -> Any:
        """The raw value; Missing when it is not there."""
        if not self.has(key):
            raise Missing(f"{key} is missing.", f"Give {key}. The keys are: {', '.join(self._keys)}.", field=key)
        return self._payload[key]

    def number(self, key: str, low: float = -BIGGEST, high: float = BIGGEST, unit: str = "") -> float:
        """A finite number between bounds."""
        return within(key, self.get(key), low, high, unit)

    def number_or(
        self, key: str, default: float | None, low: float = -BIGGEST, high: float = BIGGEST, unit: str = ""
    ) -> float | None:
        """A number, or the default where the key was left out."""
        return self.number(key, low, high, unit) if self.has(key) else default

    def choice(self, key: str, choices: tuple[str, ...]) -> str:
        """One of some words."""
        value = self.get(key)
        if value not in choices:
            raise NotAChoice(
                f"{key} is {shown(value)}.", f"Choose one of: {', '.join(choices)}.", field=key, value=value
            )
        return value

    def whole(self, key: str, low: int, high: int, unit: str = "") -> int:
        """A whole number between bounds."""
        value = self.number(key, low, high, unit)
        if value != int(value):
            raise NotANumber(
                f"{key} is {value:g}; it must be a whole number.",
                f"Give {key} as a whole number.",
                field=key,
                value=value,
            )
        return int(value)

    def text(self, key: str) -> str:
        """Text, as it was given."""
        value = self.get(key)
        if not isinstance(value, str):
            raise UnsuitableText(
                f"{key} is {shown(value)}, which is not text.", f"Give {key} as text.", field=key, value=value
            )
        return value

    def flag(self, key: str, default: bool) -> bool:
        """True or false, or the default where the key was left out."""
        value = self.get(key) if self.has(key) else default
        if not isinstance(value, bool):
            raise NotAChoice(f"{key} is {shown(value)}.", "Choose true or false.", field=key, value=value)
        return value

    def rows(
        self, key: str, width: int, least: int = 1, most: int = 100_000, unit: str = ""
    ) -> list[tuple[float, ...]]:
        """A list of rows of `width` numbers each, such as [[x, z], ...]."""
        value = self.get(key)
        if not isinstance(value, (list, tuple)) or not least <= len(value) <= most:
            raise UnsuitableShape(
                f"{key} must be a list of {least} to {most} rows of {width} numbers.",
                "Give it as [[…], […]].",
                field=key,
                value=value,
            )
        return [self._row(f"{key}[{place}]", row, width, unit) for place, row in enumerate(value)]

    def row(self, key: str, width: int, unit: str = "") -> tuple[float, ...]:
        """One row of `width` numbers, such as [x, z]."""
        return self._row(key, self.get(key), width, unit)

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
        value = self.get(key)
        if not isinstance(value, (list, tuple)) or not least <= len(value) <= most:
            raise UnsuitableShape(
                f"{key} must be a list of {least} to {most} numbers.", "Give it as [1, 2, …].", field=key, value=value
            )
        return [within(f"{key}[{place}]", number, low, high, unit) for place, number in enumerate(value)]

    @staticmethod
    def _row(name: str, row: Any, width: int, unit: str) -> tuple[float, ...]:
        if not isinstance(row, (list, tuple)) or len(row) != width:
            raise NotANumber(
                f"{name} must be {width} numbers.", f"Give {name} as a list of {width} numbers.", field=name, value=row
            )
        return tuple(within(f"{name}[{place}]", number, -BIGGEST, BIGGEST, unit) for place, number in enumerate(row))


class WrongPayload(UnsuitableShape):
    """The payload is not an object of keys and values."""

    def __init__(self, keys: tuple[str, ...], payload: Any):
        super().__init__(
            "The input is not a JSON object.", f"Give an object with the keys: {', '.join(keys)}.", value=payload
        )
