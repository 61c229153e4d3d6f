"""The plan of a day and of a week: made in the morning, accepted, changed, logged as planned."""

from __future__ import annotations

import pytest

from tests.stage import Stage

NOTHING_TO_ACCEPT = "What you saw last holds no hours to accept; a day's plan does: “plan”, or “plan tomorrow”, shows it."


def blocks(stage: Stage) -> object:
    zone = stage.zone
    return stage.look(
        lambda desk: [
            (f"{each.starts.astimezone(zone):%H:%M}", f"{each.ends.astimezone(zone):%H:%M}", each.title, each.accepted)
            for each in desk.blocks.all()
        ]
    )


def rows_of(found: object) -> list[tuple[str, str, str, bool]]:
    assert isinstance(found, list)
    return found


def fill(stage: Stage) -> None:
    stage.say("workshop shift every tue 9-17 workshop")
    stage.say("routine exercise 30m every day 7-8")
    stage.say("task order spokes tomorrow 30m workshop")
    stage.say("task call the glazier tomorrow")


def test_the_morning_message_carries_a_plan_in_hours(stage: Stage) -> None:
    fill(stage)
    said = stage.at("2026-03-03 06:00").parcels[-1]
    lines = said.text.split("\n")
    start = lines.index("A plan that fits")
    assert lines[start + 1 : start + 4] == [
        "06:00–06:30 1 order spokes",
        "06:30–07:00 2 call the glazier",
        "07:00–07:30 exercise",
    ]
    assert [row[0].label for row in said.buttons] == ["Accept the plan"]


def test_the_plan_is_accepted_with_a_tap(stage: Stage) -> None:
    fill(stage)
    stage.at("2026-03-03 06:00")
    answer = stage.tap("Accept the plan")
    assert answer.lines[0] == "Your plan for today:"
    assert blocks(stage) == [
        ("06:00", "06:30", "order spokes", True),
        ("06:30", "07:00", "call the glazier", True),
        ("07:00", "07:30", "exercise", True),
    ]
    stage.tap("Undo")
    assert not any(accepted for *_, accepted in blocks(stage))  # type: ignore[attr-defined]


def test_hours_said_for_a_task_change_the_plan(stage: Stage) -> None:
    fill(stage)
    stage.at("2026-03-03 06:00")
    answer = stage.say("18-19 spokes")
    assert "18:00–19:00 1 order spokes" in answer.lines
    assert all(accepted for *_, accepted in blocks(stage))  # type: ignore[attr-defined]


def test_hours_that_are_taken_are_refused_and_named(stage: Stage) -> None:
    fill(stage)
    stage.at("2026-03-03 06:00")
    before = blocks(stage)
    assert stage.say("10-11 spokes").text == "Those hours are not free: workshop shift, 09:00. The plan stays."
    assert blocks(stage) == before


def test_two_tasks_swap_their_places(stage: Stage) -> None:
    fill(stage)
    stage.at("2026-03-03 06:00")
    assert stage.say("swap 1 and 2").lines[1:3] == ["06:00–06:30 2 call the glazier", "06:30–07:00 1 order spokes"]


def test_a_task_that_is_not_in_the_plan_swaps_with_none(stage: Stage) -> None:
    fill(stage)
    stage.at("2026-03-03 06:00")
    stage.say("accept")
    stage.say("task oil the chains today 45m workshop")
    before = blocks(stage)
    assert stage.say("swap 1 and 3").text == "I find nothing called “oil the chains” in today's plan."
    assert blocks(stage) == before


def test_later_finds_a_later_hour(stage: Stage) -> None:
    fill(stage)
    stage.at("2026-03-03 06:00")
    assert "07:30–08:00 1 order spokes" in stage.say("later 1").lines


def test_not_today_pushes_the_task_to_tomorrow(stage: Stage) -> None:
    fill(stage)
    stage.at("2026-03-03 06:00")
    answer = stage.say("not today 1")
    assert answer.lines[0] == "Pushed to tomorrow: order spokes."
    assert "order spokes" not in answer.text.split("\n", 1)[1]


@pytest.mark.parametrize("said", ["later 2", "not today 2", "not today walk", "18-19 spokes", "swap 1 and 2", "later walk"])
def test_a_proposal_of_hours_that_are_past_is_planned_anew_before_it_is_changed(stage: Stage, said: str) -> None:
    fill(stage)
    stage.say("routine walk 20m every day home")
    stage.at("2026-03-03 06:00")
    stage.jump("2026-03-03 13:00")
    answer = stage.say(said)
    assert "Some of those hours are past, so I planned what is left of the day." in answer.lines
    found = rows_of(blocks(stage))
    assert found
    assert all(accepted and starts >= "13:00" for starts, _, _, accepted in found)


def test_accepted_hours_that_are_past_stay_where_they_are(stage: Stage) -> None:
    fill(stage)
    stage.say("routine walk 20m every day home")
    stage.at("2026-03-03 06:00")
    stage.say("accept")
    stage.jump("2026-03-03 13:00")
    assert stage.say("not today 2").lines[:3] == ["Pushed to tomorrow: call the glazier.", "Your plan for today:", "06:00–06:30 walk"]


def test_what_is_not_planned_is_named(stage: Stage) -> None:
    assert stage.say("later 7").text == "I find no task “7” here."


def test_a_plan_is_made_when_asked_for(stage: Stage) -> None:
    fill(stage)
    stage.at("2026-03-03 12:10")
    assert stage.say("plan").lines[:3] == ["Plan for today", "17:00–17:30 1 order spokes", "17:30–18:00 2 call the glazier"]


def test_what_does_not_fit_is_named_with_what_would_make_it_fit(stage: Stage) -> None:
    stage.say("appt tomorrow 6:00-20:00 fair")
    stage.say("task paint the fence tomorrow 2h home")
    stage.at("2026-03-03 06:00")
    assert "No hours for paint the fence (2 h): 1 h is missing." in stage.parcels()[-1].text


def test_where_a_task_found_no_hours_nothing_says_that_all_fits(stage: Stage) -> None:
    stage.say("appt tomorrow 6:30-20:30 fair")
    stage.say("task paint the shed tomorrow 45m")
    lines = stage.at("2026-03-03 06:05").lines
    assert any(line.startswith("No hours for paint the shed (45 min)") for line in lines)
    assert not any("they fit" in line for line in lines)


def test_accepted_hours_without_stints_are_asked_for_in_the_evening(stage: Stage) -> None:
    fill(stage)
    stage.at("2026-03-03 06:00")
    stage.tap("Accept the plan")
    stage.say("done all")
    stage.at("2026-03-03 17:30")
    stage.say("8h workshop")
    said = stage.at("2026-03-03 20:00")
    assert said.parcels == () or "Log workshop 06:00–06:30" in said.labels


def test_an_accepted_goal_becomes_a_task_that_can_be_closed(stage: Stage) -> None:
    stage.say("goal finish chapter 4 learning 1h")
    stage.at("2026-03-03 06:00")
    stage.tap("Accept the plan")
    assert stage.say("done chapter 4").lines[0] == "Closed: finish chapter 4."


def test_the_week_is_planned_day_by_day(stage: Stage) -> None:
    stage.say("goal finish chapter 4 learning 3h")
    stage.say("goal sort the tools workshop 2h")
    answer = stage.say("plan week")
    assert answer.lines[0] == "Plan for 2–8 March"
    assert "finish chapter 4" in answer.text
    assert "No room" not in answer.text


def test_what_the_week_cannot_hold_is_said_at_once(stage: Stage) -> None:
    stage.say("shift every day 6:00-20:00 workshop")
    stage.say("goal write the report learning 20h")
    assert "No room for" in stage.say("plan week").text


def test_estimates_are_corrected_by_what_such_tasks_took(stage: Stage) -> None:
    for number in range(1, 9):
        stage.say(f"task job {number} 30m workshop")
        stage.say(f"closed {number} in 1h")
    stage.say("task job 9 tomorrow 30m workshop")
    said = stage.at("2026-03-03 06:00").text
    assert "For workshop you usually need" in said


def test_accept_means_the_plan_that_was_shown_last(stage: Stage) -> None:
    stage.say("task order spokes tomorrow")
    stage.say("plan")
    stage.say("plan tomorrow")
    stage.say("tasks")
    assert stage.say("accept").lines == ["Your plan for tomorrow:", "06:00–06:30 1 order spokes"]
    stage.say("task call the glazier")
    stage.say("plan")
    assert stage.say("accept").lines[0] == "Your plan for today:"


def test_a_weeks_plan_cannot_be_accepted_and_the_answer_says_what_can(stage: Stage) -> None:
    stage.say("goal finish chapter 4 learning 3h")
    assert "Plan today" in stage.say("plan week").labels
    assert stage.say("accept").text == NOTHING_TO_ACCEPT
    stage.tap("Plan today")
    assert stage.say("accept").lines[0] == "Your plan for today:"


def test_an_empty_plan_of_tomorrow_is_not_taken_for_todays(stage: Stage) -> None:
    stage.say("task order spokes")
    stage.say("plan")
    assert stage.say("plan tomorrow").labels == ["Plan again"]
    assert stage.say("accept").text == NOTHING_TO_ACCEPT
    assert not any(accepted for *_, accepted in rows_of(blocks(stage)))
    stage.say("task call the glazier tomorrow")
    stage.say("plan tomorrow")
    assert stage.say("accept").lines[0] == "Your plan for tomorrow:"


def test_accepting_late_plans_what_is_left_of_the_day(stage: Stage) -> None:
    stage.say("task paint the fence 6h")
    stage.say("plan")
    stage.jump("2026-03-02 14:00")
    said = stage.say("accept")
    assert said.lines == [
        "Some of those hours are past, so I planned what is left of the day.",
        "Your plan for today:",
        "Nothing planned.",
        "No hours for paint the fence (6 h): it would fit if 30 min less were kept for what comes up. Tue 3 Mar has room for it.",
    ]
    stage.say("task oil the chains 1h")
    assert stage.say("plan").lines[1] == "14:00–15:00 2 oil the chains"
    stage.jump("2026-03-02 14:20")
    assert stage.say("accept").lines[1] == "14:00–15:00 2 oil the chains"


def three_tasks(stage: Stage) -> None:
    for title in ("order spokes", "sort the post", "call the glazier"):
        stage.say(f"task {title} 1h workshop")
    stage.say("plan")
    stage.say("accept")


def test_several_are_left_out_of_today_at_once(stage: Stage) -> None:
    three_tasks(stage)
    answer = stage.say("not today 1 and 3")
    assert answer.lines[0] == "Pushed to tomorrow: order spokes and call the glazier."
    assert next(line for line in answer.lines if "–" in line).endswith("2 sort the post")
    assert stage.say("tasks").lines[1:] == ["2 sort the post, 1 h"]


def test_all_are_left_out_of_today(stage: Stage) -> None:
    three_tasks(stage)
    stage.say("routine exercise 30m every day")
    stage.say("plan")
    stage.say("accept")
    answer = stage.say("not today all")
    assert answer.lines[0] == "Pushed to tomorrow: order spokes, sort the post and call the glazier."
    assert answer.lines[1] == "Left out today: exercise."
    assert answer.lines[-1] == "Nothing planned."


def test_several_go_to_later_hours_at_once(stage: Stage) -> None:
    three_tasks(stage)
    before = rows_of(blocks(stage))
    assert stage.say("later 1 and 2").lines[0] == "Your plan for today:"
    after = {title: starts for starts, _, title, _ in rows_of(blocks(stage))}
    assert after["call the glazier"] == before[2][0]
    assert after["order spokes"] >= before[0][1]
    assert after["sort the post"] >= before[1][1]


def test_where_one_of_several_finds_no_later_hour_all_stay(stage: Stage) -> None:
    three_tasks(stage)
    stage.say("task sweep the yard 20h workshop")
    before = blocks(stage)
    assert stage.say("later 4 and 1").lines[0].startswith("No later hour of today is free for sweep the yard")
    assert blocks(stage) == before


def test_a_slice_of_a_goal_goes_to_a_later_hour(stage: Stage) -> None:
    stage.say("goal survey 2h workshop")
    stage.say("goal report 1h workshop")
    stage.say("plan")
    stage.say("accept")
    before = rows_of(blocks(stage))
    answer = stage.say("later 1")
    assert answer.lines[0] == "Your plan for today:"
    moved = next(row for row in rows_of(blocks(stage)) if row[2] == before[0][2])
    assert moved[0] >= before[0][1]


def test_a_plan_accepted_the_evening_before_is_told_as_accepted_in_the_morning(stage: Stage) -> None:
    stage.say("task order spokes tomorrow 30m workshop")
    stage.at("2026-03-02 20:30")
    stage.say("plan tomorrow")
    stage.say("accept")
    said = stage.at("2026-03-03 06:00")
    assert said.lines[said.lines.index("Your plan") + 1] == "06:00–06:30 1 order spokes"
    assert "Accept the plan" not in said.labels
    stage.say("task call the glazier")
    assert "Accept the plan" in stage.say("plan").labels
