"""What the person asks to see."""

from __future__ import annotations

import pytest

from tests.stage import Stage


@pytest.fixture
def busy(stage: Stage) -> Stage:
    for text in (
        "workshop shift every mon and wed 9-17 workshop",
        "appt tue 10-11 dentist",
        "task order spokes 30m workshop",
        "goal finish chapter 4 learning 3h",
        "month goal paint the shed home",
        "target learning at least 4h",
    ):
        stage.say(text)
    stage.at("2026-03-03 18:00")
    for text in ("yesterday 9-12 workshop", "1h learning", "wed last week 2h workshop"):
        stage.say(text)
    return stage


def test_a_day_shows_what_is_fixed_open_logged_and_free(busy: Stage) -> None:
    assert busy.say("today").lines == [
        "Tuesday 3 March",
        "Morning: 10:00–11:00 dentist",
        "",
        "1 order spokes, 30 min, since Mon 2 Mar",
        "Logged: Learning 1 h.",
        "",
        "Free: 3 h; 36 min is kept for what comes up. Tasks need 30 min: they fit.",
    ]


def test_another_day_is_shown_by_its_name(busy: Stage) -> None:
    assert busy.say("tomorrow").lines[:2] == ["Wednesday 4 March", "Morning: 09:00–17:00 workshop shift"]


def test_a_running_clock_is_shown(busy: Stage) -> None:
    busy.say("in museum")
    assert "Clock running: Museum since 18:00." in busy.say("today").lines


def test_a_week_shows_each_day_by_part(busy: Stage) -> None:
    assert busy.say("week").lines[:4] == [
        "Week of 3–8 March",
        "Tue 3 Mar: morning 10:00–11:00 dentist; 1 task",
        "Wed 4 Mar: morning 09:00–17:00 workshop shift",
        "Thu 5 Mar: nothing fixed",
    ]


def test_another_week_is_shown_whole(busy: Stage) -> None:
    assert busy.say("next week").lines[:2] == ["Week of 9–15 March", "Mon 9 Mar: morning 09:00–17:00 workshop shift"]


def test_a_day_that_holds_too_much_is_named_in_the_week(busy: Stage) -> None:
    for text in ("appt thu 9-10 school", "appt thu 11-12 plumber", "appt thu 14-15 bank", "appt thu 18-19 vet"):
        busy.say(text)
    assert "Thu 5 Mar has 4 commitments, a lot for one day." in busy.say("week").lines


def test_hours_of_the_week_so_far_stand_beside_those_before(busy: Stage) -> None:
    assert busy.say("hours").lines == [
        "Hours, 2–3 March",
        "Workshop: 3 h",
        "Learning: 1 h",
        "Together: 4 h",
    ]


def test_hours_of_a_span_are_compared_with_the_span_before(busy: Stage) -> None:
    busy.say("mon last week 2h workshop")
    assert busy.say("hours this week").lines == [
        "Hours, 2–8 March",
        "Workshop: 3 h, 1 h more",
        "Learning: 1 h, none before, wanted at least 4 h",
        "Together: 4 h, 2 h more",
        "Compared with 23–24 February.",
    ]


def test_hours_of_one_category(busy: Stage) -> None:
    assert busy.say("hours workshop").lines == ["Workshop, 2–3 March", "Workshop: 3 h"]


def test_a_span_without_hours_says_so(busy: Stage) -> None:
    assert busy.say("hours 1/1 to 31/1").lines[1:] == ["No hours logged."]


def test_goals_are_shown_by_section(busy: Stage) -> None:
    assert busy.say("goals").lines == [
        "Goals of this week",
        "Personal: finish chapter 4, 3 h",
        "",
        "Goals of this month",
        "Personal: paint the shed",
    ]


def test_a_month_shows_hours_and_pending_goals(busy: Stage) -> None:
    lines = busy.say("month").lines
    assert lines[:3] == ["March 2026", "Workshop: 3 h", "Learning: 1 h"]
    assert "paint the shed" in lines


def test_a_timesheet_lists_the_days_of_the_pay_period(busy: Stage) -> None:
    answer = busy.say("timesheet workshop")
    assert answer.lines[1:] == ["2–8 March", "Mon 2 Mar: 09:00–12:00: 3 h", "Together: 3 h"]
    assert busy.tap("Period before").lines[2] == "Wed 25 Feb: 2 h"


def test_with_two_jobs_a_bare_timesheet_asks_which(busy: Stage) -> None:
    assert len(busy.say("timesheet").labels) == 2


def test_a_category_that_is_no_job_has_no_timesheet(busy: Stage) -> None:
    assert "no job" in busy.say("timesheet learning").text


def test_settings_are_shown_in_words(busy: Stage) -> None:
    text = busy.say("settings").text
    assert "Morning 06:00, evening 20:00" in text
    assert "Work: Workshop (also bike and shop), Museum (also desk and front desk)" in text


def test_help_teaches_by_example(busy: Stage) -> None:
    assert "done glazier" in busy.say("help tasks").lines
    assert "Hours" in busy.say("help").labels


def test_privacy_says_what_is_kept(busy: Stage) -> None:
    assert busy.say("/privacy").lines[0] == "What is kept"


def test_what_falls_at_the_same_time_is_named_in_the_day_and_in_the_week(busy: Stage) -> None:
    busy.say("appt wed 16-18 school meeting")
    busy.say("appt wed 18-19 bank")
    assert "At the same time: workshop shift and school meeting." in busy.say("tomorrow").lines
    assert "Wed 4 Mar, at the same time: workshop shift and school meeting." in busy.say("week").lines


def test_a_day_of_many_tasks_fits_a_phone_and_tasks_shows_them_all(stage: Stage) -> None:
    for number in range(1, 26):
        stage.say(f"task sort box {number}")
    stage.say("done 25")
    day = stage.say("today").lines
    assert len(day) == 20
    assert day[3:18] == [*(f"{number} sort box {number}" for number in range(1, 14)), "and 11 more: tasks", "Closed: sort box 25."]
    every = stage.say("tasks")
    assert every.lines == ["Tasks of Monday 2 March", *(f"{number} sort box {number}" for number in range(1, 25)), "Closed: sort box 25."]


def test_tasks_of_another_day_are_shown_by_its_name(stage: Stage) -> None:
    for number in range(1, 26):
        stage.say(f"task sort box {number} friday")
    assert "and 11 more: tasks 2026-03-06" in stage.say("friday").lines
    assert stage.say("tasks 2026-03-06").lines[0] == "Tasks of Friday 6 March"
    assert stage.say("tasks friday").lines[-1] == "25 sort box 25"
    assert stage.say("tasks").lines == ["Tasks of Monday 2 March", "No task is open."]


def test_the_open_tasks_of_a_week_are_listed_by_day_and_so_are_all(stage: Stage) -> None:
    for text in ("task laundry", "task essay friday 4h learning", "task call mum friday", "task read ch 5 next tuesday", "task rake"):
        stage.say(text)
    stage.say("done rake")
    this_week = ["Today: 1 laundry", "Fri 6 Mar: essay, 4 h; call mum"]
    assert stage.say("tasks this week").lines == ["Open tasks of 2–8 March", *this_week]
    assert stage.say("what's due next week").lines == ["Open tasks of 9–15 March", "Tue 10 Mar: read ch 5"]
    assert stage.say("all tasks").lines == ["Open tasks", *this_week, "Tue 10 Mar: read ch 5"]
    assert stage.say("tasks april").lines == ["Open tasks of 1–30 April", "No task is open."]


def test_a_list_of_open_tasks_of_many_days_is_cut_with_the_word_for_more(stage: Stage) -> None:
    for day in range(2, 31):
        stage.say(f"task oil the chains {day} march")
    lines = stage.say("all tasks").lines
    assert len(lines) == 20
    assert lines[-1].startswith("and 11 more: tasks")


def test_what_runs_in_from_the_day_before_is_in_the_day_and_in_the_week(stage: Stage) -> None:
    stage.say("night watch every sat 22:00-7:00 museum")
    assert stage.say("sunday").lines[1] == "Until 07:00 night watch"
    week = stage.say("week").lines
    assert "Sat 7 Mar: evening 22:00–07:00 night watch" in week
    assert "Sun 8 Mar: until 07:00 night watch" in week
    assert "Mon 9 Mar: nothing fixed" in stage.say("next week").lines


def test_what_shares_time_on_several_days_is_named_once_in_the_week(stage: Stage) -> None:
    stage.say("workshop shift every mon, tue and thu 9-17 workshop")
    stage.say("school every mon to fri 8:30-15:30 minor")
    stage.say("appt sat 10-11 vet")
    stage.say("appt sat 10-12 market")
    lines = stage.say("next week").lines
    assert "Mon, Tue and Thu, at the same time: school and workshop shift." in lines
    assert "Sat 7 Mar, at the same time: vet and market." in stage.say("week").lines


def test_the_hours_of_one_day_stand_alone(busy: Stage) -> None:
    assert busy.say("hours yesterday").lines == ["Hours, Mon 2 Mar", "Workshop: 3 h", "", "Workshop, 09:00–12:00: 3 h"]
    assert "Compared with" not in busy.say("what did I do on tuesday").text


def test_the_hours_of_a_day_show_its_entries_where_they_tell_more(stage: Stage) -> None:
    stage.say("museum yesterday 9-13 less 30m")
    stage.say("yesterday 2h learning - chapter 4")
    assert stage.say("hours yesterday").lines == [
        "Hours, Sun 1 Mar",
        "Museum: 3 h 30",
        "Learning: 2 h",
        "Together: 5 h 30",
        "",
        "Learning, 2 h, chapter 4",
        "Museum, 09:00–13:00: 3 h 30",
    ]
    assert stage.say("hours yesterday learning").lines[-1] == "Learning, 2 h, chapter 4"


def planned_afternoon(stage: Stage) -> None:
    """Tuesday 10:00 with a task that is under way, one to come, a dentist to come, and a meeting that is over."""
    stage.say("meeting tomorrow 8-9 workshop")
    stage.say("dentist tomorrow 15:00-16:00")
    stage.say("task order spokes tomorrow 30m workshop")
    stage.say("task paint the fence tomorrow workshop 1h")
    stage.at("2026-03-03 06:10")
    stage.say("9:45-10:15 order spokes")
    stage.say("11-12 paint the fence")
    stage.say("task call the glazier")
    stage.at("2026-03-03 10:00")


@pytest.mark.parametrize("asked", ["what's next", "next", "what now", "what's left", "what is left"])
def test_what_is_next_begins_with_what_is_under_way_and_what_comes_next(stage: Stage, asked: str) -> None:
    planned_afternoon(stage)
    assert stage.say(asked).lines[:7] == [
        "Tuesday 3 March",
        "Now, until 10:15: 1 order spokes.",
        "Next, 11:00–12:00: 2 paint the fence.",
        "15:00–16:00 dentist",
        "",
        "Tasks without hours",
        "3 call the glazier",
    ]


def test_when_nothing_comes_any_more_it_is_said(stage: Stage) -> None:
    assert stage.say("what's next").lines[1] == "Nothing more is fixed or planned today."


def test_today_has_the_hours_that_were_accepted_and_are_not_over(stage: Stage) -> None:
    planned_afternoon(stage)
    assert "1 order spokes, 30 min, 09:45–10:15" in stage.say("today").lines
    stage.at("2026-03-03 10:30")
    assert "1 order spokes, 30 min" in stage.say("today").lines


@pytest.mark.parametrize(
    ("asked", "answer"),
    [
        ("is wednesday full?", "Yes: nothing more can be filled."),
        ("is wednesday free?", "No: nothing more can be filled."),
        ("is thursday full?", "No: 12 h can still be filled."),
        ("is thursday free?", "Yes: 12 h can still be filled."),
    ],
)
def test_whether_a_day_is_full_is_answered_with_yes_or_no(stage: Stage, asked: str, answer: str) -> None:
    stage.say("task dig the pond wednesday 12h")
    assert stage.say(asked).lines[1] == answer


def test_when_a_day_is_free_is_answered_with_its_stretches(stage: Stage) -> None:
    stage.say("appt thursday 13-17 fair")
    stage.say("appt friday 0:00-23:59 sleep over")
    assert stage.say("when am i free thursday?").lines[1] == "You are free 06:00–13:00 and 17:00–21:00."
    assert stage.say("free friday").lines[1] == "No time is free."
    stage.at("2026-03-05 18:30")
    assert stage.say("free").lines[1] == "You are free 18:30–21:00."
