"""What a reply can mean for calendars of others."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal, TypeAlias, Union


@dataclass(frozen=True, slots=True)
class AddCalendar:
    """Subscribe to the calendar at ``link``, under ``name`` or the name it gives itself."""

    link: str
    name: str | None = None


@dataclass(frozen=True, slots=True)
class ChangeCalendar:
    """Pauses, resumes or removes the calendar that ``name`` names."""

    name: str
    how: Literal["pause", "resume", "remove"]


@dataclass(frozen=True, slots=True)
class MarkEvents:
    """Events of calendars whose title holds ``words`` are of the category, minor, outdoors, so far away; None where nothing was said."""

    words: str
    category: str | None = None
    minor: bool | None = None
    outdoors: bool | None = None
    minutes_before: int | None = None
    minutes_after: int | None = None


CalendarMeaning: TypeAlias = Union[AddCalendar, ChangeCalendar, MarkEvents]
