"""A goal that is planned over several days: each day has a slice of it, and all slices together are the goal and no more."""

from __future__ import annotations

from tests.stage import Answer, Stage


def blocks_of(answer: Answer) -> list[str]:
    return [line for line in answer.lines if "survey" in line and "–" in line]


def open_minutes(stage: Stage) -> int:
    """The estimates of the open tasks together."""
    found = stage.look(lambda desk: sum(task.estimate_minutes or 0 for task in desk.tasks.open()))
    assert isinstance(found, int)
    return found


def test_what_today_leaves_undone_is_planned_for_tomorrow_once(stage: Stage) -> None:
    stage.say("goal survey 6h learning")
    stage.say("plan")
    stage.say("accept")
    stage.at("2026-03-02 20:10")
    assert blocks_of(stage.say("plan tomorrow")) == ["06:00–12:00 survey"]
    assert blocks_of(stage.say("accept")) == ["06:00–12:00 1 survey"]
    stage.at("2026-03-03 06:40")
    assert stage.say("tasks").lines[1:] == ["1 survey, 6 h, since Mon 2 Mar"]
    assert open_minutes(stage) == 360


def test_an_ordinary_task_that_is_left_over_is_planned_for_tomorrow_too(stage: Stage) -> None:
    stage.say("task survey 1h learning")
    stage.say("plan")
    stage.say("accept")
    assert blocks_of(stage.say("plan tomorrow")) == []
    stage.at("2026-03-02 20:10")
    assert blocks_of(stage.say("plan tomorrow")) == ["06:00–07:00 survey"]


def test_what_was_done_of_the_slice_is_not_planned_again(stage: Stage) -> None:
    stage.say("goal survey 6h learning")
    stage.say("plan")
    stage.say("accept")
    stage.say("survey 4h")
    stage.at("2026-03-02 20:10")
    assert blocks_of(stage.say("plan tomorrow")) == ["06:00–08:00 survey"]


def test_a_goal_that_is_placed_today_wants_nothing_tomorrow(stage: Stage) -> None:
    stage.say("goal survey 3h learning")
    stage.say("plan")
    stage.say("accept")
    assert stage.say("plan tomorrow").lines == ["Plan for tomorrow", "Nothing to plan."]


def test_the_rest_of_a_long_goal_is_planned_beside_the_slice_that_is_open(stage: Stage) -> None:
    stage.say("goal survey 20h learning")
    stage.say("plan")
    stage.say("accept")
    slice_of_today = open_minutes(stage)
    assert 0 < slice_of_today < 20 * 60
    stage.say(f"survey {slice_of_today}m")
    stage.at("2026-03-04 06:40")
    stage.say("plan")
    stage.say("accept")
    assert open_minutes(stage) == 20 * 60
    assert len([line for line in stage.say("tasks").lines if "survey" in line]) == 1
    rest = 20 * 60 - slice_of_today
    assert f"1 survey, {rest // 60} h" in stage.say("tasks").text


def test_what_only_a_task_without_an_estimate_serves_is_not_planned_beside_it(stage: Stage) -> None:
    stage.say("goal survey 3h learning")
    stage.say("task first page learning for goal survey")
    assert blocks_of(stage.say("plan")) == []


def test_a_slice_that_is_done_leaves_the_goal_open_with_what_is_left(stage: Stage) -> None:
    stage.say("goal survey 20h learning")
    stage.say("plan")
    stage.say("accept")
    assert open_minutes(stage) == 570
    answer = stage.say("done 1")
    assert answer.lines == ["Closed: survey.", "Goal still open: survey, 10 h 30 left."]
    assert "survey, 20 h" in stage.say("goals").text
    assert "Goal met: survey" in answer.labels


def test_a_slice_that_was_all_of_the_rest_meets_the_goal_whatever_hours_it_took(stage: Stage) -> None:
    stage.say("goal survey 6h learning")
    stage.say("plan")
    stage.say("accept")
    stage.say("survey 2h")
    assert stage.say("done 1").lines == ["Closed: survey.", "Goal met too: survey."]


def test_closing_all_in_the_evening_leaves_a_long_goal_open(stage: Stage) -> None:
    stage.say("task call the glazier 30m")
    stage.say("goal survey 20h learning")
    stage.say("plan")
    stage.say("accept")
    stage.at("2026-03-02 20:00")
    answer = stage.tap("Close all")
    assert "Goal met too" not in answer.text
    assert any(line.startswith("Goal still open: survey, ") for line in answer.lines)


def test_a_task_that_is_open_again_opens_the_goal_that_was_met_with_it(stage: Stage) -> None:
    stage.say("goal survey 6h learning")
    stage.say("plan")
    stage.say("accept")
    stage.say("done survey")
    assert stage.say("reopen survey").lines == ["Open again: survey.", "Goal open again too: survey."]
    assert "survey, 6 h" in stage.say("goals").text


def test_so_is_the_months_goal_that_was_met_with_both(stage: Stage) -> None:
    stage.say("goal this month survey 6h learning")
    stage.say("survey this week")
    stage.say("plan")
    stage.say("accept")
    stage.say("done survey")
    assert "survey" not in stage.say("goals this month").text
    stage.say("reopen survey")
    assert "survey" in stage.say("goals this month").text


def test_a_week_whose_goals_are_all_tasks_says_so(stage: Stage) -> None:
    assert stage.say("plan week").lines[1] == "No open goal has an estimate, so there is nothing to plan."
    stage.say("goal survey 3h learning")
    stage.tap("Do it today")
    assert stage.say("plan week").lines[1] == "The goals have all their hours already, done or as tasks, so there is nothing to plan."
