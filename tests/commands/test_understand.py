"""Every kind of reply, asked for as outside programs ask: one line of JSON a reply, in order."""

from __future__ import annotations

import io
import json
import sys
from typing import Any

import pytest

from bot.cli import main

PHRASES: dict[str, tuple[str, ...]] = {
    "log": (
        "3h workshop",
        "museum 13-17 less 30m",
        "yesterday 2h course - chapter 4",
        "1h kids, 30m garden",
        "mon 9-17 desk",
        "90 minutes bike",
    ),
    "clock_in": ("in workshop", "start museum", "clock in desk", "start museum at 9", "clock in workshop"),
    "clock_out": ("out", "stop", "clock out", "clock out 17:05", "off work"),
    "close": ("done 1", "1 done", "done all", "done glazier", "closed 2 in 45m", "done 1, 3-5"),
    "drop": ("drop 2", "drop 1 and 3", "drop glazier", "drop all", "drop 2-4"),
    "reopen": ("reopen 3", "reopen 1, 2", "reopen glazier", "reopen all", "reopen 2-4"),
    "push": ("push 2", "push 2 to fri", "push all to monday", "push 2 to next week", "push 2 to the month", "push glazier to 2/4"),
    "add_task": (
        "task call the glazier",
        "task order spokes tomorrow",
        "todo order spokes friday 30m workshop",
        "task true the wheels fri 1h workshop",
        "task wash the van home",
    ),
    "add_goal": (
        "goal finish chapter 4 learning 3h",
        "month goal paint the shed home",
        "goal oil the gate",
        "goal sort the tools workshop 2h",
        "month goal read two books learning",
    ),
    "add_commitment": (
        "appt tomorrow 15:00 dentist",
        "museum shift every tue 13-17",
        "choir every thursday 19:30-21:00 minor",
        "meeting tue 10-11 stock museum",
        "appt fri 9-10 bank",
    ),
    "move": (
        "move dentist to fri 16:00",
        "move choir to friday",
        "move bank to tomorrow 9-10",
        "move dentist to 2/4",
        "move dentist to 16:00",
    ),
    "cancel": ("cancel dentist", "cancel choir thursday", "cancel bank", "cancel choir", "cancel dentist tomorrow"),
    "add_routine": (
        "routine exercise 30m every day 7-9",
        "routine cleaning 1h every saturday",
        "routine reading 45m weekdays",
        "routine stretching 10m every day",
        "routine cleaning 1h every saturday morning",
    ),
    "set_target": (
        "target learning at least 5h",
        "target museum at most 20h",
        "target family 5-10h",
        "target workshop at least 16h",
        "target home at most 6h",
    ),
    "show": ("today", "week", "month", "hours", "goals", "timesheet museum", "settings", "help", "help hours", "/today", "next week"),
    "undo": ("undo", "oops", "/undo", "Undo", "UNDO"),
    "set": ("morning at 6:30", "evening 20:30", "waking 7-22", "place Ghent", "zone Europe/Brussels", "week starts sunday"),
    "ask": ("2h", "90m", "9-12", "1h30", "half an hour"),
    "unknown": ("hello there", "what a day that was", "the weather is nice", "see you later", "3 apples"),
}

FIELDS = {
    "log": {"stints"},
    "clock_in": {"category", "time"},
    "clock_out": {"category", "time"},
    "close": {"tasks", "words", "minutes"},
    "drop": {"tasks", "words"},
    "reopen": {"tasks", "words"},
    "push": {"tasks", "to"},
    "add_task": {"title", "day", "category", "estimate_minutes", "goal"},
    "add_goal": {"title", "category", "section", "horizon", "estimate_minutes"},
    "add_commitment": {"title", "day", "start", "end", "category", "rule", "major", "outdoors"},
    "move": {"words", "day", "start", "end"},
    "cancel": {"words", "day", "start", "end"},
    "add_routine": {"title", "minutes", "rule", "window_start", "window_end", "category"},
    "set_target": {"category", "at_least_minutes", "at_most_minutes"},
    "show": {"what", "day", "from", "to", "category"},
    "undo": set(),
    "set": {"name", "value"},
    "ask": {"choices"},
    "unknown": {"near"},
}


def understood(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], replies: bytes) -> list[dict[str, Any]]:
    monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(replies)))
    assert main(["understand", "--json", "--now", "2026-03-02T18:00", "--zone", "Europe/Brussels"]) == 0
    return [json.loads(line) for line in capsys.readouterr().out.split("\n")[:-1]]


@pytest.mark.parametrize("kind", PHRASES)
def test_each_kind_is_understood_and_has_its_fields(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], kind: str) -> None:
    phrases = PHRASES[kind]
    assert len(phrases) >= 5
    found = understood(monkeypatch, capsys, "\n".join(phrases).encode())
    assert [(each["text"], each["kind"]) for each in found] == [(phrase, kind) for phrase in phrases]
    for each in found:
        assert FIELDS[kind] <= each.keys()


def test_a_stint_has_its_fields(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    (found,) = understood(monkeypatch, capsys, b"museum 13-17 less 30m - stock count")
    assert found["stints"] == [
        {
            "category": "museum",
            "day": "2026-03-02",
            "start": "13:00",
            "end": "17:00",
            "minutes": 210,
            "break_minutes": 30,
            "tasks": [],
            "note": "stock count",
        }
    ]


def test_there_is_one_line_a_reply_whatever_the_reply_holds(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    texts = ["", "   ", "\u2028\u2029\x85", "\x00", "é" * 5000, "3h workshop"]
    raw = ["\ud800".encode("utf-8", "surrogatepass"), b"\xff\xfe", *(each.encode() for each in texts)]
    found = understood(monkeypatch, capsys, b"\n".join(raw) + b"\n")
    assert len(found) == len(raw)
    assert found[-1]["kind"] == "log"


def test_a_reply_may_be_given_as_arguments(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["understand", "3h", "workshop", "--now", "2026-03-02T18:00"]) == 0
    assert capsys.readouterr().out.startswith("log: ")


@pytest.mark.parametrize("given", [["--now", "soon"], ["--zone", "Mars/Olympus"]])
def test_what_cannot_be_used_is_named(capsys: pytest.CaptureFixture[str], given: list[str]) -> None:
    assert main(["understand", "today", *given]) == 1
    assert given[1] in capsys.readouterr().err
