"""Tasks: add, close, drop, reopen, push."""

from __future__ import annotations

from tests.stage import Stage


def tasks(stage: Stage) -> object:
    return stage.look(lambda desk: [(each.title, each.day.isoformat(), each.state.value) for each in desk.tasks.all()])


def test_a_task_is_kept_under_the_days_next_number(stage: Stage) -> None:
    assert stage.say("task order spokes 30m workshop").lines == ["Task 1 for today: order spokes, 30 min.", "Workshop."]
    assert stage.say("task call the glazier").lines == ["Task 2 for today: call the glazier."]


def test_a_task_may_be_for_another_day(stage: Stage) -> None:
    assert stage.say("task order spokes friday").lines == ["Task 1 for Fri 6 Mar: order spokes."]


def test_a_task_that_does_not_fit_the_free_hours_is_pointed_out(stage: Stage) -> None:
    stage.say("appt today 10-20 fair")
    answer = stage.say("task clean the shed 3h home")
    assert answer.lines[-1] == "That day's tasks now need 3 h, with 1 h 36 free to fill."


def test_tasks_are_closed_by_number_words_or_all_at_once(stage: Stage) -> None:
    for title in ("order spokes", "call the glazier", "oil the chains", "true the wheels"):
        stage.say(f"task {title}")
    assert stage.say("done 1").text == "Closed: order spokes."
    assert stage.say("done glazier").text == "Closed: call the glazier."
    assert stage.say("done all").text == "Closed: oil the chains and true the wheels."


def test_a_task_is_closed_by_being_told_in_the_past(stage: Stage) -> None:
    stage.say("task buy flour home")
    stage.say("task call the glazier")
    assert stage.say("bought flour 20m").lines == ["Closed: buy flour.", "Home, Mon 2 Mar: 20 min", "Home today: 20 min in all."]
    assert stage.say("the glazier called").text == "Closed: call the glazier."


def test_a_task_told_of_another_day_has_its_hours_there(stage: Stage) -> None:
    stage.say("task buy flour home")
    assert stage.say("bought flour yesterday 20m").lines[1] == "Home, Sun 1 Mar: 20 min"


def test_closing_with_minutes_logs_them_on_the_tasks_category(stage: Stage) -> None:
    stage.say("task order spokes workshop")
    answer = stage.say("closed 1 in 45m")
    assert answer.lines == ["Closed: order spokes.", "Workshop, Mon 2 Mar: 45 min", "Workshop today: 45 min in all."]


def test_closing_with_minutes_and_no_category_asks_which(stage: Stage) -> None:
    stage.say("task call the glazier")
    answer = stage.say("closed 1 in 45m")
    assert answer.lines == ["Which do you mean?"]
    stage.tap(next(label for label in answer.labels if "museum" in label))
    assert stage.look(lambda desk: [each.minutes for each in desk.stints.all()]) == [45]
    assert tasks(stage) == [("call the glazier", "2026-03-02", "closed")]


def test_closing_what_is_closed_says_so_and_changes_nothing(stage: Stage) -> None:
    stage.say("task order spokes")
    stage.say("done 1")
    answer = stage.say("done 1")
    assert answer.text == "order spokes is closed already. Nothing changed."
    assert answer.labels == []


def test_a_number_that_is_not_there_is_named(stage: Stage) -> None:
    assert stage.say("done 4").text == "I find no task “4” here."


def test_with_nothing_open_all_says_so(stage: Stage) -> None:
    assert stage.say("done all").text == "No task is open."


def test_dropped_tasks_can_be_opened_again(stage: Stage) -> None:
    stage.say("task order spokes")
    assert stage.say("drop 1").text == "Dropped: order spokes."
    assert stage.say("drop 1").text == "order spokes is dropped already. Nothing changed."
    assert stage.say("reopen 1").text == "Open again: order spokes."
    assert stage.say("reopen 1").text == "order spokes is open already. Nothing changed."


def test_a_push_goes_to_tomorrow_unless_a_day_is_named(stage: Stage) -> None:
    stage.say("task order spokes")
    stage.say("task call the glazier")
    assert stage.say("push 1").text == "Pushed to tomorrow: order spokes."
    assert stage.say("push 2 to friday").text == "Pushed to Fri 6 Mar: call the glazier."
    assert tasks(stage) == [("order spokes", "2026-03-03", "open"), ("call the glazier", "2026-03-06", "open")]


def test_a_pushed_task_remembers_each_push(stage: Stage) -> None:
    stage.say("task order spokes")
    stage.say("push 1")
    stage.at("2026-03-03 20:30")
    assert "1 order spokes, since Mon 2 Mar" in stage.say("today").lines


def test_a_task_may_become_a_goal_of_next_week_or_of_the_month(stage: Stage) -> None:
    stage.say("task repaint the sign home")
    stage.say("task sort the screws")
    assert stage.say("push 1 to next week").text == "Pushed to next week's goals: repaint the sign."
    assert stage.say("push 2 to the month").text == "Pushed to the month's goals: sort the screws."
    goals = stage.look(lambda desk: [(each.title, each.horizon.value, each.period.isoformat()) for each in desk.goals.all()])
    assert goals == [("repaint the sign", "week", "2026-03-09"), ("sort the screws", "month", "2026-03-01")]
    assert tasks(stage) == []


def test_what_is_left_open_goes_to_the_next_day_by_itself(stage: Stage) -> None:
    stage.say("task order spokes")
    said = stage.at("2026-03-03 06:30").text
    assert "06:00–06:30 1 order spokes" in said
    assert tasks(stage) == [("order spokes", "2026-03-03", "open")]


def test_closing_the_last_task_of_a_goal_offers_to_meet_the_goal(stage: Stage) -> None:
    stage.say("goal finish chapter 4 learning 3h")
    stage.say("task read ten pages for goal chapter 4")
    answer = stage.say("done 1")
    assert "Goal met: finish chapter 4" in answer.labels
    assert stage.tap("Goal met: finish chapter 4").text == "Met: finish chapter 4."


def test_closing_a_task_that_is_called_as_its_goal_meets_the_goal_which_a_tap_keeps_open(stage: Stage) -> None:
    stage.say("goal finish chapter 4 learning 3h")
    stage.tap("Do it today")
    answer = stage.say("done 1")
    assert answer.lines == ["Closed: finish chapter 4.", "Goal met too: finish chapter 4."]
    assert "Nothing waits." in stage.say("goals").lines
    stage.tap("Goal stays open: finish chapter 4")
    assert "finish chapter 4" in stage.say("goals").text
    stage.say("undo")
    stage.say("undo")
    assert tasks(stage) == [("finish chapter 4", "2026-03-02", "open")]
    assert stage.look(lambda desk: [each.state.value for each in desk.goals.all()]) == ["open"]


def test_words_name_what_is_open_before_what_is_closed(stage: Stage) -> None:
    stage.say("task sew the costume")
    stage.say("done 1")
    stage.say("goal sew the costume")
    assert stage.say("done costume").text == "Met: sew the costume."
    assert stage.say("reopen costume").text == "Open again: sew the costume."


def test_a_task_is_moved_as_a_commitment_is(stage: Stage) -> None:
    stage.say("task call the nursery")
    assert stage.say("move nursery to friday").text == "Pushed to Fri 6 Mar: call the nursery."
    assert stage.say("move the parade to friday").text == "I find no commitment “parade” from today on."


def test_a_task_for_a_goal_that_is_not_there_is_refused(stage: Stage) -> None:
    assert stage.say("task read ten pages for goal swimming").text == "I find no goal “swimming”."
    assert tasks(stage) == []


def test_a_task_pushed_back_to_the_goals_carries_the_goal_it_serves(stage: Stage) -> None:
    stage.say("goal finish chapter 4 learning 3h")
    stage.tap("Do it today")
    stage.say("push 1 to next week")
    states = stage.look(lambda desk: [(each.state.value, each.period.isoformat()) for each in desk.goals.all()])
    assert states == [("carried", "2026-03-02"), ("open", "2026-03-09")]


def test_tapping_an_old_button_says_what_became_of_it(stage: Stage) -> None:
    stage.say("task order spokes")
    stage.at("2026-03-02 20:01")
    stage.tap("Close 1")
    assert stage.tap("Close 1").text == "order spokes is closed already. Nothing changed."
    assert stage.tap("Push 1").text == "order spokes is closed already. Nothing changed."


def test_a_keep_as_task_button_keeps_the_words(stage: Stage) -> None:
    stage.say("that blue paint for the gate")
    stage.tap("Keep as task")
    assert tasks(stage) == [("that blue paint for the gate", "2026-03-02", "open")]
    assert stage.tap("Keep as task").text == "You chose that already. Nothing changed."


def test_after_midnight_what_the_day_before_left_open_is_there_until_the_morning_carries_it(stage: Stage) -> None:
    for title in ("laundry", "email the glazier", "rake the leaves", "oil the chains"):
        stage.say(f"task {title}")
    stage.at("2026-03-03 00:30")
    assert stage.say("tasks").lines == [
        "Tasks of Tuesday 3 March",
        *(
            f"{number} {title}, since Mon 2 Mar"
            for number, title in enumerate(("laundry", "email the glazier", "rake the leaves", "oil the chains"), 1)
        ),
    ]
    assert stage.say("done laundry").text == "Closed: laundry."
    assert stage.say("push email the glazier to wednesday").text == "Pushed to tomorrow: email the glazier."
    assert stage.say("drop 3").text == "Dropped: rake the leaves."
    assert "Closed: laundry." in stage.say("today").lines
    assert stage.say("reopen laundry").text == "Open again: laundry."
    assert stage.say("plan").lines[1:3] == ["06:00–06:30 1 laundry", "06:30–07:00 4 oil the chains"]
    assert stage.say("done all").text == "Closed: laundry and oil the chains."


def test_a_number_that_today_and_the_day_before_share_is_asked_for_in_words(stage: Stage) -> None:
    stage.say("task laundry")
    stage.at("2026-03-03 00:30")
    stage.say("task order spokes")
    assert stage.say("done 1").text == "Several open tasks have that number: laundry and order spokes. Say the words of the one you mean."
    stage.say("done laundry")
    assert stage.say("done 1").text == "Closed: order spokes."


def test_words_name_the_task_of_a_goal_before_the_goal(stage: Stage) -> None:
    stage.say("goal essay 3h")
    stage.say("task essay for goal essay")
    stage.at("2026-03-03 00:30")
    assert stage.say("done essay").text == "Closed: essay.\nGoal met too: essay."


def test_a_goal_that_is_settled_names_what_serves_it_and_stays_open(stage: Stage) -> None:
    stage.say("goal spring fair")
    stage.say("task print posters for goal spring fair")
    dropped = stage.say("drop spring fair")
    assert dropped.lines == ["Dropped: spring fair.", "Still open for that: print posters."]
    stage.tap("Drop it too")
    assert tasks(stage) == [("print posters", "2026-03-02", "dropped")]


def test_a_reminder_with_a_time_says_that_no_message_comes_then_and_offers_an_appointment(stage: Stage) -> None:
    answer = stage.say("remind me to email the glazier at 3pm tomorrow")
    assert answer.lines == [
        "Task 1 for tomorrow: email the glazier, 3pm.",
        "No message comes at that time: tasks stand in the morning message, and in the evening's if they are still open.",
    ]
    assert stage.tap("Make it an appointment").lines[-2:] == [
        "Added: Tue 3 Mar, 15:00–16:00 email the glazier.",
        "An hour long, as no end was said.",
    ]
    assert tasks(stage) == []


def test_a_task_that_comes_again_is_kept_as_a_routine(stage: Stage) -> None:
    assert stage.say("task pay rent every month on the 1st").text == "Routine: pay rent, 30 min, on the 1st of every month."
    assert tasks(stage) == []
