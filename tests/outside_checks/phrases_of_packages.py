"""Phrases and their meanings out of the tests that three packages bring in their wheels.

Nothing of the packages runs: their source files are found and only read.
pytimeparse 1.1.10 (MIT), recurrent 0.4.1 (BSD), ctparse 0.3.6 (MIT).
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import datetime
from importlib.util import find_spec
from pathlib import Path


@dataclass(frozen=True, slots=True)
class Lasting:
    """An amount of time and its seconds; None where it is no amount."""

    phrase: str
    seconds: float | None


@dataclass(frozen=True, slots=True)
class Recurring:
    """A recurrence and the parts of its rule as the package names them; empty where it is none."""

    phrase: str
    parts: dict[str, str]


@dataclass(frozen=True, slots=True)
class Timed:
    """A phrase said at ``now`` and what it denotes, in the package's notation: Time[]{2018-03-07 12:43 (X/X)}."""

    phrase: str
    now: datetime
    denotes: str


def lastings() -> Iterator[Lasting]:
    """What pytimeparse's tests say of ``timeparse`` called with one text."""
    for call in _calls(_source("pytimeparse", "tests", "testtimeparse.py"), "assertEqual", "assertAlmostEqual"):
        first, wanted = call.args[0], call.args[1]
        if not (isinstance(first, ast.Call) and _name(first.func) == "timeparse" and len(first.args) == 1 and not first.keywords):
            continue
        phrase, seconds = _literal(first.args[0]), _literal(wanted)
        if isinstance(phrase, str) and (seconds is None or isinstance(seconds, int | float)):
            yield Lasting(phrase, seconds)


def recurrings() -> Iterator[Recurring]:
    """What recurrent's list of expressions says of each; those with exceptions to their rule are left out."""
    for node in ast.walk(_source("recurrent", "test.py")):
        if isinstance(node, ast.Assign) and _name(node.targets[0]) == "expressions" and isinstance(node.value, ast.List):
            yield from (found for entry in node.value.elts if (found := _recurring(entry)))


def timed() -> Iterator[Timed]:
    """ctparse's corpus."""
    for node in ast.walk(_source("ctparse", "time", "corpus.py")):
        if isinstance(node, ast.Assign) and _name(node.targets[0]) == "corpus":
            for denotes, now, phrases in ast.literal_eval(node.value):
                yield from (Timed(phrase, datetime.fromisoformat(now), denotes) for phrase in phrases)


def _recurring(entry: ast.expr) -> Recurring | None:
    if not isinstance(entry, ast.Tuple) or not isinstance(phrase := _literal(entry.elts[0]), str):
        return None
    wanted = entry.elts[1]
    if not isinstance(wanted, ast.Call) or _name(wanted.func) != "dict":
        return None
    parts = {keyword.arg or "": _literal(keyword.value) for keyword in wanted.keywords}
    if "freq" not in parts or any(value is None for value in parts.values()):
        return None
    return Recurring(phrase, {name: str(value) for name, value in parts.items()})


def _source(package: str, *place: str) -> ast.Module:
    spec = find_spec(package)
    assert spec is not None, f"{package} is not installed"
    assert spec.origin is not None
    return ast.parse(Path(spec.origin).parent.joinpath(*place).read_text(encoding="utf-8"))


def _calls(tree: ast.Module, *names: str) -> Iterator[ast.Call]:
    return (node for node in ast.walk(tree) if isinstance(node, ast.Call) and _name(node.func) in names)


def _name(node: ast.expr) -> str:
    return node.attr if isinstance(node, ast.Attribute) else node.id if isinstance(node, ast.Name) else ""


def _literal(node: ast.expr) -> object:
    try:
        return ast.literal_eval(node)
    except ValueError:
        return None
