"""The command that does one calculation by hand."""

from __future__ import annotations

import argparse
import json
import sys
from collections.abc import Callable
from typing import Any

from ..errors import WrongUse


def add(command: Callable[[str, Any, str], argparse.ArgumentParser]) -> None:
    """Add the command of this module."""
    calc = command("calc", _calc, "do one calculation by hand: JSON in, JSON out")
    calc.add_argument("name", metavar="NAME", nargs="?", help="left out: lists them")
    calc.add_argument("--keys", action="store_true", help="what it takes, with units and bounds, and an example")


def _calc(given: argparse.Namespace) -> int:
    from ..calculations.catalogue import CALCULATIONS, calculate, calculation_named
    from ..calculations.guide import lines_about

    if given.name is None:
        for name, one in sorted(CALCULATIONS.items()):
            print(f"{name:20}{one.sentence}")
        return 0
    calculation = calculation_named(given.name)
    if given.keys:
        print("\n".join(lines_about(calculation)))
        return 0
    try:
        payload = json.loads(sys.stdin.read())
    except (ValueError, RecursionError) as error:
        remedy = "Give one JSON object on standard input."
        raise WrongUse(f"The input is no JSON: {error}.", remedy, field="input") from None
    print(json.dumps(calculate(given.name, payload), ensure_ascii=False))
    return 0
