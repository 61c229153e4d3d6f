"""The log: one line an event, whatever the event says."""

from __future__ import annotations

import json
import logging
import sys

import pytest

from bot.log_lines import AsJson, InWords


def event(message: str, *, failed: bool = False) -> logging.LogRecord:
    error = None
    if failed:
        try:
            raise ValueError("what a person wrote")
        except ValueError:
            error = sys.exc_info()
    record = logging.LogRecord("weekwright.alarm", logging.WARNING, "alarm.py", 1, message, None, error)
    record.created = 1772431200.25
    return record


def test_a_line_in_words_says_when_in_utc_how_grave_where_and_what() -> None:
    assert (
        InWords().format(event("round morning for person 1"))
        == "2026-03-02T06:00:00.250Z WARNING weekwright.alarm round morning for person 1"
    )


def test_a_line_of_json_says_the_same() -> None:
    assert json.loads(AsJson().format(event("round morning"))) == {
        "at": "2026-03-02T06:00:00.250Z",
        "level": "warning",
        "from": "weekwright.alarm",
        "event": "round morning",
    }


@pytest.mark.parametrize("form", [InWords(), AsJson()])
def test_an_event_stays_one_line_and_an_error_is_named_but_not_quoted(form: logging.Formatter) -> None:
    line = form.format(event("first\nsecond", failed=True))
    assert "\n" not in line
    assert "first second (ValueError)" in line
    assert "what a person wrote" not in line
