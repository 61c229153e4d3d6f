"""What was done for a goal is taken off what it still wants."""

from __future__ import annotations

from tests.stage import Stage


def wanted(stage: Stage) -> list[str]:
    return [line for line in stage.say("plan week").lines if "essay" in line]


def test_a_goal_wants_its_estimate_at_first(stage: Stage) -> None:
    stage.say("goal write the essay learning 3h")
    assert wanted(stage) == ["Mon 2 Mar: write the essay (3 h)"]


def test_hours_logged_on_its_tasks_are_taken_off(stage: Stage) -> None:
    stage.say("goal write the essay learning 3h")
    stage.say("task first page learning 1h for goal write the essay")
    stage.say("closed 1 in 1h30")
    assert wanted(stage) == ["Mon 2 Mar: write the essay (1 h 30)"]


def test_so_is_the_estimate_of_one_that_was_closed_without_hours(stage: Stage) -> None:
    stage.say("goal write the essay learning 3h")
    stage.say("task first page learning 1h for goal write the essay")
    stage.say("done 1")
    assert wanted(stage) == ["Mon 2 Mar: write the essay (2 h)"]


def test_a_task_that_is_open_has_its_own_place_in_the_week(stage: Stage) -> None:
    stage.say("goal write the essay learning 3h")
    stage.say("task first page tomorrow learning 1h for goal write the essay")
    assert wanted(stage) == ["Mon 2 Mar: write the essay (2 h)"]


def test_a_goal_that_has_all_its_time_wants_no_more(stage: Stage) -> None:
    stage.say("goal write the essay learning 1h")
    stage.say("task all of it learning 1h for goal write the essay")
    stage.say("closed 1 in 2h")
    assert wanted(stage) == []
    stage.at("2026-03-03 06:00")
    assert "essay" not in "\n".join(line for line in stage.say("plan").lines)


def test_a_task_without_hours_is_offered_the_next_day_with_room(stage: Stage) -> None:
    stage.say("fair tomorrow 6:00-20:00")
    stage.say("task paint the shed tomorrow 2h home")
    stage.at("2026-03-03 06:00")
    said = stage.parcels()[-1]
    assert "No hours for paint the shed (2 h): 1 h is missing. Wed 4 Mar has room for it." in said.text
    assert stage.tap("Push paint the shed to Wed 4 Mar").lines[0] == "Pushed to tomorrow: paint the shed."


def test_a_goal_that_is_carried_wants_only_what_is_left_of_its_estimate(stage: Stage) -> None:
    stage.say("goal write the essay learning 3h")
    stage.say("task first page learning 1h for goal write the essay")
    stage.say("closed 1 in 1h30")
    stage.at("2026-03-09 09:00")
    assert wanted(stage) == ["Mon 9 Mar: write the essay (1 h 30)"]


def test_hours_on_a_task_that_stays_open_are_taken_off_and_it_keeps_its_own_place(stage: Stage) -> None:
    stage.say("goal write the essay learning 3h")
    stage.say("task first page sunday learning 1h for goal write the essay")
    stage.at("2026-03-08 15:00")
    stage.say("45m learning on 1")
    stage.at("2026-03-09 09:00")
    assert wanted(stage) == ["Mon 9 Mar: write the essay (2 h)"]


def test_a_goal_that_used_up_its_estimate_is_carried_without_one(stage: Stage) -> None:
    stage.say("goal write the essay learning 1h")
    stage.say("task all of it learning 1h for goal write the essay")
    stage.say("closed 1 in 2h")
    stage.at("2026-03-09 09:00")
    assert "Personal: write the essay, carried once" in stage.say("goals").lines
    assert wanted(stage) == []


def test_a_carry_taken_back_gives_the_goal_its_whole_estimate_again(stage: Stage) -> None:
    stage.say("goal write the essay learning 3h")
    stage.say("task first page learning 1h for goal write the essay")
    stage.say("closed 1 in 1h30")
    stage.say("push essay to next week")
    stage.say("undo")
    assert stage.look(lambda desk: [each.estimate_minutes for each in desk.goals.all()]) == [180]


def test_the_hours_of_a_target_are_spread_over_the_week(stage: Stage) -> None:
    stage.say("target family at least 7h")
    lines = stage.say("plan week").lines
    assert [line for line in lines if "Family" in line] == [
        f"{day}: Family (1 h)" for day in ("Mon 2 Mar", "Tue 3 Mar", "Wed 4 Mar", "Thu 5 Mar", "Fri 6 Mar", "Sat 7 Mar", "Sun 8 Mar")
    ]


def test_towards_its_end_the_plan_of_a_week_offers_that_of_the_next(stage: Stage) -> None:
    stage.say("goal next week: write the essay learning 3h")
    assert "Plan next week" not in stage.say("plan week").labels
    stage.at("2026-03-08 12:00")
    assert stage.say("plan week").lines[0] == "Plan for 2–8 March"
    planned = stage.tap("Plan next week")
    assert planned.lines == ["Plan for 9–15 March", "Mon 9 Mar: write the essay (3 h)"]
    assert planned.labels == ["Plan tomorrow"]


def test_hours_may_be_told_by_a_goals_own_title(stage: Stage) -> None:
    stage.say("goal write the essay learning 3h")
    answer = stage.say("1h30 write the essay")
    assert answer.lines == [
        "Learning, Mon 2 Mar: 1 h 30",
        "For write the essay, a goal of the week: 1 h 30 left.",
        "Learning today: 1 h 30 in all.",
    ]
    assert wanted(stage) == ["Mon 2 Mar: write the essay (1 h 30)"]
    stage.say("essay 1h done")
    assert wanted(stage) == ["Mon 2 Mar: write the essay (30 min)"]


def test_a_goal_without_a_category_asks_once_for_it(stage: Stage) -> None:
    stage.say("goal spring fair 3h")
    asked = stage.say("spring fair 1h")
    assert asked.text == "Which do you mean?"
    assert "1h learning - spring fair" in asked.labels
    assert "From now on spring fair counts for Learning." in stage.tap("1h learning - spring fair").lines
    assert stage.say("30m spring fair").lines[:2] == ["Learning, Mon 2 Mar: 30 min", "For spring fair, a goal of the week: 1 h 30 left."]


def test_a_goal_that_has_its_task_on_the_day_is_told_by_the_task(stage: Stage) -> None:
    stage.say("goal write the essay learning 3h")
    stage.tap("Do it today")
    assert "For write the essay: 2 h left." in stage.say("1h write the essay").lines
    assert wanted(stage) == []


def test_hours_may_be_told_by_what_was_fixed(stage: Stage) -> None:
    stage.say("pottery class today 6-7 minor")
    stage.say("evening class today 7-8 learning")
    assert "1h home - pottery class" in stage.say("1h pottery class").labels
    assert stage.say("1h evening class").lines[:2] == ["Learning, Mon 2 Mar: 1 h", "Note: evening class"]
