"""Rehearsal scripts: what a line may say of a calendar's link."""

from __future__ import annotations

from pathlib import Path

import pytest

from bot.channels.rehearsal import ScriptedLinks
from bot.channels.script import Link, ScriptError, read_step
from bot.outside.calendars.fetching import Fetched, NotModified
from bot.outside.faults import CalendarUnavailable

LINK = "https://museum.example/shifts.ics"


def test_a_link_gives_a_file_or_cannot_be_reached(tmp_path: Path) -> None:
    (tmp_path / "shifts.ics").write_bytes(b"BEGIN:VCALENDAR")
    assert read_step(1, f"link {LINK} shifts.ics", tmp_path) == Link(LINK, tmp_path / "shifts.ics")
    assert read_step(1, f"link {LINK} none", tmp_path) == Link(LINK, None)


@pytest.mark.parametrize("line", ["link shifts.ics", f"link {LINK}", f"link {LINK} nothing.ics"])
def test_a_line_that_names_no_link_or_no_file_is_refused(tmp_path: Path, line: str) -> None:
    with pytest.raises(ScriptError):
        read_step(3, line, tmp_path)


def test_each_content_of_a_scripted_link_is_a_version_of_its_own(tmp_path: Path) -> None:
    links, path = ScriptedLinks(), tmp_path / "shifts.ics"
    with pytest.raises(CalendarUnavailable):
        links.fetch(LINK)
    path.write_bytes(b"one")
    links.paths[LINK] = path
    first = links.fetch(LINK)
    assert isinstance(first, Fetched)
    assert isinstance(links.fetch(LINK, first.validators), NotModified)
    path.write_bytes(b"two")
    second = links.fetch(LINK, first.validators)
    assert isinstance(second, Fetched)
    assert second.content == b"two"
