"""The house itself: what its files are called, how long they are, what they import and what importing them does."""

from __future__ import annotations

import ast
import json
import re
import subprocess
import sys
from collections.abc import Iterator
from functools import cache
from importlib.metadata import PackageNotFoundError, distribution
from pathlib import Path

import pytest
from packaging.requirements import Requirement

ROOT = Path(__file__).resolve().parent.parent
SOURCES = sorted(path.relative_to(ROOT) for top in ("bot", "storage") for path in (ROOT / top).rglob("*.py"))
TESTS = sorted(path.relative_to(ROOT) for path in (ROOT / "tests").rglob("*.py"))
PURE = ("bot/rules/", "bot/language/", "bot/voice/")
# Alembic runs this one inside a migration; nobody imports it.
RUN_ONLY = {Path("storage/migrations/env.py")}
CLOCK_CALLS = {"now", "today", "utcnow", "monotonic", "perf_counter", "time_ns"}
NAMES_THAT_SAY_NOTHING = {"utils", "util", "helpers", "helper", "manager", "managers", "base", "common", "misc"}
MOST_LINES = 300


@cache
def tree(path: Path) -> ast.Module:
    """The syntax tree of a file of this house."""
    return ast.parse((ROOT / path).read_text(encoding="utf-8"))


def module_name(path: Path) -> str:
    """The name a file is imported by."""
    return ".".join(path.with_suffix("").parts).removesuffix(".__init__")


def imports(path: Path) -> Iterator[str]:
    """The full name of everything that a file imports, wherever in it."""
    for node in ast.walk(tree(path)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path} imports relatively"
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def is_under(name: str, *packages: str) -> bool:
    """Whether a full name lies in one of the packages."""
    return any(name == package or name.startswith(f"{package}.") for package in packages)


def of_the_house(name: str) -> bool:
    return is_under(name, "bot", "storage")


def of_python(name: str) -> bool:
    return name.partition(".")[0] in sys.stdlib_module_names


def public_functions(body: list[ast.stmt], inside: str = "") -> Iterator[tuple[str, ast.FunctionDef | ast.AsyncFunctionDef]]:
    """Functions and methods that others may call, with their names."""
    for node in body:
        if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
            yield from public_functions(node.body, f"{inside}{node.name}.")
        elif isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef) and not node.name.startswith("_"):
            yield f"{inside}{node.name}", node


def test_the_house_is_here() -> None:
    assert len(SOURCES) > 30
    assert Path("storage/records/week.py") in SOURCES


def test_no_file_is_longer_than_three_screens() -> None:
    lengths = {str(path): len((ROOT / path).read_text(encoding="utf-8").splitlines()) for path in SOURCES}

    assert {path: lines for path, lines in lengths.items() if lines > MOST_LINES} == {}


def test_no_file_or_folder_has_a_name_that_says_nothing() -> None:
    words = {str(path): {word for part in path.with_suffix("").parts for word in part.split("_")} for path in SOURCES + TESTS}

    assert {path for path, said in words.items() if said & NAMES_THAT_SAY_NOTHING} == set()


def test_every_module_and_every_public_function_says_what_it_gives() -> None:
    silent = [
        f"{path} {name}" for path in SOURCES for name, function in public_functions(tree(path).body) if ast.get_docstring(function) is None
    ]
    silent += [str(path) for path in SOURCES if tree(path).body and ast.get_docstring(tree(path)) is None]

    assert silent == []


def test_rules_language_and_voice_never_ask_what_time_it_is() -> None:
    asked = [
        f"{path}:{node.lineno}"
        for path in SOURCES
        if path.as_posix().startswith(PURE)
        for node in ast.walk(tree(path))
        if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr in CLOCK_CALLS
    ]

    assert asked == []


def test_rules_language_and_voice_import_little() -> None:
    allowed = ("storage.records", "dateutil", "rapidfuzz", "bot.rules", "bot.language", "bot.voice")
    strangers = {
        (str(path), name)
        for path in SOURCES
        if path.as_posix().startswith(PURE)
        for name in imports(path)
        if not of_python(name) and not is_under(name, *allowed)
    }

    assert strangers == set()


def test_records_import_the_standard_library_only() -> None:
    records = [path for path in SOURCES if path.as_posix().startswith("storage/records/")]
    found = {name for path in records for name in imports(path) if not of_python(name) and not is_under(name, "storage.records")}

    assert records
    assert found == set()


def test_only_the_telegram_channel_knows_telegram() -> None:
    knowing = {path.as_posix() for path in SOURCES for name in imports(path) if is_under(name, "telegram")}

    assert {path for path in knowing if not path.startswith("bot/channels/telegram")} == set()


def test_only_storage_has_sql() -> None:
    knowing = {path.parts[0] for path in SOURCES for name in imports(path) if is_under(name, "sqlalchemy", "sqlite3", "alembic")}

    assert knowing <= {"storage"}


def test_importing_any_module_opens_nothing_and_reads_nothing_from_the_environment() -> None:
    strangers = sorted({name for path in SOURCES for name in imports(path) if not of_the_house(name)})
    modules = [module_name(path) for path in SOURCES if path not in RUN_ONLY]

    watched = subprocess.run(
        [sys.executable, "-B", "-c", WATCH],
        input=json.dumps([strangers, [name for name in modules if all(part.isidentifier() for part in name.split("."))]]),
        capture_output=True,
        text=True,
        cwd=ROOT,
        timeout=120,
        check=False,
    )

    assert watched.returncode == 0, watched.stderr
    assert json.loads(watched.stdout) == []


# What others import is loaded first: what they do then is theirs. Python's own
# reading of source files is an import; reading anything else is not.
WATCH = r"""
import importlib, json, os, sys

strangers, modules = json.load(sys.stdin)
sys.path.insert(0, os.getcwd())
for name in strangers:
    try:
        importlib.import_module(name)
    except ImportError:
        importlib.import_module(name.rpartition(".")[0])

seen, current, watching = [], "", False
QUIET = ("socket.", "subprocess.", "os.system", "os.exec", "os.posix_spawn", "os.mkdir", "os.remove", "os.rename", "sqlite3.", "urllib.")

def watch(event, arguments):
    if not watching:
        return
    if event == "open" and not str(arguments[0]).endswith((".py", ".pyc")):
        seen.append([current, "open", str(arguments[0])])
    elif event.startswith(QUIET):
        seen.append([current, event, ""])

class Watching(dict):
    def told(self, name):
        if watching:
            seen.append([current, "environment", str(name)])
    def __getitem__(self, name):
        self.told(name)
        return dict.__getitem__(self, name)
    def get(self, name, default=None):
        self.told(name)
        return dict.get(self, name, default)
    def __contains__(self, name):
        self.told(name)
        return dict.__contains__(self, name)
    def __iter__(self):
        self.told("all of it")
        return dict.__iter__(self)
    def __setitem__(self, name, value):
        self.told(name)
        dict.__setitem__(self, name, value)

os.environ = Watching(os.environ)
sys.addaudithook(watch)
watching = True
for current in modules:
    importlib.import_module(current)
watching = False
json.dump(seen, sys.stdout)
"""


@pytest.mark.parametrize(
    ("line", "told"),
    [
        ("open('/dev/null')", "open"),
        ("import socket; socket.socket()", "socket.__new__"),
        ("import os; os.environ.get('HOME')", "environment"),
        ("import os; os.getenv('HOME')", "environment"),
    ],
)
def test_the_watch_itself_notices(tmp_path: Path, line: str, told: str) -> None:
    (tmp_path / "careless.py").write_text(line, encoding="utf-8")

    watched = subprocess.run(
        [sys.executable, "-B", "-c", WATCH],
        input=json.dumps([["socket"], ["careless"]]),
        capture_output=True,
        text=True,
        cwd=tmp_path,
        timeout=60,
        check=True,
    )

    assert json.loads(watched.stdout)[0][:2] == ["careless", told]


@pytest.mark.parametrize("name", ["constraints.txt", "constraints-dev.txt"])
def test_pins_hold_names_versions_and_hashes_only(name: str) -> None:
    lines = (ROOT / "deploy" / name).read_text(encoding="utf-8").splitlines()

    odd = [line for line in lines if not re.fullmatch(r"[a-z0-9-]+(\[[a-z-]+\])?==[\w.]+ \\|    --hash=sha256:[0-9a-f]{64}( \\)?", line)]

    assert odd == []
    assert len(lines) > 100


def test_what_is_required_with_extras_is_pinned_with_them() -> None:
    """Older pips seek the newest of what is pinned without its extras, for which there is no hash then."""
    pins = (ROOT / "deploy" / "constraints-dev.txt").read_text(encoding="utf-8")
    pinned = [re.split("==", line)[0] for line in pins.splitlines() if "==" in line]

    required = [Requirement(each) for name in pinned for each in _requires(name.partition("[")[0])]
    with_extras = {
        each.name: each.extras for each in required if each.extras and (each.marker is None or each.marker.evaluate({"extra": ""}))
    }

    assert "coverage" in with_extras
    assert {f"{name}[{','.join(sorted(extras))}]" for name, extras in with_extras.items()} <= set(pinned)


def _requires(name: str) -> list[str]:
    """What the distribution requires; nothing where it is for other machines than this one."""
    try:
        return distribution(name).requires or []
    except PackageNotFoundError:
        return []


def test_what_runs_is_pinned_the_same_for_development() -> None:
    pins = [
        {line.split()[0] for line in (ROOT / "deploy" / name).read_text(encoding="utf-8").splitlines() if "==" in line}
        for name in ("constraints.txt", "constraints-dev.txt")
    ]

    assert pins[0] <= pins[1]
