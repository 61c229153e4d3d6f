"""How much of a calendar is read, however much of it there is."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Limits:
    """What reading one calendar may take.

    A rule's steps are the days, or within a day the hours, minutes or seconds,
    that are looked at while it is walked: some microseconds each. A weekly
    event takes about eight hundred of them for a year.
    """

    most_bytes: int = 10 * 1024 * 1024
    most_line_chars: int = 64 * 1024
    most_components: int = 30_000
    most_events: int = 20_000
    most_zones: int = 200
    most_changes_a_zone: int = 1_000
    most_instances: int = 20_000
    most_instances_a_series: int = 2_000
    most_steps: int = 1_000_000
    most_steps_a_series: int = 100_000


LIMITS = Limits()


class TooMuchWork(Exception):
    """A calendar would take more steps than it may."""


class Allowance:
    """The steps that may still be taken; part of a larger allowance, if one is given."""

    def __init__(self, steps: int, whole: Allowance | None = None) -> None:
        self._left = steps
        self._whole = whole

    def spend(self, steps: int = 1) -> None:
        """Takes ``steps`` off what is left. Raises TooMuchWork once there is nothing."""
        self._left -= steps
        if self._left < 0:
            raise TooMuchWork
        if self._whole is not None:
            self._whole.spend(steps)
