"""What each daily act costs a person in taps, typed characters and messages read, counted by the real engine.

    python -m tests.week.effort            writes effort.md anew
    python -m tests.week.effort --before   prints the counts of the ways that were there before the weeks were played

The latter were counted once, by this program on the program as it was then, and are kept in effort_before.json.
"""

from __future__ import annotations

import json
import logging
import sys
import tempfile
from dataclasses import asdict, dataclass
from datetime import datetime
from pathlib import Path

from bot.channels.script import At, Say, Step, Tap
from tests.stage import Stage

HERE = Path(__file__).parent
PAGE, BEFORE = HERE / "effort.md", HERE / "effort_before.json"
MOST_TAPS, MOST_CHARACTERS = 3, 20
MORNING, EVENING, AFTER_WORK = (At(datetime(2026, 3, 3, *at)) for at in ((6, 5), (20, 5), (17, 10)))
SUNDAY = At(datetime(2026, 3, 8, 18, 5))
SHIFT = Say("museum shift tue 13-17 and thu 13-17")
TASKS = (Say("task order spokes"), Say("task call the glazier"), Say("task oil the chains"))
GOALS = (Say("goal finish chapter 4 learning 3h"), Say("goal fix the tandem workshop 2h"), Say("goal sort the screws home"))
DENTIST = Say("dentist thu 15:00-16:00")


@dataclass(frozen=True, slots=True)
class Effort:
    """Taps, characters typed, and messages of the bot that the act brings about or begins with."""

    taps: int
    characters: int
    messages: int

    @property
    def too_much(self) -> bool:
        """Whether it is above what a daily act may cost."""
        return self.taps > MOST_TAPS or self.characters > MOST_CHARACTERS


@dataclass(frozen=True, slots=True)
class Act:
    """``does`` is what the person does after ``given``, on Monday 2 March at nine; ``did`` what they had to do before, if another thing."""

    name: str
    given: tuple[Step, ...]
    does: tuple[Step, ...]
    did: tuple[Step, ...] = ()


ACTS = (
    Act("log hours", (), (Say("3h workshop"),)),
    Act(
        "log a range with its break",
        (SHIFT, AFTER_WORK),
        (Say("13-17"), Tap("Less 30 min")),
        (Say("museum 13-17 less 30m"),),
    ),
    Act("correct hours", (Say("3h workshop"),), (Say("no, 2h"),)),
    Act("clock in and out", (), (Say("in museum"), Tap("Clock out"))),
    Act("close a task", TASKS, (Say("done 1"),)),
    Act("close a task with its hours", TASKS, (Say("closed 1 in 45m"),)),
    Act(
        "close a task and meet its goal",
        (*GOALS, Tap("Do it today")),
        (Say("done 1"),),
        (Say("done 1"), Tap("Goal met: sort the screws")),
    ),
    Act("push a task to tomorrow", TASKS, (Say("push 1"),)),
    Act("push a task to a day", TASKS, (Say("push 1 to friday"),)),
    Act("drop a task", TASKS, (Say("drop 3"),)),
    Act("accept the morning's plan", (*TASKS, SHIFT), (MORNING, Tap("Accept the plan"))),
    Act(
        "move an appointment to another day",
        (DENTIST,),
        (Say("move"), Tap("move dentist from thu"), Tap("Fri 6 Mar")),
        (Say("move dentist to friday"),),
    ),
    Act(
        "move an appointment to a day and time",
        (DENTIST,),
        (Say("move"), Tap("move dentist from thu"), Say("fri 16")),
        (Say("move dentist to fri 16:00"),),
    ),
    Act("answer the evening nudge", (*TASKS, SHIFT, AFTER_WORK), (EVENING, Tap("Close 1"), Tap("Log museum 13:00–17:00"), Tap("Push all"))),
    Act("carry what is left on Sunday", GOALS, (SUNDAY, Tap("Carry all"))),
    Act("hand in a timesheet", (SHIFT, AFTER_WORK, Say("museum 13-17")), (Say("timesheet museum"), Tap("Files"), Tap("Handed in"))),
)


def counted(given: tuple[Step, ...], does: tuple[Step, ...], folder: Path) -> Effort:
    """What ``does`` costs after ``given``. Raises AssertionError where a button is not there or a reply is not understood."""
    stage = Stage(folder)
    for step in given:
        _do(stage, step)
    messages = sum(_do(stage, step) for step in does)
    stage.close()
    taps = sum(isinstance(step, Tap) for step in does)
    return Effort(taps, sum(len(step.text) for step in does if isinstance(step, Say)), messages)


def _do(stage: Stage, step: Step) -> int:
    """Does the step; gives how many messages it brought. Of those that time brings only those of its last moment are read for the act."""
    if isinstance(step, At):
        parcels = stage.at(f"{step.when:%Y-%m-%d %H:%M}").parcels
        return sum(parcel.written == parcels[-1].written for parcel in parcels) if parcels else 0
    answer = stage.tap(step.label) if isinstance(step, Tap) else stage.say(step.text) if isinstance(step, Say) else None
    assert answer is not None
    assert not answer.text.startswith(("I did not understand", "I find no")), answer.text
    return len(answer.parcels)


def all_counted(*, before: bool = False) -> dict[str, Effort]:
    """The efforts by act, in the ways of now or of before."""
    found = {}
    for act in ACTS:
        with tempfile.TemporaryDirectory() as folder:
            found[act.name] = counted(act.given, (act.did or act.does) if before else act.does, Path(folder))
    return found


def page_of(before: dict[str, Effort], now: dict[str, Effort]) -> str:
    """The table, and which acts were above the bar."""
    rows = "".join(_row(act, before[act.name], now[act.name]) for act in ACTS)
    return f"""\
# What a daily act costs

Taps, typed characters, and messages read, before three weeks of three people were played by hand and after what they showed was mended.
`python -m tests.week.effort` counts them with the real engine and writes this page; a test counts again. An act above {MOST_TAPS} taps or
{MOST_CHARACTERS} characters was to be halved. A tap is written in square brackets; the dots stand for the message that comes by itself.

| act | how | taps before | typed | read | taps now | typed | read | |
|---|---|---|---|---|---|---|---|---|
{rows}"""


def _row(act: Act, before: Effort, now: Effort) -> str:
    return f"| {act.name} | {_way(act.does)} | {_cells(before)} | {_cells(now)} | {_verdict(before, now)} |\n"


def _way(steps: tuple[Step, ...]) -> str:
    return ", ".join(f"`{step.text}`" if isinstance(step, Say) else f"[{step.label}]" if isinstance(step, Tap) else "…" for step in steps)


def _cells(effort: Effort) -> str:
    return f"{effort.taps} | {effort.characters} | {effort.messages}"


def _verdict(before: Effort, now: Effort) -> str:
    if before.too_much:
        return "halved" if 2 * now.characters <= before.characters and now.taps <= MOST_TAPS else "above"
    return "less" if now.taps + now.characters + now.messages < before.taps + before.characters + before.messages else ""


def kept_before() -> dict[str, Effort]:
    """What was counted before the weeks were played."""
    return {name: Effort(**cells) for name, cells in json.loads(BEFORE.read_text("utf-8")).items()}


if __name__ == "__main__":
    logging.disable(logging.WARNING)
    if "--before" in sys.argv:
        sys.stdout.write(json.dumps({name: asdict(effort) for name, effort in all_counted(before=True).items()}, indent=1) + "\n")
    else:
        PAGE.write_text(page_of(kept_before(), all_counted()), "utf-8")
