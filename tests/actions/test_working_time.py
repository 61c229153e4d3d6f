"""What the recap says of working time: quietly, three notes at most."""

from __future__ import annotations

from datetime import date, timedelta

import pytest

from tests.stage import Stage

WEEK = [
    ("3 march museum 9-16", "More than 6 h without a break: 7 h on Tue 3 Mar. Check your local rules."),
    ("3 march museum 14-22", "Less than 11 h between two workdays: 8 h before Wed 4 Mar."),
    ("5 march museum 9-12", "Overlapping hours: Museum with Workshop on Thu 5 Mar."),
]


def recap(stage: Stage) -> list[str]:
    return next(
        parcel.text for parcel in reversed(stage.at("2026-03-08 18:00").parcels) if parcel.round == "recap" and parcel.encloses is None
    ).split("\n")


def keep_both(stage: Stage, *said: str) -> None:
    for text in said:
        if "Keep both" in stage.say(text).labels:
            stage.tap("Keep both")


@pytest.mark.parametrize(("said", "line"), WEEK)
def test_each_thing_to_look_at_is_named_with_its_day(stage: Stage, said: str, line: str) -> None:
    stage.jump("2026-03-07 20:00")
    keep_both(stage, "4 march workshop 6-10", "5 march workshop 11-13", said)
    assert any(line in each for each in recap(stage))


def test_an_ordinary_week_has_none_of_them(stage: Stage) -> None:
    stage.jump("2026-03-07 20:00")
    for said in ("3 march museum 13-17", "4 march workshop 8-12", "5 march workshop 9-17 less 30m"):
        stage.say(said)
    assert "local rules" not in "\n".join(recap(stage))


def test_planned_shifts_without_hours_are_named(stage: Stage) -> None:
    stage.say("museum shift every tue 13-17")
    assert "Planned and not noted: Museum on Tue 3 Mar (4 h)." in recap(stage)


def test_more_than_48_hours_a_week_over_seventeen_weeks_is_named(stage: Stage) -> None:
    """17 weeks of 49 hours end with the recap's week; Directive 2003/88/EC, article 6(b)."""
    stage.jump("2026-03-08 17:00")
    for days in range(17 * 7):
        stage.say(f"{date(2026, 3, 8) - timedelta(days=days)} 7h workshop")
    assert any("49 h of work a week on average over 17 weeks, more than 48 h." in line for line in recap(stage))


def test_however_much_there_is_the_three_most_important_are_told_and_the_others_counted(stage: Stage) -> None:
    stage.say("museum shift every thu 18-22")
    stage.jump("2026-03-07 20:00")
    keep_both(stage, "3 march museum 9-16", "3 march workshop 12-23", "4 march workshop 6-10", "5 march workshop 11-13")
    stage.say("handed in workshop 4 march")
    stage.say("4 march 30m workshop")
    stage.tap("Log it as well")
    lines = recap(stage)
    start = next(at for at, line in enumerate(lines) if line.startswith("Planned and not noted"))
    assert "Overlapping hours" in lines[start]
    assert [line.split(":")[0] for line in lines[start:]] == [
        "Planned and not noted",
        "Changed since you handed it in",
        "and 2 more notes on working time",
    ]


def test_of_many_planned_hours_without_any_the_longest_are_named_and_a_tap_names_all(stage: Stage) -> None:
    for said in ("appt tue 9-10 tour museum", "appt wed 13-17 shift museum", "appt thu 9-9:45 visit museum", "appt fri 9-12 market museum"):
        stage.say(said)
    assert "Planned and not noted: Museum on Wed 4 Mar (4 h), Museum on Fri 6 Mar (3 h) and 2 more." in recap(stage)
    (line,) = [each for each in stage.tap("All that was not noted").lines if each.startswith("Planned and not noted")]
    assert line.endswith(
        ": Museum on Tue 3 Mar (1 h), Museum on Wed 4 Mar (4 h), Museum on Thu 5 Mar (45 min) and Museum on Fri 6 Mar (3 h)."
    )
