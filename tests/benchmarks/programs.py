"""The programs that benchmarks put beside each other, each started as a process that speaks to the same far end."""

from __future__ import annotations

import os
import subprocess
import sys
from collections.abc import Iterator, Mapping, Sequence
from contextlib import contextmanager
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
NOBODY_LISTENS = "http://127.0.0.1:9"
# Installed, both programs find their modules compiled; where Python is told to keep nothing, only a library's would be.
NOT_TOLD = ("WEEKWRIGHT_", "PYTHONDONTWRITEBYTECODE")

# What anyone would write first: python-telegram-bot as it comes, which handles one update after another,
# and one row a message that is on the disk before the answer leaves.
ECHO = """
import os, sqlite3
from telegram.ext import Application, MessageHandler, filters

database = sqlite3.connect(os.environ["BENCHMARK_DATABASE"], isolation_level=None)
database.execute("PRAGMA journal_mode = WAL")
database.execute("PRAGMA synchronous = FULL")
database.execute("CREATE TABLE IF NOT EXISTS heard (id INTEGER PRIMARY KEY, chat INTEGER, text TEXT)")

async def echo(update, context):
    database.execute("INSERT INTO heard (chat, text) VALUES (?, ?)", (update.message.chat_id, update.message.text))
    await update.message.reply_text(update.message.text)

url = os.environ["WEEKWRIGHT_TELEGRAM_URL"]
application = Application.builder().token(os.environ["WEEKWRIGHT_TOKEN"]).base_url(url + "/bot").base_file_url(url + "/file/bot").build()
application.add_handler(MessageHandler(filters.TEXT, echo))
application.run_polling()
"""
PROGRAMS = {"echo": [sys.executable, "-c", ECHO], "weekwright": [sys.executable, "-m", "tests.benchmarks.run_unpaced"]}


@contextmanager
def running(command: Sequence[str], told: Mapping[str, str], folder: Path) -> Iterator[subprocess.Popen[bytes]]:
    """The program in this environment, ended when the block is."""
    with (folder / "log").open("ab") as log:
        process = subprocess.Popen(command, cwd=ROOT, env=dict(told), stderr=log)
    try:
        yield process
    finally:
        process.terminate()
        process.wait(20)


def environment(url: str, token: str, people: Sequence[int], folder: Path) -> dict[str, str]:
    """What the programs are told: where Telegram is, who may talk, where to keep things; nobody answers outside."""
    return {
        **{name: value for name, value in os.environ.items() if not name.startswith(NOT_TOLD)},
        "WEEKWRIGHT_TOKEN": token,
        "WEEKWRIGHT_TELEGRAM_URL": url,
        "WEEKWRIGHT_DATABASE": f"sqlite:///{folder / 'week.sqlite'}",
        "WEEKWRIGHT_ALLOWED": ",".join(map(str, people)),
        "WEEKWRIGHT_SETTINGS": str(ROOT / "sample_config" / "settings.toml"),
        "WEEKWRIGHT_FORECAST_URL": NOBODY_LISTENS,
        "WEEKWRIGHT_GEOCODING_URL": NOBODY_LISTENS,
        "BENCHMARK_DATABASE": str(folder / "echo.sqlite"),
    }


def processor_seconds(pid: int) -> float:
    """User and system time: the 14th and 15th field of proc(5)'s stat, whose 2nd may hold spaces but ends with a bracket."""
    fields = Path(f"/proc/{pid}/stat").read_text("utf-8").rpartition(")")[2].split()
    return (int(fields[11]) + int(fields[12])) / os.sysconf("SC_CLK_TCK")


def resident_mebibytes(pid: int) -> float:
    """What Linux counts as resident: VmRSS of proc(5)."""
    return _mebibytes(pid, "VmRSS")


def most_mebibytes(pid: int) -> float:
    """The most that was ever resident: VmHWM of proc(5)."""
    return _mebibytes(pid, "VmHWM")


def children(pid: int) -> list[int]:
    """The processes that this one started and that have not ended: ``children`` of proc(5), of each of its threads."""
    return [int(child) for each in Path(f"/proc/{pid}/task").glob("*/children") for child in each.read_text("utf-8").split()]


def _mebibytes(pid: int, name: str) -> float:
    status = Path(f"/proc/{pid}/status").read_text("utf-8")
    line = next(line for line in status.splitlines() if line.startswith(f"{name}:"))
    return int(line.split()[1]) / 1024
