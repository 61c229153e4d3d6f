"""What goes wrong, and when: drawn from the seed, one draw a step, so that a seed tells the same story each time."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from random import Random
from typing import Literal, TypeAlias

from tests.simulation.virtual_time import Clock

Step: TypeAlias = Literal["begin", "commit", "committed", "read", "poll", "send", "courtesy", "forecast", "tick"]
Trouble: TypeAlias = Literal[
    "dies", "dies accepted", "locked", "full", "429", "429 huge", "429 zero", "500", "400",
    "time-out", "time-out accepted", "reset", "reset accepted", "garbage", "garbage accepted", "no line",
    "down", "slow", "wrong", "half-empty",
]  # fmt: skip

# "accepted" troubles come after the service did what it was asked for; the program does not learn of it.
_LINE: tuple[Trouble, ...] = ("429", "429 huge", "429 zero", "500", "time-out", "reset", "garbage", "no line")
_AFTER: tuple[Trouble, ...] = ("time-out accepted", "reset accepted", "garbage accepted", "dies accepted")
TROUBLES: Mapping[Step, tuple[Trouble, ...]] = {
    "begin": ("dies", "locked"),
    "commit": ("dies", "full"),
    "committed": ("dies",),
    "read": ("dies", "locked"),
    "poll": ("dies", *_LINE, *_AFTER),
    "send": ("dies", *_LINE, *_AFTER, "400"),
    "courtesy": ("dies", *_LINE),
    "forecast": ("down", "slow", "wrong", "half-empty", "dies"),
    "tick": ("dies",),
}
EVERY_KIND: tuple[tuple[Step, Trouble], ...] = tuple((step, trouble) for step, troubles in TROUBLES.items() for trouble in troubles)


MOST_STEPS_AT_ONCE = 2000


class Died(SystemExit):
    """The process ends here. Nothing of it goes on: neither clean-up that reaches the world, nor another task."""


@dataclass(slots=True)
class Fate:
    """Says of each step whether it goes wrong, and how.

    ``rates`` is how likely each kind of step is to; ``planned`` are the
    troubles that surely come, each at that occurrence of its step.
    """

    random: Random
    clock: Clock
    rates: Mapping[Step, float]
    planned: dict[tuple[Step, int], Trouble] = field(default_factory=dict)
    tell: Callable[[str], None] = lambda _line: None
    seen: Counter[Step] = field(default_factory=Counter)
    struck: Counter[tuple[Step, Trouble]] = field(default_factory=Counter)
    is_dead: bool = False
    is_calm: bool = False
    turns_in_circles: bool = False
    _moment: float = 0.0
    _steps_of_the_moment: int = 0

    def of(self, step: Step) -> Trouble | None:
        """How this step goes wrong, or None. Raises Died when the process ends before it, or is no more."""
        self.demand_alive()
        self._demand_progress()
        if self.is_calm:
            return None
        self.seen[step] += 1
        trouble = self.planned.pop((step, self.seen[step]), None)
        if trouble is None and self.random.random() < self.rates.get(step, 0.0):
            trouble = self.random.choice(TROUBLES[step])
        if trouble is None:
            return None
        self.struck[step, trouble] += 1
        self.tell(f"{step}: {trouble}")
        if trouble == "dies":
            self.die()
        return trouble

    def die(self) -> None:
        """Ends the process. Raises Died, now and at every later step until it is born again."""
        self.is_dead = True
        raise Died

    def _demand_progress(self) -> None:
        """Ends a process that has taken very many steps while no time passed: it would never end by itself."""
        if self._moment != self.clock.seconds:
            self._moment, self._steps_of_the_moment = self.clock.seconds, 0
        self._steps_of_the_moment += 1
        if self._steps_of_the_moment > MOST_STEPS_AT_ONCE:
            self.turns_in_circles = True
            self.die()

    def demand_alive(self) -> None:
        """Raises Died when the process is no more."""
        if self.is_dead:
            raise Died
