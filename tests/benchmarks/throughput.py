"""Answers a second, and how soon one is there, of ``weekwright run`` beside a bare python-telegram-bot echo.

The echo handles one update after another and commits one row a message with
synchronous=FULL. Both speak to the same Bot API stand-in, which is a process
of its own, in turns and in one run; what counts are the ratios. Each keeps
what it heard before it answers.

    python -m tests.benchmarks.throughput [PEOPLE]
"""

from __future__ import annotations

import sys
import tempfile
from dataclasses import dataclass
from pathlib import Path
from statistics import median

from tests.benchmarks.far_end import FIRST_PERSON, FarEnd
from tests.benchmarks.programs import PROGRAMS, processor_seconds, running

PEOPLE = 100
ROUNDS = 3
# A message an hour of an ordinary day: hours first of all, a task now and then, a look at the day.
TEXTS = (
    *("1h workshop", "20m family", "task order spokes 30m", "30m museum", "45m learning - chapter 4"),
    *("museum 13-14", "1h home", "15m workshop", "task oil the chains", "1h 20m learning"),
)
LEAST_RATE, MOST_LATENCY = 0.6, 1.7


@dataclass(frozen=True, slots=True)
class Measured:
    """Answers a second when all write at once, of it processor seconds an answer; median seconds to one answer when one writes alone."""

    rate: float
    processor_seconds: float
    latency: float


def measure(program: str, people: int) -> Measured:
    """Starts one of the programs, lets people talk to it, and ends it."""
    with tempfile.TemporaryDirectory() as name, FarEnd() as far_end:
        everyone = range(FIRST_PERSON, FIRST_PERSON + people)
        with running(PROGRAMS[program], far_end.url, far_end.token, everyone, Path(name)) as process:
            far_end.wait_for_a_poll()
            # Modules are loaded, statements compiled and people admitted by the first message of each.
            far_end.at_once(people, TEXTS[:1])
            before = processor_seconds(process.pid)
            seconds = far_end.at_once(people, TEXTS)
            spent = processor_seconds(process.pid) - before
            latency = median(far_end.one_by_one(min(people, 30), TEXTS))
    answers = people * len(TEXTS)
    return Measured(answers / seconds, spent / answers, latency)


def main(people: int = PEOPLE) -> int:
    """Prints the table; 1 when a ratio is beyond its floor."""
    taken: dict[str, list[Measured]] = {program: [] for program in PROGRAMS}
    for _ in range(ROUNDS):
        for program, measured in taken.items():
            measured.append(measure(program, people))
    # The best of each: whatever else the machine does only ever slows.
    rate = {program: max(each.rate for each in measured) for program, measured in taken.items()}
    spent = {program: min(each.processor_seconds for each in measured) * 1000 for program, measured in taken.items()}
    latency = {program: min(each.latency for each in measured) * 1000 for program, measured in taken.items()}
    _row("answers a second", rate, f"at least {LEAST_RATE}")
    _row("processor, ms an answer", spent, "told only")
    _row("one alone, median ms", latency, f"at most {MOST_LATENCY}")
    ratios = rate["weekwright"] / rate["echo"], latency["weekwright"] / latency["echo"]
    return 0 if ratios[0] >= LEAST_RATE and ratios[1] <= MOST_LATENCY else 1


def _row(what: str, of: dict[str, float], floor: str) -> None:
    echo, ours = of["echo"], of["weekwright"]
    sys.stdout.write(f"{what:26} echo {echo:8.2f}   weekwright {ours:8.2f}   ratio {ours / echo:.2f} ({floor})\n")


if __name__ == "__main__":
    sys.exit(main(*map(int, sys.argv[1:])))
