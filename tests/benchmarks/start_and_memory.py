"""Start to first poll, and resident memory, of ``weekwright run`` beside a bare python-telegram-bot echo.

What Weekwright does in processes of their own, which end when nothing more is
wanted of them, is told apart: the most that one of them took.

Both speak to the same Bot API stand-in, in turns, in one run; what counts are
the ratios. The smallest of the times is taken: whatever else the machine does
only ever adds to it. Memory is what Linux counts as resident (VmRSS of
proc(5)) after a week: what is said in sample_config/week.txt is said to both,
and Weekwright's clock is moved through that week, so that its rounds come.

    python -m tests.benchmarks.start_and_memory
"""

from __future__ import annotations

import sys
import tempfile
import time
from compileall import compile_dir
from dataclasses import astuple, dataclass
from datetime import UTC
from pathlib import Path

from bot.channels.script import At, Say, Step, read_step
from tests.benchmarks.programs import ROOT, children, environment, most_mebibytes, processor_seconds, resident_mebibytes, running
from tests.channels.standin import PERSON, StandIn

ROUNDS = 7
WEEK = ROOT / "sample_config" / "week.txt"
SECONDS_FOR_ROUNDS = 0.5
MOST_TIME, MOST_MEMORY = 1.8, 1.5

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
STARTED = {"echo": [sys.executable, "-c", ECHO], "weekwright": [sys.executable, "-m", "bot", "run"]}
PLAYED = STARTED | {"weekwright": [sys.executable, "-m", "tests.channels.run_with_clock"]}


@dataclass(frozen=True, slots=True)
class Start:
    """Seconds to the first poll, by the clock and of the processor's."""

    seconds: float
    processor_seconds: float


def start(program: str, folder: Path) -> Start:
    """Starts one of the programs, and ends it when it has asked for updates."""
    with StandIn() as standin:
        told = environment(standin.url, standin.token, [PERSON], folder)
        began = time.perf_counter()
        with running(STARTED[program], told, folder) as process:
            _wait_for_a_poll(standin)
            return Start(time.perf_counter() - began, processor_seconds(process.pid))


def after_a_week(program: str, folder: Path) -> tuple[float, float]:
    """Resident MiB of one of the programs when the sample week was said to it, with a clock that is moved through that week.

    And the most that one process took which it has started and not ended yet, such as the one that drew the week's picture.
    """
    clock = folder / "clock"
    clock.write_text("2026-03-01T18:00:00+00:00", "utf-8")
    with StandIn() as standin:
        told = environment(standin.url, standin.token, [PERSON], folder) | {"TEST_CLOCK": str(clock)}
        with running(PLAYED[program], told, folder) as process:
            _wait_for_a_poll(standin)
            for number, line in enumerate(WEEK.read_text("utf-8").splitlines(), 1):
                _play(read_step(number, line, WEEK.parent), standin, clock)
            time.sleep(3)
            return resident_mebibytes(process.pid), max((most_mebibytes(child) for child in children(process.pid)), default=0.0)


def main() -> int:
    """Prints the table; 1 when a ratio is over its limit."""
    # As they are where they are installed: who compiles a module takes more than who runs it.
    for top in ("bot", "storage"):
        compile_dir(ROOT / top, quiet=1)
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        taken: dict[str, list[Start]] = {program: [] for program in STARTED}
        # The first round makes the database; it does not count.
        for number in range(ROUNDS + 1):
            for program, starts in taken.items():
                started = start(program, folder)
                if number:
                    starts.append(started)
    echo, ours = (Start(*map(min, zip(*map(astuple, taken[program]), strict=True))) for program in ("echo", "weekwright"))
    memory: dict[str, tuple[float, float]] = {}
    for program in PLAYED:
        with tempfile.TemporaryDirectory() as name:
            memory[program] = after_a_week(program, Path(name))
    fits = [
        _row("start to first poll, s", echo.seconds, ours.seconds, MOST_TIME),
        _row("of it processor, s", echo.processor_seconds, ours.processor_seconds, MOST_TIME),
        _row("memory after a week, MiB", memory["echo"][0], memory["weekwright"][0], MOST_MEMORY),
    ]
    sys.stdout.write(f"a process of its own for files took at most {memory['weekwright'][1]:.1f} MiB, and ends\n")
    return 0 if all(fits) else 1


def _row(what: str, echo: float, ours: float, most: float) -> bool:
    ratio = ours / echo
    sys.stdout.write(f"{what:24} echo {echo:7.2f}   weekwright {ours:7.2f}   ratio {ratio:.2f} (at most {most})\n")
    return ratio <= most


def _wait_for_a_poll(standin: StandIn) -> None:
    standin.wait_for(lambda: any(call.method == "getupdates" for call in standin.calls), 60)


def _play(step: Step | None, standin: StandIn, clock: Path) -> None:
    """Moves the clock, or says something; the other steps of the script are about one program only."""
    if isinstance(step, At):
        # It is read at any moment, and must never be found empty.
        fresh = clock.with_suffix(".new")
        fresh.write_text(step.when.replace(tzinfo=UTC).isoformat(), "utf-8")
        fresh.replace(clock)
        time.sleep(SECONDS_FOR_ROUNDS)
    elif isinstance(step, Say):
        already = len(standin.log)
        standin.say(step.text, PERSON)
        standin.wait_for(lambda: len(standin.log) > already, 20)


if __name__ == "__main__":
    sys.exit(main())
