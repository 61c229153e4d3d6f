"""Start to first poll, and resident memory, of ``weekwright run`` beside a bare python-telegram-bot echo.

Both speak to the same Bot API stand-in, in turns, in one run; what counts are
the ratios. The smallest of the times is taken: whatever else the machine does
only ever adds to it. Memory is what Linux counts as resident (VmRSS of
proc(5)) after the same short conversation.

    python -m tests.benchmarks.start_and_memory
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from dataclasses import astuple, dataclass
from pathlib import Path

from tests.benchmarks.programs import processor_seconds, resident_mebibytes
from tests.channels.standin import PERSON, StandIn

ROOT = Path(__file__).resolve().parents[2]
ROUNDS = 7
REPLIES = ("3h workshop", "1h family", "show day", "show week", "show hours")
MOST_TIME, MOST_MEMORY = 2.2, 1.8

ECHO = """
import os, sys
from telegram.ext import Application, MessageHandler, filters

async def echo(update, context):
    await update.message.reply_text(update.message.text)

url = os.environ["WEEKWRIGHT_TELEGRAM_URL"]
application = Application.builder().token(os.environ["WEEKWRIGHT_TOKEN"]).base_url(url + "/bot").base_file_url(url + "/file/bot").build()
application.add_handler(MessageHandler(filters.TEXT, echo))
application.run_polling()
"""
PROGRAMS = {"echo": [sys.executable, "-c", ECHO], "weekwright": [sys.executable, "-m", "bot", "run"]}


@dataclass(frozen=True, slots=True)
class Measured:
    """One start: seconds to the first poll, by the clock and of the processor's; resident MiB after the conversation."""

    seconds: float
    processor_seconds: float
    mebibytes: float


def measure(program: str, folder: Path, number: int) -> Measured:
    """Starts one of the programs, talks to it, and ends it."""
    with StandIn(first_update=1000 * (number + 1)) as standin:
        began = time.perf_counter()
        process = subprocess.Popen(PROGRAMS[program], cwd=ROOT, env=_environment(standin, folder), stderr=subprocess.DEVNULL)
        try:
            standin.wait_for(lambda: any(call.method == "getupdates" for call in standin.calls), 60)
            seconds = time.perf_counter() - began
            spent = processor_seconds(process.pid)
            _talk(standin)
            return Measured(seconds, spent, resident_mebibytes(process.pid))
        finally:
            process.terminate()
            process.wait(20)


def main() -> int:
    """Prints the table; 1 when a ratio is over its limit."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        taken: dict[str, list[Measured]] = {program: [] for program in PROGRAMS}
        # The first round compiles modules and makes the database; it does not count.
        for number in range(ROUNDS + 1):
            for program in PROGRAMS:
                measured = measure(program, folder, number)
                if number:
                    taken[program].append(measured)
    smallest = {program: Measured(*map(min, zip(*map(astuple, measured), strict=True))) for program, measured in taken.items()}
    echo, ours = smallest["echo"], smallest["weekwright"]
    fits = [
        _row("start to first poll, s", echo.seconds, ours.seconds, MOST_TIME),
        _row("of it processor, s", echo.processor_seconds, ours.processor_seconds, MOST_TIME),
        _row("resident memory, MiB", echo.mebibytes, ours.mebibytes, MOST_MEMORY),
    ]
    return 0 if all(fits) else 1


def _row(what: str, echo: float, ours: float, most: float) -> bool:
    ratio = ours / echo
    sys.stdout.write(f"{what:24} echo {echo:7.2f}   weekwright {ours:7.2f}   ratio {ratio:.2f} (at most {most})\n")
    return ratio <= most


def _talk(standin: StandIn) -> None:
    for number, reply in enumerate(REPLIES, 1):
        standin.say(reply, PERSON)
        standin.wait_for(lambda wanted=number: len(standin.log) >= wanted, 20)  # type: ignore[misc]


def _environment(standin: StandIn, folder: Path) -> dict[str, str]:
    return {
        **{name: value for name, value in os.environ.items() if not name.startswith("WEEKWRIGHT_")},
        "WEEKWRIGHT_TOKEN": standin.token,
        "WEEKWRIGHT_TELEGRAM_URL": standin.url,
        "WEEKWRIGHT_DATABASE": f"sqlite:///{folder / 'week.sqlite'}",
        "WEEKWRIGHT_ALLOWED": str(PERSON),
        "WEEKWRIGHT_SETTINGS": str(ROOT / "sample_config" / "settings.toml"),
        "WEEKWRIGHT_FORECAST_URL": "http://127.0.0.1:9",
        "WEEKWRIGHT_GEOCODING_URL": "http://127.0.0.1:9",
    }


if __name__ == "__main__":
    sys.exit(main())
