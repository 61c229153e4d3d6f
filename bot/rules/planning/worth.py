"""How much it matters that something is placed today.

The figures are common practice, no source. Each mark outweighs all those
after it together, as in the order: pressing goals, pushed more than once,
behind target.
"""

from __future__ import annotations

from typing import Final

PLAIN: Final = 1
PRESSING: Final = 4
PUSHED_OFTEN: Final = 2
BEHIND_TARGET: Final = 1
ROUTINE: Final = PLAIN + PRESSING + PUSHED_OFTEN + BEHIND_TARGET
"""A routine lies as early in its window as the most valuable task would."""


def task_value(*, pressing: bool, pushes: int, behind_target: bool) -> int:
    """The value of a task: whether it serves a pressing goal, how often it was pushed, and whether its category is behind target."""
    return PLAIN + PRESSING * pressing + PUSHED_OFTEN * (pushes > 1) + BEHIND_TARGET * behind_target
