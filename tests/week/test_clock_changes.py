"""Exactly one morning message a local day, in every zone, across its clock change (tz database 2026f)."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from pathlib import Path
from zoneinfo import ZoneInfo

import pytest

from bot.settings import sample_settings
from tests.stage import Stage

CHANGES = (
    ("Europe/Brussels", date(2026, 3, 29)),
    ("Europe/Brussels", date(2026, 10, 25)),
    ("America/New_York", date(2026, 3, 8)),
    ("America/New_York", date(2026, 11, 1)),
    ("Africa/Cairo", date(2026, 4, 24)),
    ("Africa/Cairo", date(2026, 10, 29)),
    ("Australia/Lord_Howe", date(2026, 4, 5)),
    ("Australia/Lord_Howe", date(2026, 10, 4)),
    ("America/Havana", date(2026, 3, 8)),
    ("Pacific/Chatham", date(2026, 4, 5)),
    ("Pacific/Chatham", date(2026, 9, 27)),
)


@pytest.mark.parametrize("morning", ["00:30", "02:30", "06:00"])
@pytest.mark.parametrize(("zone", "day"), CHANGES)
def test_one_morning_message_a_local_day(tmp_path: Path, zone: str, day: date, morning: str) -> None:
    sample = sample_settings()
    settings = replace(sample, person=replace(sample.person, zone=zone))
    first = day - timedelta(days=4)
    stage = Stage(tmp_path, settings, at=f"{first} 12:00")
    stage.say(f"morning at {morning}")
    said = stage.at(f"{day + timedelta(days=3)} 12:00").parcels
    days = [parcel.written.astimezone(ZoneInfo(zone)).date() for parcel in said if parcel.round == "morning"]
    assert days == [first + timedelta(days=number) for number in range(1, 8)]
    stage.close()
