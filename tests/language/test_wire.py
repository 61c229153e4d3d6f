"""Meanings as JSON: the shape that is promised outside, and the one that keeps buttons."""

from __future__ import annotations

import json
from datetime import date, time

import pytest
from hypothesis import given

from bot.language.meaning import AddTask, Ask, Cancel, ClockIn, Close, Drop, Log, Meaning, Move, Push, SaidStint, Show, Undo, Unknown
from bot.language.pick import Pick
from bot.language.understand import understand
from bot.language.wire import UnreadableMeaning, from_json, to_json, to_wire
from tests.language import meanings
from tests.language.person import at

FIELDS = {
    "log": {"stints"},
    "clock_in": {"category", "time"},
    "clock_out": {"category", "time"},
    "close": {"tasks", "words", "minutes"},
    "drop": {"tasks", "words", "minutes"},
    "reopen": {"tasks", "words", "minutes"},
    "push": {"tasks", "words", "to"},
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
REPLIES = (
    "3h workshop",
    "in workshop",
    "out",
    "done 1",
    "drop 1",
    "reopen 1",
    "push 1",
    "task call Ann",
    "goal repair the shed",
    "appt tomorrow 15:00 dentist",
    "move dentist to friday",
    "cancel dentist",
    "routine exercise 30m every day",
    "target learning 5h",
    "hours",
    "undo",
    "morning at 6:30",
    "2h",
    "the weather is fine",
)


@pytest.mark.parametrize(("kind", "reply"), list(zip(FIELDS, REPLIES, strict=True)))
def test_every_kind_has_exactly_the_promised_fields(kind: str, reply: str) -> None:
    wire = to_wire(understand(reply, at()))
    assert wire["kind"] == kind
    assert set(wire) - {"kind"} == FIELDS[kind]


def test_a_stint_has_exactly_the_promised_fields_in_their_forms() -> None:
    wire = to_wire(understand("yesterday 9-12:30 museum less 30m on 1, 2 - stock count", at()))
    assert wire["stints"] == [
        {
            "category": "museum",
            "day": "2026-03-02",
            "start": "09:00",
            "end": "12:30",
            "minutes": 180,
            "break_minutes": 30,
            "tasks": [1, 2],
            "note": "stock count",
        }
    ]


def test_tasks_are_numbers_or_all_or_words() -> None:
    assert to_wire(Close(Pick(numbers=(1, 3)))) == {"kind": "close", "tasks": [1, 3], "words": None, "minutes": None}
    assert to_wire(Drop(Pick(all=True)))["tasks"] == ["all"]
    assert to_wire(Push(Pick(words="glazier"), "week")) == {"kind": "push", "tasks": None, "words": "glazier", "to": "week"}


def test_the_choices_of_a_question_are_such_objects_in_turn() -> None:
    wire = to_wire(Ask((Undo(), Show("help"))))
    assert wire["choices"] == [
        {"kind": "undo"},
        {"kind": "show", "what": "help", "day": None, "from": None, "to": None, "category": None},
    ]


@given(meanings.meanings)
def test_whatever_is_meant_can_be_shown_as_json(meaning: Meaning) -> None:
    wire = to_wire(meaning)
    assert json.loads(json.dumps(wire)) == wire


@given(meanings.meanings)
def test_what_a_button_does_is_kept_without_loss(meaning: Meaning) -> None:
    assert from_json(to_json(meaning)) == meaning


@pytest.mark.parametrize(
    "meaning",
    [
        Close(Pick(ids=(7, 9), goal_ids=(2,))),
        Log((SaidStint(None, date(2026, 3, 2), 60, why="planned"),), despite="replace"),
        Move(None, None, time(9, 30), id=12, from_day=date(2026, 3, 5)),
        Cancel("choir", id=4),
        AddTask("call Ann", date(2026, 3, 3), goal_id=3),
        Undo(entry=99),
        Ask((ClockIn("workshop", time(9)), Unknown(("2h workshop",)))),
        Push(Pick(ids=(1,)), "month"),
    ],
)
def test_what_only_buttons_carry_is_kept_as_well(meaning: Meaning) -> None:
    assert from_json(to_json(meaning)) == meaning


@pytest.mark.parametrize(
    "text",
    [
        "",
        "{}",
        "[]",
        "3",
        '"undo"',
        '{"is":"Undo","more":1}',
        '{"is":"Nothing"}',
        '{"is":"Pick"}',
        '{"is":["Undo"]}',
        '{"is":"date","at":"x"}',
    ],
)
def test_anything_else_is_refused_with_its_text(text: str) -> None:
    with pytest.raises(UnreadableMeaning) as raised:
        from_json(text)
    assert raised.value.text == text
