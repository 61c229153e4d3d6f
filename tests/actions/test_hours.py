"""Logging hours, and correcting them."""

from __future__ import annotations

from collections.abc import Sequence

import pytest

from storage.desk import Desk
from storage.records import Carried, Stint
from tests.stage import Stage


def stints(stage: Stage) -> Sequence[Stint]:
    found = stage.look(lambda desk: desk.stints.all())
    assert isinstance(found, tuple)
    return found


def test_a_log_says_category_day_hours_break_minutes_and_the_days_total(stage: Stage) -> None:
    stage.at("2026-03-03 18:00")
    answer = stage.say("museum 13-17 less 30m")
    assert answer.lines == ["Museum, Tue 3 Mar, 13:00–17:00, less 30 min: 3 h 30", "Museum today: 3 h 30 in all."]
    assert answer.labels == ["Undo"]
    assert [(each.minutes, each.break_minutes) for each in stints(stage)] == [(210, 30)]


def test_totals_add_up_over_the_day(stage: Stage) -> None:
    stage.say("yesterday 2h workshop")
    answer = stage.say("1h30 workshop yesterday")
    assert answer.lines[-1] == "Workshop yesterday: 3 h 30 in all."


def test_several_stints_in_one_message_are_kept_together_and_undone_together(stage: Stage) -> None:
    stage.say("1h workshop, 30m kids")
    assert [each.minutes for each in stints(stage)] == [60, 30]
    stage.tap("Undo")
    assert stints(stage) == ()


def test_an_unknown_category_keeps_nothing(stage: Stage) -> None:
    answer = stage.say("2h juggling")
    assert "nothing is recorded" in answer.text
    assert stints(stage) == ()


def test_overlapping_hours_are_asked_about_and_nothing_is_kept(stage: Stage) -> None:
    stage.at("2026-03-02 18:00")
    stage.say("workshop 9-12")
    answer = stage.say("museum 11-13")
    assert answer.lines == [
        "That overlaps hours already there: Workshop, Mon 2 Mar, 09:00–12:00: 3 h. Nothing is logged yet.",
    ]
    assert answer.labels == ["Keep both", "Replace", "Only the rest"]
    assert len(stints(stage)) == 1


@pytest.mark.parametrize(("label", "minutes"), [("Keep both", [180, 120]), ("Replace", [120]), ("Only the rest", [180, 60])])
def test_the_buttons_of_an_overlap_do_what_they_say(stage: Stage, label: str, minutes: list[int]) -> None:
    stage.at("2026-03-02 18:00")
    stage.say("workshop 9-12")
    stage.say("museum 11-13")
    stage.tap(label)
    assert [each.minutes for each in stints(stage)] == minutes


def test_of_the_buttons_of_an_overlap_only_one_counts(stage: Stage) -> None:
    stage.at("2026-03-02 18:00")
    stage.say("workshop 9-12")
    stage.say("museum 11-13")
    data = stage.button("Only the rest")
    stage.tap("Keep both")
    assert data
    answer = stage.tap("Only the rest")
    assert answer.text == "You chose that already. Nothing changed."
    assert len(stints(stage)) == 2


def test_trimming_inside_other_hours_leaves_nothing_to_log(stage: Stage) -> None:
    stage.at("2026-03-02 18:00")
    stage.say("workshop 9-12")
    stage.say("museum 10-11")
    assert stage.tap("Only the rest").text == "That is less than a minute, so nothing was logged."
    assert len(stints(stage)) == 1


def test_trimming_around_other_hours_gives_two_pieces_and_keeps_the_break_on_the_longer(stage: Stage) -> None:
    stage.at("2026-03-02 18:00")
    stage.say("workshop 10-11")
    stage.say("museum 9-14 less 30m")
    stage.tap("Only the rest")
    assert [(each.minutes, each.break_minutes) for each in stints(stage)[1:]] == [(60, 0), (150, 30)]


def test_two_stints_of_one_message_that_overlap_are_asked_about(stage: Stage) -> None:
    stage.at("2026-03-02 18:00")
    answer = stage.say("workshop 9-12, museum 11-13")
    assert answer.labels == ["Keep both", "Replace", "Only the rest"]
    assert stints(stage) == ()


def test_hours_still_to_come_are_not_logged(stage: Stage) -> None:
    answer = stage.say("workshop today 14-16")
    assert answer.lines == ["Today, 14:00–16:00 is still to come. Nothing is logged yet."]
    assert answer.labels == ["Log it anyway", "Plan it instead"]
    stage.tap("Plan it instead")
    assert stints(stage) == ()
    assert len(stage.look(lambda desk: desk.commitments.all())) == 1  # type: ignore[arg-type]


def test_hours_that_end_in_a_few_minutes_may_be_logged_on_the_way_out(stage: Stage) -> None:
    stage.at("2026-03-02 11:50")
    stage.say("workshop 9-12")
    assert [each.minutes for each in stints(stage)] == [180]


def test_more_than_the_day_holds_is_asked_about(stage: Stage) -> None:
    stage.say("yesterday 20h workshop")
    answer = stage.say("yesterday 5h museum")
    assert answer.lines == ["With that, yesterday would have 25 h; the day has 24 h. Nothing is logged yet."]
    stage.tap("Log it anyway")
    assert len(stints(stage)) == 2


def test_a_night_shift_over_the_spring_change_is_an_hour_shorter(stage: Stage) -> None:
    # Europe/Brussels, 29 March 2026, 02:00 to 03:00 (tz database): 22:00 to 06:00 is 7 h.
    stage.jump("2026-03-29 09:00")
    answer = stage.say("sat workshop 22-6")
    assert answer.lines[0] == "Workshop, Sat 28 Mar, 22:00–06:00: 7 h"


def test_a_night_shift_over_the_autumn_change_is_an_hour_longer(stage: Stage) -> None:
    stage.jump("2026-10-25 09:00")
    answer = stage.say("sat workshop 22-6")
    assert answer.lines[0] == "Workshop, Sat 24 Oct, 22:00–06:00: 9 h"


def test_hours_on_a_task_name_it(stage: Stage) -> None:
    stage.say("task true the wheels workshop")
    stage.say("1h workshop on 1")
    assert stints(stage)[0].task_ids == (1,)


def test_hours_on_a_task_that_is_not_there_are_refused(stage: Stage) -> None:
    assert stage.say("1h workshop on 7").text == "I find no task “7” here."
    assert stints(stage) == ()


def test_editing_the_message_corrects_what_it_logged_as_one_step(stage: Stage) -> None:
    stage.say("3h workshop")
    answer = stage.edit("2h workshop")
    assert answer.lines == [
        "Workshop, Mon 2 Mar: 2 h",
        "Workshop today: 2 h in all.",
        "This replaces what was logged before.",
    ]
    assert [each.minutes for each in stints(stage)] == [120]
    stage.say("undo")
    assert [each.minutes for each in stints(stage)] == [180]
    stage.say("undo")
    assert stints(stage) == ()


def test_an_edit_that_is_not_understood_leaves_what_was_there(stage: Stage) -> None:
    stage.say("3h workshop")
    answer = stage.edit("what a day that was")
    assert answer.lines[0] == "I did not understand that, so this stays: Workshop, Mon 2 Mar: 3 h"
    assert [each.minutes for each in stints(stage)] == [180]


def test_an_edit_that_cannot_be_done_leaves_what_was_there(stage: Stage) -> None:
    stage.say("3h workshop")
    assert "I find no task" in stage.edit("2h workshop on 9").text
    assert [each.minutes for each in stints(stage)] == [180]


def test_an_edit_of_a_message_that_did_nothing_is_read_anew(stage: Stage) -> None:
    stage.say("hello my friend")
    assert "Workshop" in stage.edit("1h workshop").text


@pytest.mark.parametrize(
    ("said", "first_line"),
    [
        ("no, 3h", "Workshop, Mon 2 Mar: 3 h"),
        ("make it museum", "Museum, Mon 2 Mar: 2 h"),
        ("it was yesterday", "Workshop, Sun 1 Mar: 2 h"),
    ],
)
def test_the_latest_log_can_be_corrected_in_words(stage: Stage, said: str, first_line: str) -> None:
    stage.say("2h workshop")
    assert stage.say(said).lines[0] == first_line
    assert len(stints(stage)) == 1


def test_correcting_with_nothing_logged_says_so(stage: Stage) -> None:
    assert stage.say("no, 3h").text == "There are no hours to correct yet."


def test_a_correction_keeps_times_that_it_does_not_change(stage: Stage) -> None:
    stage.at("2026-03-02 18:00")
    stage.say("workshop 9-12")
    assert stage.say("make it museum").lines[0] == "Museum, Mon 2 Mar, 09:00–12:00: 3 h"


def test_a_correction_into_other_hours_is_asked_about(stage: Stage) -> None:
    stage.at("2026-03-02 18:00")
    stage.say("workshop 9-12")
    stage.say("museum 13-17")
    assert "overlaps" in stage.say("make it 11-17").text


def test_a_reply_to_an_older_message_corrects_that_one(stage: Stage) -> None:
    older = stage.say("2h workshop").parcels[0]
    stage.say("1h museum")
    stage.house.database.outbox.note_and_take([Carried(older.id, "chat:17")], (), stage.now)
    stage.say("no, 3h", replies_to="chat:17")
    assert [each.minutes for each in stints(stage)] == [180, 60]


def test_a_person_sees_hours_by_their_own_day(stage: Stage) -> None:
    def of_monday(desk: Desk) -> object:
        return [each.day.isoformat() for each in desk.stints.all()]

    stage.jump("2026-03-03 00:30")
    stage.say("20m workshop")
    assert stage.look(of_monday) == ["2026-03-03"]
    stage.say("1h workshop")
    assert stage.look(of_monday) == ["2026-03-03", "2026-03-02"]


def test_hours_until_a_time_begin_where_the_latest_ended_and_the_answer_says_so(stage: Stage) -> None:
    stage.at("2026-03-02 17:05")
    stage.say("workshop 9-12:30")
    answer = stage.say("museum until 17")
    assert answer.lines == [
        "Museum, Mon 2 Mar, 12:30–17:00: 4 h 30",
        "From 12:30, where your latest hours end.",
        "Museum today: 4 h 30 in all.",
    ]


def test_hours_until_a_time_begin_as_planned(stage: Stage) -> None:
    stage.say("appt museum shift today 13-17:30")
    stage.at("2026-03-02 17:05")
    stage.say("workshop 9-12:30")
    assert stage.say("museum until 17").lines[:2] == ["Museum, Mon 2 Mar, 13:00–17:00: 4 h", "From 13:00, as planned."]


def test_while_the_clock_runs_until_stops_it(stage: Stage) -> None:
    stage.say("in museum")
    stage.at("2026-03-02 17:05")
    assert stage.say("museum until 17").lines[0] == "Museum, Mon 2 Mar, 09:00–17:00: 8 h"
    assert stage.say("out").text == "No clock is running."


def test_the_clock_may_stop_less_a_break(stage: Stage) -> None:
    stage.say("in museum")
    stage.at("2026-03-02 17:05")
    assert stage.say("out 17:00 less 30m").lines[0] == "Museum, Mon 2 Mar, 09:00–17:00, less 30 min: 7 h 30"
    assert stage.say("out").text == "No clock is running."


def test_a_break_alone_is_taken_off_the_hours_just_told(stage: Stage) -> None:
    stage.at("2026-03-02 17:05")
    stage.say("museum 13-17")
    assert stage.say("20 min break").lines[0] == "Museum, Mon 2 Mar, 13:00–17:00, less 20 min: 3 h 40"


def test_what_was_planned_is_told_in_a_word(stage: Stage) -> None:
    stage.say("appt museum shift today 13-17")
    stage.at("2026-03-02 17:05")
    assert stage.say("museum as planned").lines[0] == "Museum, Mon 2 Mar, 13:00–17:00: 4 h"


def test_the_plan_of_a_category_without_one_logs_nothing_and_says_so(stage: Stage) -> None:
    nothing = "Nothing is planned for Museum today, so nothing was logged. Write your hours, for example “2h Museum”."
    for said in ("museum as planned", "2h workshop; museum as planned", "museum done", "museum shift done"):
        assert stage.say(said).text == nothing, said
    assert stints(stage) == ()


def test_two_stretches_that_nothing_parts_are_two_stints(stage: Stage) -> None:
    stage.at("2026-03-02 18:00")
    assert stage.say("3h workshop 2h museum").lines == [
        "Workshop, Mon 2 Mar: 3 h",
        "Museum, Mon 2 Mar: 2 h",
        "Workshop today: 3 h in all.",
        "Museum today: 2 h in all.",
    ]


def test_a_tap_takes_the_usual_break_off_a_long_stint_of_paid_work_and_of_that_stint_alone(stage: Stage) -> None:
    stage.at("2026-03-02 18:30")
    answer = stage.say("museum 13-17")
    assert answer.labels == ["Less 30 min", "Undo"]
    button = stage.button("Less 30 min")
    stage.say("workshop 8-12 less 15m")
    assert stage.hear_tap(button).lines[0] == "Museum, Mon 2 Mar, 13:00–17:00, less 30 min: 3 h 30"
    assert stage.hear_tap(button).text == "You chose that already. Nothing changed."
    assert stage.say("family 8-12 yesterday").labels == ["Undo"]
    assert stage.say("museum 13-16 yesterday").labels == ["Undo"]


def test_shifts_of_days_that_are_past_say_that_they_were_taken_as_spent_and_can_be_planned_instead(stage: Stage) -> None:
    stage.at("2026-03-08 12:00")
    told = stage.say("museum fri 16-20, sat 9-13")
    assert told.lines[:2] == ["Museum, Fri 6 Mar, 16:00–20:00: 4 h", "Museum, Sat 7 Mar, 09:00–13:00: 4 h"]
    assert told.lines[-1] == "That is past, so I took it as hours spent."
    planned = stage.tap("Plan the coming days instead")
    assert planned.lines[1:] == ["Added: Fri 13 Mar, 16:00–20:00 Museum.", "Added: Sat 14 Mar, 09:00–13:00 Museum."]
    assert stage.look(lambda desk: desk.stints.all()) == ()
    assert stage.tap("Plan the coming days instead").text == "You chose that already. Nothing changed."
    assert stage.say("undo").lines == [
        "Taken back: “Added: Fri 13 Mar, 16:00–20:00 Museum; Added: Sat 14 Mar, 09:00–13:00 Museum”",
        "Back to: Museum, Fri 6 Mar, 16:00–20:00: 4 h; Museum, Sat 7 Mar, 09:00–13:00: 4 h",
    ]
    assert stage.look(lambda desk: [each.minutes for each in desk.stints.all()]) == [240, 240]
    assert stage.look(lambda desk: desk.commitments.all()) == ()


def test_shifts_taken_back_first_are_planned_all_the_same(stage: Stage) -> None:
    stage.at("2026-03-08 12:00")
    stage.say("museum fri 16-20, sat 9-13")
    data = stage.button("Plan the coming days instead")
    stage.tap("Undo")
    assert stage.hear_tap(data).lines == ["Added: Fri 13 Mar, 16:00–20:00 Museum.", "Added: Sat 14 Mar, 09:00–13:00 Museum."]


@pytest.mark.parametrize(
    "text", ["museum sat 9-13", "3h museum fri, 2h museum sat", "museum 9-10, museum yesterday 9-13", "museum 27 feb 9-12, 28 feb 9-12"]
)
def test_hours_that_are_surely_spent_offer_no_plan(stage: Stage, text: str) -> None:
    stage.at("2026-03-08 12:00")
    told = stage.say(text)
    assert told.lines[0].startswith("Museum, ")
    assert "Plan the coming days instead" not in told.labels


def test_a_shift_of_a_weekday_that_is_nearer_as_one_to_come_can_be_planned_instead(stage: Stage) -> None:
    told = stage.say("museum wed 9-13")
    assert told.lines == [
        "Museum, Wed 25 Feb, 09:00–13:00: 4 h",
        "Museum Wed 25 Feb: 4 h in all.",
        "That is past, so I took it as hours spent.",
    ]
    assert told.labels == ["Less 30 min", "Plan Wed 4 Mar instead", "Undo"]
    assert stage.tap("Plan Wed 4 Mar instead").lines[-1] == "Added: Wed 4 Mar, 09:00–13:00 Museum."
    assert "Plan Sat 7 Mar instead" not in stage.say("museum sat 9-13").labels


def test_a_correction_that_changes_nothing_does_not_say_that_it_replaced_anything(stage: Stage) -> None:
    stage.say("yesterday museum 13-17")
    told = stage.say("no, 13-17")
    assert told.lines == ["Museum, Sun 1 Mar, 13:00–17:00: 4 h", "Museum yesterday: 4 h in all."]
    assert "Undo" not in told.labels


def test_a_night_watch_that_ended_this_morning_is_told_as_planned(stage: Stage) -> None:
    stage.say("appt today 22:00-7:00 museum watch museum")
    stage.say("appt tue 18:15-19:00 tour museum")
    stage.at("2026-03-03 07:05")
    assert stage.say("museum as planned").lines == [
        "Museum, Mon 2 Mar, 22:00–07:00: 9 h",
        "Museum yesterday: 9 h in all.",
        "Still to come, not logged: 18:15–19:00 museum.",
    ]
    stage.at("2026-03-03 19:05")
    assert stage.say("museum as planned").lines == ["Museum, Tue 3 Mar, 18:15–19:00: 45 min", "Museum today: 45 min in all."]


def test_a_visit_still_to_come_is_never_logged_with_those_that_were_made(stage: Stage) -> None:
    for hours in ("10-10:30", "11-12", "14-15"):
        stage.say(f"appt today {hours} tour museum")
    stage.jump("2026-03-02 10:30")
    assert stage.say("museum as planned").lines[2] == "Still to come, not logged: 11:00–12:00 museum and 14:00–15:00 museum."
    assert stage.say("undo").text.startswith("Taken back")
    stage.jump("2026-03-02 09:30")
    assert stage.say("museum as planned").lines[0] == "Today, 10:00–10:30 is still to come. Nothing is logged yet."
    assert stage.tap("Log it anyway").lines == ["Museum, Mon 2 Mar, 10:00–10:30: 30 min", "Museum today: 30 min in all."]


def test_the_plan_of_an_earlier_day_is_told_by_category_by_title_and_with_a_break(stage: Stage) -> None:
    stage.say("appt today 13-17 museum shift museum")
    stage.at("2026-03-04 09:00")
    assert stage.say("museum monday as planned less 30m").lines[0] == "Museum, Mon 2 Mar, 13:00–17:00, less 30 min: 3 h 30"
    stage.say("undo")
    assert stage.say("museum shift as planned on mon 2 mar").labels == ["Less 30 min", "Undo"]
    assert stage.say("family monday as planned").text == "Nothing is planned for Family Mon 2 Mar, so nothing was logged."
    assert "overlaps hours already there" in stage.say("museum monday as planned").text


def test_a_correction_into_the_future_is_met_as_hours_to_come_are(stage: Stage) -> None:
    stage.jump("2026-03-02 18:00")
    stage.say("museum 13-17")
    answer = stage.say("no, tomorrow")
    assert answer.lines == ["Tomorrow, 13:00–17:00 is still to come. What was logged stays as it is."]
    assert answer.labels == ["Plan it instead"]
    assert stage.say("no, until 18:10").lines[0] == "Museum, Mon 2 Mar, 13:00–18:10: 5 h 10"


def test_hours_that_are_not_over_are_said_to_be_under_way(stage: Stage) -> None:
    stage.jump("2026-03-03 05:50")
    answer = stage.say("yesterday museum 22-7")
    assert answer.lines == ["Yesterday, 22:00–07:00 is still under way. Nothing is logged yet."]
    assert answer.labels == ["Log it anyway"]


def test_hours_over_a_clock_change_say_why_they_are_not_what_their_times_show(stage: Stage) -> None:
    # Brussels puts its clocks back in the night to Sun 25 October 2026 (tz database 2026f).
    stage.jump("2026-10-25 08:00")
    assert stage.say("yesterday museum 22:00-7:00 less 30m").lines[:2] == [
        "Museum, Sat 24 Oct, 22:00–07:00, less 30 min: 9 h 30",
        "The clock went back, so 10 h passed from start to end.",
    ]
    assert "Sat 24 Oct: 22:00–07:00, less 30 min (the clock went back): 9 h 30" in stage.say("timesheet museum").lines
    stage.jump("2027-03-27 09:00")
    assert "The clock goes forward meanwhile: 8 h." in stage.say("appt today 22:00-7:00 watch museum").lines


def test_of_a_time_that_came_twice_it_is_said_which_was_taken(stage: Stage) -> None:
    # Brussels shows the hour from 02:00 twice in the night to Sun 25 October 2026 (tz database 2026f).
    stage.jump("2026-10-25 08:00")
    assert stage.say("museum last night 18-2:30").lines[:2] == [
        "Museum, Sat 24 Oct, 18:00–02:30: 8 h 30",
        "02:30 came twice that night; this is the first.",
    ]


def test_a_date_without_a_year_that_lies_ahead_is_not_taken_for_last_years(stage: Stage) -> None:
    answer = stage.say("8/3 museum 2h")
    assert answer.lines == ["Sun 8 Mar is still to come. Nothing is logged yet."]
    assert answer.labels == ["Log it anyway", "Log for Sun 1 Mar"]
    assert stage.say("8/4 museum 2h").labels == ["Log it anyway"]
    assert stage.say("8/3 museum 8-16").text == "Added: Sun 8 Mar, 08:00–16:00 museum."
    assert stage.say("20/12 museum 2h").lines[0] == "Museum, Sat 20 Dec 2025: 2 h"
