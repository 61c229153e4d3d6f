"""Correcting one end of hours, their length, and the hours of a category and day."""

from __future__ import annotations

import pytest

from tests.stage import Stage

NOTHING_OF_IT = "Your last message changed nothing, so there is nothing of it to take back. Done before that: "


@pytest.fixture
def morning_after(stage: Stage) -> Stage:
    """Wednesday morning, after a late shift."""
    stage.at("2026-03-04 08:00")
    stage.say("museum yesterday 17:30-0:15")
    return stage


@pytest.mark.parametrize(
    ("said", "hours"),
    [
        ("no, from 17:45", "17:45–00:15: 6 h 30"),
        ("no, starts 5:45pm", "17:45–00:15: 6 h 30"),
        ("no, 17:45", "17:45–00:15: 6 h 30"),
        ("no, until 23:30", "17:30–23:30: 6 h"),
        ("no, end 23:30", "17:30–23:30: 6 h"),
        ("no, 0:40", "17:30–00:40: 7 h 10"),
        ("20 minutes longer", "17:30–00:35: 7 h 05"),
        ("30 min less", "17:30–23:45: 6 h 15"),
    ],
)
def test_one_end_is_corrected_and_the_other_stays(morning_after: Stage, said: str, hours: str) -> None:
    assert morning_after.say(said).lines[0] == f"Museum, Tue 3 Mar, {hours}"


def test_a_time_as_near_to_the_start_as_to_the_end_is_asked_about(stage: Stage) -> None:
    stage.at("2026-03-03 20:00")
    stage.say("museum 13-19")
    assert stage.say("no, 16:15").labels == ["no, until 16:15", "no, from 16:15"]
    assert stage.tap("no, from 16:15").lines[0] == "Museum, Tue 3 Mar, 16:15–19:00: 2 h 45"


def test_figures_that_may_be_a_length_or_an_end_are_asked_about_only_where_both_would_do(stage: Stage) -> None:
    stage.at("2026-03-03 20:00")
    stage.say("museum 6-12")
    assert stage.say("no, 6:15").labels == ["no, 6h15", "no, from 6:15"]
    assert stage.say("no, 12:20").lines[0] == "Museum, Tue 3 Mar, 06:00–12:20: 6 h 20"
    assert stage.say("no, 9:00").labels == ["no, 9h", "no, until 9:00", "no, from 9:00"]
    stage.say("workshop 13-14:30")
    assert stage.say("no, 1:15").lines[0] == "Workshop, Tue 3 Mar: 1 h 15"


def test_hours_without_times_become_longer_and_shorter_too(stage: Stage) -> None:
    stage.say("yesterday 2h museum")
    assert stage.say("20 min longer").lines[0] == "Museum, Sun 1 Mar: 2 h 20"
    assert stage.say("museum -1h").lines[0] == "Museum, Sun 1 Mar: 1 h 20"
    assert stage.say("2h less").text.startswith("Nothing would be left of those hours")


def test_hours_of_a_category_and_a_day_are_corrected_whatever_was_logged_last(stage: Stage) -> None:
    stage.at("2026-03-06 18:30")
    stage.say("museum mon, tue and fri 6-12")
    stage.say("1h family")
    assert stage.say("correct museum monday 6-11").lines[0] == "Museum, Mon 2 Mar, 06:00–11:00: 5 h"
    assert stage.say("no museum tue 6-11:30").lines[0] == "Museum, Tue 3 Mar, 06:00–11:30: 5 h 30"
    assert stage.say("museum fri 20 min longer").lines[0] == "Museum, Fri 6 Mar, 06:00–12:20: 6 h 20"
    assert stage.say("change museum friday to 6-12:30").lines[0] == "Museum, Fri 6 Mar, 06:00–12:30: 6 h 30"
    assert stage.say("correct museum wed 6-11").text == "There are no hours to correct there: Museum, Wed 4 Mar."


def test_of_several_hours_of_a_day_those_nearest_in_time_are_corrected(stage: Stage) -> None:
    stage.at("2026-03-03 20:00")
    stage.say("museum 9-12 and 13-17")
    assert stage.say("correct museum 9:30-12").lines[0] == "Museum, Tue 3 Mar, 09:30–12:00: 2 h 30"
    assert stage.say("museum 30 min longer").lines[0] == "Museum, Tue 3 Mar, 13:00–17:30: 4 h 30"


def test_a_day_with_hours_of_two_categories_is_asked_about(stage: Stage) -> None:
    stage.say("yesterday 9-12 museum, 13-15 workshop")
    assert stage.say("correct yesterday 9-11").labels == ["correct museum yesterday 9-11", "correct workshop yesterday 9-11"]
    assert stage.tap("correct museum yesterday 9-11").lines[0] == "Museum, Sun 1 Mar, 09:00–11:00: 2 h"


def test_a_shift_to_come_and_hours_that_were_are_told_apart_by_asking(stage: Stage) -> None:
    stage.at("2026-03-04 12:00")
    stage.say("museum shift next monday 9-12")
    stage.say("museum yesterday 9-12")
    assert stage.say("change museum monday to 9-11").lines[0].startswith("Moved from Mon 9 Mar, 09:00 to Mon 9 Mar, 09:00–11:00")
    stage.say("museum 2 mar 9-12")
    assert len(stage.say("change museum monday to 9-11:30").labels) == 2


def test_undo_after_a_reply_that_did_nothing_asks_before_it_takes_back_something_older(stage: Stage) -> None:
    stage.say("yesterday 2h museum")
    stage.say("mumble the bumble")
    asked = stage.say("undo")
    assert asked.text == f"{NOTHING_OF_IT}“Museum, Sun 1 Mar: 2 h”"
    assert asked.labels == ["Take that back"]
    assert stage.tap("Take that back").lines[0].startswith("Taken back")


def test_undo_after_a_choice_was_made_takes_back_what_was_chosen(stage: Stage) -> None:
    stage.say("yesterday 2h museum")
    stage.say("mumble the bumble")
    stage.tap("Keep as task")
    assert stage.say("undo").lines[0].startswith("Taken back: “Task 1")


def test_hours_of_another_day_told_in_full_move_what_was_just_logged_and_take_nothing_from_what_is_older(stage: Stage) -> None:
    stage.at("2026-03-06 18:30")
    stage.say("museum thu 6-12")
    assert stage.say("no museum wed 6-12").lines[0] == "Museum, Wed 4 Mar, 06:00–12:00: 6 h"
    stage.say("task order spokes")
    assert stage.say("wrong, museum tue was 6-11:30").lines[0] == "Museum, Tue 3 Mar, 06:00–11:30: 5 h 30"
    kept = stage.look(lambda desk: desk.stints.all())
    assert isinstance(kept, tuple)
    assert sorted(each.day.day for each in kept) == [3, 4]


def test_a_correction_that_names_no_hours_reaches_back_only_to_what_was_done_last(stage: Stage) -> None:
    stage.at("2026-03-02 18:00")
    stage.say("museum 13-17")
    stage.say("task order spokes")
    assert stage.say("no, 13-16:45").lines[0] == "Museum, Mon 2 Mar, 13:00–16:45: 3 h 45"
    stage.say("done 1")
    stage.at("2026-03-02 18:30")
    asked = stage.say("no, 13-16:30")
    assert asked.lines[0] == "Which do you mean?"
    assert asked.labels == ["correct museum today 13-16:30"]
    assert stage.tap("correct museum today 13-16:30").lines[0] == "Museum, Mon 2 Mar, 13:00–16:30: 3 h 30"
    assert stage.say("no, 13-16").lines[0] == "Museum, Mon 2 Mar, 13:00–16:00: 3 h"
    stage.at("2026-03-03 18:00")
    assert stage.say("no, 2h").lines[0] == "Which do you mean?"


def test_undo_after_a_refusal_asks_too_and_after_a_view_does_not(stage: Stage) -> None:
    stage.say("yesterday 2h museum")
    assert stage.say("done 7").text == "I find no task “7” here."
    assert stage.say("undo").text == f"{NOTHING_OF_IT}“Museum, Sun 1 Mar: 2 h”"
    stage.say("hours last week")
    assert stage.say("undo").lines[0] == "Taken back: “Museum, Sun 1 Mar: 2 h”"


@pytest.mark.parametrize(
    ("said", "refuses"),
    [
        ("done 7", True),
        ("tasks\ndone 7", True),
        ("done 7\n1h family", True),
        ("tasks", False),
        ("1h family", False),
        ("museum 25-99", False),
    ],
)
def test_a_message_knows_of_itself_whether_something_wanted_was_not_done(stage: Stage, said: str, refuses: bool) -> None:
    assert [parcel.refuses for parcel in stage.say(said).parcels] == [refuses]


def test_undo_after_a_tap_too_many_takes_back_what_was_done_before_it(stage: Stage) -> None:
    stage.say("yesterday 26h museum")
    anyway = stage.button("Log it anyway")
    stage.hear_tap(anyway)
    (again,) = stage.hear_tap(anyway).parcels
    assert again.text == "You chose that already. Nothing changed."
    assert not again.refuses
    assert stage.say("undo").lines[0].startswith("Taken back")


@pytest.mark.parametrize(
    ("said", "hours"),
    [
        ("no, until 8", "13:00–20:00: 7 h"),
        ("no, from 12:30", "12:30–19:30: 7 h"),
        ("no, until 20:15", "13:00–20:15: 7 h 15"),
        ("no, from 9:00", "09:00–19:30: 10 h 30"),
    ],
)
def test_an_end_told_by_the_12_hour_clock_lies_near_the_one_that_it_corrects(stage: Stage, said: str, hours: str) -> None:
    stage.at("2026-03-03 22:00")
    stage.say("museum 13-19:30")
    assert stage.say(said).lines[0] == f"Museum, Tue 3 Mar, {hours}"


def test_an_open_end_follows_the_start_and_is_past(stage: Stage) -> None:
    stage.jump("2026-03-08 09:35")
    stage.say("museum last night 18-1:30")
    assert stage.say("no until 2:30").lines[0] == "Museum, Sat 7 Mar, 18:00–02:30: 8 h 30"
    assert stage.say("no, until 0:30").lines[0] == "Museum, Sat 7 Mar, 18:00–00:30: 6 h 30"
    stage.jump("2026-03-08 16:00")
    assert stage.say("correct museum sat until 3").lines[0] == "Museum, Sat 7 Mar, 18:00–03:00: 9 h"
    stage.say("workshop today 8-12")
    assert stage.say("no, until 1").lines[0] == "Workshop, Sun 8 Mar, 08:00–13:00: 5 h"


def test_a_length_where_there_are_several_hours_asks_of_which_it_is(stage: Stage) -> None:
    stage.say("yesterday 2h learning")
    stage.say("yesterday 2h learning - chapter 4")
    stage.say("learning yesterday 10-12")
    asked = stage.say("correct learning yesterday 4h")
    assert asked.lines == ["Learning, Sun 1 Mar: 3 entries, 6 h in all.", "Which of them is 4 h?"]
    assert asked.labels == ["2 h", "2 h, chapter 4", "10:00–12:00: 2 h", "4 h in all"]
    assert stage.tap("2 h, chapter 4").lines[:3] == ["Learning, Sun 1 Mar: 4 h", "Note: chapter 4", "Learning yesterday: 8 h in all."]


def test_a_length_may_be_that_of_the_whole_day(stage: Stage) -> None:
    stage.say("yesterday 2h learning")
    stage.say("learning yesterday 10-12")
    stage.say("correct learning yesterday 3h")
    assert stage.tap("3 h in all").lines[:2] == ["Learning, Sun 1 Mar: 3 h", "Learning yesterday: 3 h in all."]
    assert stage.say("undo").text.startswith("Taken back")
    assert "Learning: 4 h" in stage.say("hours yesterday").text


@pytest.mark.parametrize("said", ["museum 2 mar less 30m", "museum monday less half an hour"])
def test_a_break_of_a_category_and_a_day_is_taken_off_its_hours(stage: Stage, said: str) -> None:
    stage.jump("2026-03-04 09:00")
    stage.say("museum monday 9-13")
    stage.say("workshop yesterday 9-13")
    assert stage.say(said).lines[0] == "Museum, Mon 2 Mar, 09:00–13:00, less 30 min: 3 h 30"


def test_hours_that_were_fewer_are_told_so(stage: Stage) -> None:
    stage.say("yesterday 4h museum")
    assert stage.say("museum was only 3h").lines[0] == "Museum, Sun 1 Mar: 3 h"


def test_a_correction_that_names_nothing_is_about_no_hours_of_a_week_ago(stage: Stage) -> None:
    stage.say("museum yesterday 9-13")
    stage.jump("2026-03-12 09:00")
    assert stage.say("no until 7").lines == [
        "No hours were noted in the last seven days. To set older ones right, name them, for example “correct museum sun 1 mar 2h”."
    ]
    assert stage.say("correct museum sun 1 mar 2h").lines[0] == "Museum, Sun 1 Mar: 2 h"


def test_an_end_alone_changes_no_hours_that_have_no_times(stage: Stage) -> None:
    stage.say("yesterday 2h museum")
    assert stage.say("no until 12").lines == [
        "I do not know when those hours began, so an end alone changes nothing. Write both, for example “no, 9-12”."
    ]
    assert stage.say("no, 9-12").lines[0] == "Museum, Sun 1 Mar, 09:00–12:00: 3 h"


def test_planned_hours_that_were_fewer_are_noted_as_they_were(stage: Stage) -> None:
    stage.say("appt museum shift today 13-17")
    stage.at("2026-03-02 18:00")
    assert stage.say("museum was only 3h").lines[0] == "Museum, Mon 2 Mar: 3 h"
    assert stage.say("museum was only 2h").lines[:2] == ["Museum, Mon 2 Mar: 2 h", "Museum today: 2 h in all."]
    stage.say("undo")
    stage.say("undo")
    assert stage.say("museum shift was only until 16:30").lines[0] == "Museum, Mon 2 Mar, 13:00–16:30: 3 h 30"


@pytest.mark.parametrize("said", ["dentist was only 30 min", "dentist took 30 min", "dentist lasted only 30 min"])
def test_what_has_no_category_and_was_shorter_asks_once_what_it_counts_for(stage: Stage, said: str) -> None:
    stage.say("appt today 16-17 dentist")
    stage.at("2026-03-03 09:00")
    assert stage.say(said).labels[-1] == "yesterday 30m home - dentist"
    stage.tap("yesterday 30m home - dentist")
    assert stage.say("dentist was only 20 min").lines == [
        "Home, Mon 2 Mar: 20 min",
        "Note: dentist",
        "Home yesterday: 20 min in all.",
        "This replaces what was logged before.",
    ]


def test_a_routine_that_was_shorter_is_noted_or_corrected(stage: Stage) -> None:
    stage.say("routine exercise 40m every day home")
    assert stage.say("exercise took 30 min").lines[:2] == ["Home, Mon 2 Mar: 30 min", "Done today: exercise."]
    assert stage.say("exercise was only 20 min").lines[0] == "Home, Mon 2 Mar: 20 min"
    assert "Home: 20 min" in stage.say("hours today").text


def test_hours_of_a_category_and_a_day_are_deleted_by_their_length(stage: Stage) -> None:
    stage.jump("2026-03-06 10:00")
    stage.say("2h course thu")
    stage.say("course thursday 9-10")
    assert stage.say("delete 2h course thu").lines == ["Deleted: Learning, Thu 5 Mar: 2 h", "Learning yesterday: 1 h in all."]
    assert stage.say("delete 1h course").lines == ["Deleted: Learning, Thu 5 Mar, 09:00–10:00: 1 h", "Learning yesterday: no hours."]
    stage.say("undo")
    assert "Learning: 1 h" in stage.say("hours thursday").text


def test_hours_that_are_not_there_are_not_deleted(stage: Stage) -> None:
    stage.say("2h course yesterday")
    answer = stage.say("delete 3h course yesterday")
    assert answer.text == "No such hours are noted: Learning, yesterday, 3 h. To see what is, write for example “hours yesterday”."
    assert "Learning: 2 h" in stage.say("hours yesterday").text
