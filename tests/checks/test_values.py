"""What checks take and give stays as it was made."""

from __future__ import annotations

import dataclasses
import importlib
import inspect
import pkgutil

from fieldbook import checks


def test_every_value_is_fixed_once_it_is_made() -> None:
    """A limit, a leaf or a verdict cannot be changed after it was looked at, so what was worked out from it holds."""
    modules = [
        importlib.import_module(f"{checks.__name__}.{found.name}") for found in pkgutil.iter_modules(checks.__path__)
    ]
    values = {
        kind
        for module in modules
        for _, kind in inspect.getmembers(module, dataclasses.is_dataclass)
        if kind.__module__.startswith(checks.__name__)
    }
    assert len(values) > 5
    assert [kind.__qualname__ for kind in values if not kind.__dataclass_params__.frozen] == []  # type: ignore[attr-defined]
