"""The calendar that comes with the program, read as a person would send it."""

from __future__ import annotations

from pathlib import Path
from zoneinfo import ZoneInfo

from tests.outside.calendars_made import BRUSSELS, read

SAMPLE = Path(__file__).parents[2] / "sample_config" / "calendar.ics"


def test_the_sample_calendar_fills_the_week_of_the_demonstration() -> None:
    found = read(SAMPLE.read_bytes())
    week = [event for event in found.events if event.starts.astimezone(ZoneInfo(BRUSSELS)).day <= 8]
    assert [(f"{event.starts.astimezone(ZoneInfo(BRUSSELS)):%a %d %H:%M}", event.title, event.busy) for event in week] == [
        ("Tue 03 12:45", "Front desk briefing", True),
        ("Wed 04 08:30", "Dentist", True),
        ("Fri 06 10:00", "Delivery of wheels", True),
        ("Sat 07 14:00", "School play", True),
        ("Sun 08 00:00", "Grandmother's birthday", False),
    ]
    assert (len(found.events), found.unreadable, found.cut_short) == (9, 0, False)
