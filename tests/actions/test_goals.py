"""Goals: add, meet, carry, drop."""

from __future__ import annotations

import pytest

from tests.stage import Stage


def goals(stage: Stage) -> object:
    return stage.look(lambda desk: [(each.title, each.period.isoformat(), each.state.value, each.carried) for each in desk.goals.all()])


def test_a_goal_belongs_to_this_week_and_takes_its_categorys_section(stage: Stage) -> None:
    answer = stage.say("goal finish chapter 4 learning 3h")
    assert answer.lines == ["Goal for this week: finish chapter 4, 3 h.", "Learning, personal."]
    assert goals(stage) == [("finish chapter 4", "2026-03-02", "open", 0)]


def test_a_month_goal_belongs_to_the_month(stage: Stage) -> None:
    assert stage.say("month goal paint the shed home").lines[0] == "Goal for March 2026: paint the shed."


def test_from_the_recap_on_a_goal_is_for_the_week_ahead(stage: Stage) -> None:
    stage.at("2026-03-08 18:30")
    assert stage.say("goal finish chapter 4 learning").lines[0] == "Goal for the week of 9–15 March: finish chapter 4."
    assert "finish chapter 4" in stage.say("goals").text
    assert stage.say("week").lines[0] == "Week of 9–15 March"


def test_a_goal_is_met_dropped_and_opened_again_by_its_words(stage: Stage) -> None:
    stage.say("goal finish chapter 4 learning")
    assert stage.say("done chapter 4").text == "Met: finish chapter 4."
    assert stage.say("done chapter 4").text == "finish chapter 4 is met already. Nothing changed."
    assert stage.say("reopen chapter 4").text == "Open again: finish chapter 4."
    assert stage.say("drop chapter 4").text == "Dropped: finish chapter 4."
    assert stage.say("drop chapter 4").text == "finish chapter 4 is dropped already. Nothing changed."


def test_meeting_a_week_goal_that_came_from_the_month_meets_both(stage: Stage) -> None:
    stage.say("month goal paint the shed home")
    stage.say("push paint the shed to next week")
    stage.at("2026-03-09 09:00")
    stage.say("done paint the shed")
    assert goals(stage) == [("paint the shed", "2026-03-01", "met", 0), ("paint the shed", "2026-03-09", "met", 0)]


def test_an_unmet_goal_carries_by_itself_on_monday_and_counts_it(stage: Stage) -> None:
    stage.say("goal finish chapter 4 learning")
    said = stage.at("2026-03-09 06:30").text
    assert "finish chapter 4, carried once" in said
    assert goals(stage) == [("finish chapter 4", "2026-03-02", "carried", 0), ("finish chapter 4", "2026-03-09", "open", 1)]


def test_a_met_or_dropped_goal_does_not_carry(stage: Stage) -> None:
    stage.say("goal finish chapter 4 learning")
    stage.say("goal oil the gate home")
    stage.say("done chapter 4")
    stage.say("drop oil the gate")
    assert "carried" not in stage.at("2026-03-09 06:30").text


def test_the_recaps_buttons_carry_put_back_and_drop(stage: Stage) -> None:
    for title in ("finish chapter 4", "oil the gate", "sort the screws"):
        stage.say(f"goal {title}")
    stage.at("2026-03-08 18:01")
    assert stage.tap("Carry 1").text == "Carried to next week's goals: finish chapter 4."
    assert stage.tap("To the month 2").text == "Carried to the month's goals: oil the gate."
    assert stage.tap("Drop 3").text == "Dropped: sort the screws."
    assert stage.tap("Carry 1").text == "finish chapter 4 is carried on already. Nothing changed."
    assert goals(stage) == [
        ("finish chapter 4", "2026-03-02", "carried", 0),
        ("oil the gate", "2026-03-02", "carried", 0),
        ("sort the screws", "2026-03-02", "dropped", 0),
        ("finish chapter 4", "2026-03-09", "open", 1),
        ("oil the gate", "2026-03-01", "open", 0),
    ]


def test_carry_all_carries_every_unmet_goal(stage: Stage) -> None:
    stage.say("goal finish chapter 4")
    stage.say("goal oil the gate")
    stage.at("2026-03-08 18:01")
    assert stage.tap("Carry all").text == "Carried to next week's goals: finish chapter 4 and oil the gate."


def test_a_task_follows_the_goal_it_serves_into_the_next_week(stage: Stage) -> None:
    stage.say("goal finish chapter 4 learning")
    stage.tap("Do it today")
    stage.at("2026-03-09 06:30")
    served = stage.look(lambda desk: [(each.goal_id, each.day.isoformat()) for each in desk.tasks.all()])
    assert served == [(2, "2026-03-09")]


def test_a_goal_may_be_pushed_to_a_day_as_a_task(stage: Stage) -> None:
    stage.say("goal finish chapter 4 learning 3h")
    stage.say("push chapter 4 to wednesday")
    found = stage.look(lambda desk: [(each.title, each.day.isoformat(), each.estimate_minutes) for each in desk.tasks.all()])
    assert found == [("finish chapter 4", "2026-03-04", 180)]


def test_the_mornings_button_makes_a_task_of_a_goal_for_today(stage: Stage) -> None:
    stage.say("goal finish chapter 4 learning 3h")
    stage.at("2026-03-03 06:01")
    assert stage.tap("Today: finish chapter 4").lines[0] == "Task 1 for today: finish chapter 4, 3 h."
    assert stage.tap("Today: finish chapter 4").text == "You chose that already. Nothing changed."


def test_a_goal_may_be_for_next_week_and_for_a_month_to_come(stage: Stage) -> None:
    answer = stage.say("goal next week: fix the tandem workshop")
    assert answer.lines[0] == "Goal for the week of 9–15 March: fix the tandem."
    assert answer.labels == ["Undo"]
    assert stage.say("goal april: paint the shed home").lines[0] == "Goal for April 2026: paint the shed."
    assert goals(stage) == [("fix the tandem", "2026-03-09", "open", 0), ("paint the shed", "2026-04-01", "open", 0)]


def test_a_goal_told_on_a_weeks_last_day_goes_to_the_next_with_a_tap(stage: Stage) -> None:
    assert "For next week instead" not in stage.say("goal fix the tandem").labels
    stage.at("2026-03-08 15:00")
    stage.say("goal sort the screws")
    assert stage.tap("For next week instead").text == "Carried to next week's goals: sort the screws."
    assert "Goals: sort the screws." in stage.say("next week").lines
    assert "Goals: fix the tandem; sort the screws." in stage.at("2026-03-08 18:00").lines


def test_a_goal_of_the_month_is_pulled_into_this_week(stage: Stage) -> None:
    stage.say("month goal read 2 books learning")
    stage.say("month goal paint the shed home")
    assert stage.say("pull read 2 books").text == "Carried to this week's goals: read 2 books."
    assert stage.say("pull read 2 books").text == "read 2 books is there already. Nothing changed."
    assert stage.say("paint the shed this week").text == "Carried to this week's goals: paint the shed."
    assert stage.say("goals").lines[:2] == ["Goals of this week", "Personal: read 2 books; paint the shed"]


def test_a_goal_of_next_week_comes_forward_and_a_task_becomes_one_of_this_week(stage: Stage) -> None:
    stage.say("goal next week: fix the tandem")
    assert stage.say("goals next week").lines == ["Goals of the week of 9–15 March", "Personal: fix the tandem"]
    assert stage.say("pull fix the tandem into this week").text == "Carried to this week's goals: fix the tandem."
    stage.say("task wash the car")
    assert stage.say("push wash the car to this week").text == "Pushed to this week's goals: wash the car."
    assert stage.say("goals this week").lines == ["Goals of this week", "Personal: fix the tandem; wash the car"]
    assert stage.say("goals next month").lines == ["Goals of April 2026", "Nothing waits."]


def test_a_goal_that_was_carried_is_not_carried_once_more(stage: Stage) -> None:
    stage.say("goal finish chapter 4 learning")
    assert stage.say("carry chapter 4").text == "Carried to next week's goals: finish chapter 4."
    assert stage.say("carry chapter 4").text == "finish chapter 4 is there already. Nothing changed."
    assert goals(stage) == [("finish chapter 4", "2026-03-02", "carried", 0), ("finish chapter 4", "2026-03-09", "open", 1)]


def test_a_goal_of_the_month_is_put_into_next_week_once(stage: Stage) -> None:
    stage.say("month goal paint the shed home")
    stage.say("push paint the shed to next week")
    assert stage.say("push paint the shed to next week").text == "paint the shed is there already. Nothing changed."
    assert goals(stage) == [("paint the shed", "2026-03-01", "open", 0), ("paint the shed", "2026-03-09", "open", 0)]


def test_a_month_that_is_named_takes_goals_of_the_week_of_the_month_and_tasks(stage: Stage) -> None:
    stage.say("goal finish chapter 4 learning")
    stage.say("month goal paint the shed home")
    stage.say("task wash the car")
    assert stage.say("carry chapter 4 to april").text == "Carried to next month's goals: finish chapter 4."
    assert stage.say("carry shed to april").text == "Carried to next month's goals: paint the shed."
    assert stage.say("push car to april").text == "Pushed to next month's goals: wash the car."
    stage.say("april goal mend the fence home")
    assert stage.say("goals april").lines == [
        "Goals of April 2026",
        "Personal: finish chapter 4; paint the shed, carried once; wash the car; mend the fence",
    ]


def test_carrying_all_where_nothing_is_open_says_so(stage: Stage) -> None:
    assert stage.say("carry all").text == "No goal of this week is open."


def with_a_task_of_its_title(stage: Stage) -> None:
    stage.say("goal practise guitar 2h")
    stage.tap("Do it today")
    stage.say("goal call the bank")


@pytest.mark.parametrize(
    "said", ["drop goal practise guitar", "drop the guitar goal", "delete goal practise guitar", "drop my goal guitar"]
)
def test_where_a_goal_is_said_the_goal_is_dropped_and_not_the_task_of_that_name_alone(stage: Stage, said: str) -> None:
    with_a_task_of_its_title(stage)
    assert stage.say(said).lines == ["Dropped: practise guitar.", "Task dropped too: practise guitar."]
    assert "guitar" not in stage.say("goals").text


@pytest.mark.parametrize(
    "said",
    [
        "done call the bank",
        "call the bank is done",
        "close call the bank",
        "finished call the bank",
        "done goal call the bank",
        "goal call the bank done",
        "the bank goal is done",
        "goal bank is done",
    ],
)
def test_a_goal_is_met_by_its_title_or_as_a_goal(stage: Stage, said: str) -> None:
    with_a_task_of_its_title(stage)
    assert stage.say(said).lines == ["Met: call the bank."]


def test_a_goal_told_as_done_makes_no_new_one(stage: Stage) -> None:
    with_a_task_of_its_title(stage)
    assert stage.say("goal homework done").text == "I find no goal “homework”."
    assert stage.say("goal get the homework done").lines[0] == "Goal for this week: get the homework done."


def test_a_task_with_the_word_goal_in_its_title_is_that_task(stage: Stage) -> None:
    stage.say("goal review 1h")
    stage.say("task write the goal review")
    assert stage.say("done goal review").lines == ["Closed: write the goal review."]


def test_a_goal_pushed_to_a_day_takes_its_own_task_along(stage: Stage) -> None:
    with_a_task_of_its_title(stage)
    assert stage.say("push goal practise guitar to tomorrow").lines == ["Pushed to tomorrow: practise guitar."]
    assert stage.say("tasks").lines[1:] == ["No task is open."]
    assert len([line for line in stage.say("tasks tomorrow").lines if "guitar" in line]) == 1
