"""Days that are named without "every" come every week, and a tap keeps only the coming ones."""

from __future__ import annotations

import pytest

from storage.records import Commitment
from tests.stage import Stage


def kept(stage: Stage) -> list[tuple[str, str | None]]:
    """The start, in local time, and the rule of each that holds."""
    found = stage.look(lambda desk: desk.commitments.all())
    assert isinstance(found, tuple)
    zone = stage.zone
    held: list[Commitment] = [each for each in found if not each.cancelled]
    return [(f"{each.starts.astimezone(zone):%a %H:%M}", each.rule) for each in held]


def test_a_tap_keeps_only_the_two_days(stage: Stage) -> None:
    answer = stage.say("work sat and sun 10-16")
    assert answer.text == "Added: Sat 7 Mar, 10:00–16:00 work, every Saturday and Sunday."
    assert answer.labels == ["Only Sat 7 Mar and Sun 8 Mar", "Undo"]
    only = stage.tap("Only Sat 7 Mar and Sun 8 Mar")
    assert only.lines == ["Cancelled, every time: work.", "Added: Sat 7 Mar, 10:00–16:00 work.", "Added: Sun 8 Mar, 10:00–16:00 work."]
    assert kept(stage) == [("Sat 10:00", None), ("Sun 10:00", None)]
    assert stage.tap("Only Sat 7 Mar and Sun 8 Mar").text == "You chose that already. Nothing changed."


def test_one_undo_brings_every_week_back(stage: Stage) -> None:
    stage.say("work sat and sun 10-16")
    stage.tap("Only Sat 7 Mar and Sun 8 Mar")
    stage.say("undo")
    assert kept(stage) == [("Sat 10:00", "FREQ=WEEKLY;BYDAY=SA,SU")]


def test_of_more_days_the_label_counts_them(stage: Stage) -> None:
    assert stage.say("course mon-fri 18-19:30").labels[0] == "Only the coming 5 days"
    stage.tap("Only the coming 5 days")
    assert [start for start, _ in kept(stage)] == [f"{day} 18:00" for day in ("Mon", "Tue", "Wed", "Thu", "Fri")]


@pytest.mark.parametrize(
    "said", ["work every sat and sun 10-16", "work saturdays and sundays 10-16", "work weekdays 17-18", "work sat and sun 10-16 until june"]
)
def test_what_is_said_to_recur_is_not_asked_about(stage: Stage, said: str) -> None:
    assert not any(label.startswith("Only") for label in stage.say(said).labels)


def test_what_was_said_beside_it_stays(stage: Stage) -> None:
    stage.say("task buy bread; work sat and sun 10-16")
    stage.tap("Only Sat 7 Mar and Sun 8 Mar")
    assert "1 buy bread" in stage.say("tasks").lines
