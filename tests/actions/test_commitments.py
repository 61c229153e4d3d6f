"""Commitments, routines and targets."""

from __future__ import annotations

import pytest

from tests.stage import Stage


def test_a_commitment_is_said_back_in_exact_terms(stage: Stage) -> None:
    assert stage.say("appt tue 10:00-10:45 dentist").text == "Added: Tue 3 Mar, 10:00–10:45 dentist."


def test_without_an_end_it_is_an_hour_and_says_so(stage: Stage) -> None:
    assert stage.say("appt tomorrow 15:00 dentist").lines == [
        "Added: Tue 3 Mar, 15:00–16:00 dentist.",
        "An hour long, as no end was said.",
    ]


def test_without_a_time_it_is_for_the_day_and_blocks_no_hours(stage: Stage) -> None:
    free = stage.say("tomorrow").lines[-1]
    assert stage.say("appt tomorrow birthday").text == "Added: Tue 3 Mar, all day birthday."
    view = stage.say("tomorrow").lines
    assert "All day: birthday" in view
    assert view[-1] == free


def test_a_recurring_one_names_its_rule(stage: Stage) -> None:
    answer = stage.say("choir every thursday 19:30-21:00 minor")
    assert answer.text == "Added: Thu 5 Mar, 19:30–21:00 choir (minor), every Thursday."


def test_a_clash_is_named(stage: Stage) -> None:
    stage.say("appt tue 10-11 dentist")
    assert stage.say("appt tue 10:30-12 bank").lines[1] == "At the same time: dentist."


def test_outside_the_waking_hours_is_pointed_out(stage: Stage) -> None:
    assert stage.say("appt tue 21:30-22:30 stargazing").lines[1] == "It lies outside your waking hours."


def fill_thursday(stage: Stage) -> None:
    for text in ("appt thu 9-10 school", "appt thu 11-12 plumber", "appt thu 14-15 bank"):
        stage.say(text)


def test_the_fourth_major_commitment_of_a_day_is_pointed_out_with_lighter_days(stage: Stage) -> None:
    fill_thursday(stage)
    answer = stage.say("appt thu 18-19 dentist")
    assert answer.lines[1] == (
        "Thu 5 Mar now has 4 commitments; more than three is a lot for one day. "
        "Lighter, with that part of day free: Mon 2 Mar, Tue 3 Mar and Wed 4 Mar."
    )
    assert answer.labels == ["Move to Mon 2 Mar", "Move to Tue 3 Mar", "Move to Wed 4 Mar", "Undo"]


def test_a_minor_one_is_never_too_much(stage: Stage) -> None:
    fill_thursday(stage)
    assert len(stage.say("appt thu 18-19 walk minor").lines) == 1


def test_a_lighter_day_is_one_tap_away_and_only_one(stage: Stage) -> None:
    fill_thursday(stage)
    stage.say("appt thu 18-19 dentist")
    assert stage.tap("Move to Tue 3 Mar").lines[0] == "Moved from Thu 5 Mar, 18:00 to Tue 3 Mar, 18:00–19:00 dentist."
    assert "no longer of use" in stage.tap("Move to Wed 4 Mar").text or "chose that already" in stage.tap("Move to Wed 4 Mar").text


def test_a_commitment_is_moved_by_its_words(stage: Stage) -> None:
    stage.say("appt tue 10:00-10:45 dentist")
    assert stage.say("move dentist to fri 16:00").lines[0] == "Moved from Tue 3 Mar, 10:00 to Fri 6 Mar, 16:00–16:45 dentist."


def test_of_a_recurring_one_only_the_next_time_is_moved(stage: Stage) -> None:
    stage.say("choir every thursday 19:30-21:00 minor")
    stage.say("move choir to friday")
    week = stage.say("week").text
    assert "Fri 6 Mar: evening 19:30–21:00 choir (minor)" in week
    assert "Thu 5 Mar: nothing fixed" in week
    assert "Thu 12 Mar: evening 19:30–21:00 choir (minor)" in stage.say("next week").text


def test_a_single_one_is_cancelled(stage: Stage) -> None:
    stage.say("appt tue 10-11 dentist")
    assert stage.say("cancel dentist").text == "Cancelled: Tue 3 Mar, 10:00–11:00 dentist."
    assert stage.say("cancel dentist").text == "I find no commitment “dentist” from today on."


def test_cancelling_a_recurring_one_asks_once_or_every_time(stage: Stage) -> None:
    stage.say("choir every thursday 19:30-21:00")
    answer = stage.say("cancel choir")
    assert answer.labels == ["Only Thu 5 Mar", "Every time"]
    assert stage.tap("Only Thu 5 Mar").text == "Cancelled: Thu 5 Mar, 19:30–21:00 choir."
    assert "choir" not in stage.say("week").text
    assert "choir" in stage.say("next week").text


def test_every_time_cancels_the_series(stage: Stage) -> None:
    stage.say("choir every thursday 19:30-21:00")
    stage.say("cancel choir")
    assert stage.tap("Every time").text == "Cancelled, every time: choir."
    assert "choir" not in stage.say("next week").text


def test_a_day_named_cancels_that_days_occurrence_at_once(stage: Stage) -> None:
    stage.say("choir every thursday 19:30-21:00")
    assert stage.say("cancel choir thursday").text == "Cancelled: Thu 5 Mar, 19:30–21:00 choir."


def test_a_recurring_one_keeps_its_wall_clock_over_a_clock_change(stage: Stage) -> None:
    # Europe/Brussels changes on 29 March 2026 (tz database).
    stage.say("choir every thursday 19:30-21:00")
    stage.at("2026-03-30 09:00")
    assert "Thu 2 Apr: evening 19:30–21:00 choir" in stage.say("week").text


def test_a_routine_is_said_back(stage: Stage) -> None:
    assert stage.say("routine exercise 30m every day 7-8").text == "Routine: exercise, 30 min, every day, between 07:00 and 08:00."


@pytest.mark.parametrize(
    ("said", "answer"),
    [
        ("target learning at least 5h", "Learning: at least 5 h a week, from today on."),
        ("target museum at most 20h", "Museum: at most 20 h a week, from today on."),
        ("target family 5-10h", "Family: 5 h to 10 h a week, from today on."),
    ],
)
def test_a_target_is_said_back(stage: Stage, said: str, answer: str) -> None:
    assert stage.say(said).text == answer


def test_a_target_set_again_in_the_same_week_replaces_the_first(stage: Stage) -> None:
    stage.say("target learning at least 5h")
    stage.say("target learning at least 6h")
    assert stage.look(lambda desk: [each.at_least_minutes for each in desk.targets.all()]) == [360]


def test_a_day_alone_cancels_the_one_thing_that_is_on_it(stage: Stage) -> None:
    stage.say("appt thursday 15-16 dentist")
    assert stage.say("cancel thursday").text == "Cancelled: Thu 5 Mar, 15:00–16:00 dentist."
    assert stage.say("cancel thursday").text == "Nothing is fixed for Thu 5 Mar."


def test_of_several_on_a_day_a_button_says_which(stage: Stage) -> None:
    stage.say("appt thursday 15-16 dentist")
    stage.say("appt thursday 18-19 choir")
    answer = stage.say("cancel thursday")
    assert answer.labels == ["cancel dentist thu 15:00", "cancel choir thu 18:00"]
    assert stage.tap("cancel choir thu 18:00").text == "Cancelled: Thu 5 Mar, 18:00–19:00 choir."


def test_an_hour_says_which_of_a_day(stage: Stage) -> None:
    stage.say("appt thursday 15-16 dentist")
    stage.say("appt thursday 18-19 choir")
    assert stage.say("cancel thursday 18:00").text == "Cancelled: Thu 5 Mar, 18:00–19:00 choir."


def test_two_shifts_in_one_message_are_two_commitments(stage: Stage) -> None:
    answer = stage.say("museum shift tue 1-5pm and thu 12-6pm")
    assert "Tue 3 Mar" in answer.text
    assert "Thu 5 Mar" in answer.text
    week = stage.say("week").text
    assert "13:00–17:00 museum shift" in week
    assert "12:00–18:00 museum shift" in week


def test_a_move_without_a_day_offers_the_days_with_that_part_of_the_day_free(stage: Stage) -> None:
    stage.say("dentist thu 15:00-16:00")
    stage.say("choir fri 14:00-15:00")
    asked = stage.say("move dentist")
    assert asked.lines == [
        "Thu 5 Mar, 15:00–16:00 dentist. Move it to which day, at the same time?",
        "For another time, write: move dentist to sat 10:00",
    ]
    assert asked.labels == ["Mon 2 Mar", "Tue 3 Mar", "Wed 4 Mar", "Sat 7 Mar", "Sun 8 Mar", "Mon 9 Mar"]
    assert stage.tap("Wed 4 Mar").lines[0] == "Moved from Thu 5 Mar, 15:00 to Wed 4 Mar, 15:00–16:00 dentist."
    assert stage.say("move dentist fri to 10:00").text == "There is no “dentist” to come on Fri 6 Mar. Did you mean one of these?"
    assert stage.say("move dentist wed to 10:00").lines[0] == "Moved from Wed 4 Mar, 15:00 to Wed 4 Mar, 10:00–11:00 dentist."


def test_a_move_without_a_name_asks_which_and_a_day_with_a_time_answers_where_to(stage: Stage) -> None:
    assert stage.say("move").text == "Nothing is fixed for the week ahead."
    stage.say("dentist thu 15:00-16:00")
    stage.say("choir every wed 19-20")
    asked = stage.say("move")
    assert asked.labels == ["move choir from wed", "move dentist from thu"]
    assert stage.tap("move dentist from thu").lines[0].startswith("Thu 5 Mar, 15:00–16:00 dentist.")
    assert stage.say("fri 16").text == "Moved from Thu 5 Mar, 15:00 to Fri 6 Mar, 16:00–17:00 dentist."
    assert "Moved" not in stage.say("fri 16").text
    stage.say("move dentist")
    assert stage.say("2h museum yesterday").lines[0] == "Museum, Sun 1 Mar: 2 h"


def test_a_shift_of_a_day_that_may_be_either_is_asked_about_in_plain_words(stage: Stage) -> None:
    asked = stage.say("museum shift mon 13-17")
    assert asked.text == "Is that planned, or spent already?"
    assert asked.labels == ["Planned: Mon 9 Mar, 13:00–17:00", "Spent: today, 13:00–17:00"]
    assert stage.tap("Spent: today, 13:00–17:00").lines[0].startswith("Today, 13:00–17:00 is still to come.")
    assert stage.say("the museum shift mon 13-17").labels == asked.labels


@pytest.mark.parametrize("said", ["swimming Leonor thursdays 1630", "swimming Leonor thursdays 4:30pm", "thursdays 16:30 swimming Leonor"])
def test_a_day_in_the_plural_is_that_of_every_week_and_the_answer_says_so(stage: Stage, said: str) -> None:
    assert stage.say(said).lines[0] == "Added: Thu 5 Mar, 16:30–17:30 swimming Leonor, every Thursday."


def test_hours_of_a_day_in_the_plural_are_planned_unless_told_as_spent(stage: Stage) -> None:
    assert stage.say("museum mondays 9-12").lines[0] == "Added: Mon 2 Mar, 09:00–12:00 museum, every Monday."
    stage.jump("2026-03-05 09:00")
    assert stage.say("worked museum mondays 13-15").lines[0] == "Museum, Mon 2 Mar, 13:00–15:00: 2 h"


@pytest.mark.parametrize(
    ("weekday", "since", "to"),
    [("sat", "Sat 28 Mar", "Fri 27 Mar"), ("wed", "Wed 25 Mar", "Sat 28 Mar"), ("wed", "Wed 25 Mar", "Mon 30 Mar")],
)
def test_a_night_moved_over_a_clock_change_keeps_both_its_ends_on_the_wall_clock(stage: Stage, weekday: str, since: str, to: str) -> None:
    # Brussels puts its clocks forward in the night to Sun 29 March 2026 (tz database 2026f).
    stage.jump("2026-03-24 09:00")
    stage.say(f"watch every {weekday} 22:00-7:00 museum")
    assert stage.say(f"move watch to {to}").lines[0] == f"Moved from {since}, 22:00 to {to}, 22:00–07:00 watch, Museum."


def test_a_move_to_another_hour_keeps_the_length_that_the_clocks_show(stage: Stage) -> None:
    stage.jump("2026-10-20 09:00")
    stage.say("watch sat 24 oct 22:00-7:00 museum")
    assert stage.say("move watch to sat 24 oct 21:00").lines[0] == "Moved from Sat 24 Oct, 22:00 to Sat 24 Oct, 21:00–06:00 watch, Museum."


def test_a_week_of_something_is_cancelled_at_once_and_taken_back_at_once(stage: Stage) -> None:
    stage.say("school every weekday 8:30-15:30 minor")
    assert stage.say("cancel school 17-19 march").lines == ["Cancelled: school, Tue 17 Mar, Wed 18 Mar and Thu 19 Mar."]
    assert stage.say("cancel school next week").lines == [
        "Cancelled: school, Mon 9 Mar, Tue 10 Mar, Wed 11 Mar, Thu 12 Mar and Fri 13 Mar."
    ]
    assert "Nothing fixed on any day." in stage.say("next week").lines
    stage.say("undo")
    assert "Mon 9 Mar: morning 08:30–15:30 school (minor)" in stage.say("next week").lines


def test_many_days_are_counted(stage: Stage) -> None:
    stage.say("school every weekday 8:30-15:30 minor")
    assert stage.say("cancel school 9-20 march").lines == ["Cancelled: school, 10 times."]


def test_single_shifts_of_one_name_are_cancelled_together(stage: Stage) -> None:
    stage.say("museum shift next week mon 7-13, wed 7-13")
    stage.say("dentist tue 10 march 9-10")
    assert stage.say("cancel museum next week").lines == ["Cancelled: museum shift, Mon 9 Mar and Wed 11 Mar."]
    assert "Tue 10 Mar: morning 09:00–10:00 dentist" in stage.say("next week").lines


def test_what_is_not_on_the_day_named_is_offered_on_those_on_which_it_is(stage: Stage) -> None:
    stage.say("museum shift wed 13-17, sat 14-18")
    answer = stage.say("move museum fri to 18:30")
    assert answer.text == "There is no “museum shift” to come on Fri 6 Mar. Did you mean one of these?"
    assert answer.labels == ["Wed 4 Mar, 13:00–17:00 museum shift", "Sat 7 Mar, 14:00–18:00 museum shift"]
    assert stage.tap("Sat 7 Mar, 14:00–18:00 museum shift").lines[0].startswith("Moved from Sat 7 Mar, 14:00 to Sat 7 Mar, 18:30–22:30")
    assert stage.say("cancel museum next week").lines[0].startswith("There is no “museum shift” to come in 9–15 March.")
    assert stage.tap("Wed 4 Mar, 13:00–17:00 museum shift").lines[0] == "Cancelled: Wed 4 Mar, 13:00–17:00 museum shift."
    assert stage.say("cancel opera friday").text == "I find no commitment “opera” from today on."


def test_the_end_of_a_recurrence_is_told_in_the_persons_order_of_dates(stage: Stage) -> None:
    assert stage.say("course every mon 9:55-10:45 learning until may 1").text == (
        "Added: Mon 2 Mar, 09:55–10:45 course, every Monday until 1 May 2026, Learning."
    )
    stage.say("dates month-day")
    assert "every Tuesday until May 1 2026" in stage.say("lecture every tue 9:55-10:45am until may 1").text
    assert "every day until May 1 2026" in stage.say("routine yoga 30m every day until may 1").text


def test_a_commitment_that_is_at_another_time_moves_and_may_be_added_beside(stage: Stage) -> None:
    stage.say("museum shift every sat and sun 8-16")
    answer = stage.say("museum shift is 9-17 this saturday")
    assert answer.text == "Moved from Sat 7 Mar, 08:00 to Sat 7 Mar, 09:00–17:00 museum shift, Museum."
    assert answer.labels == ["Add it beside", "Undo"]
    assert "At the same time: museum shift." in stage.tap("Add it beside").text
    saturday = next(line for line in stage.say("week").lines if line.startswith("Sat"))
    assert "08:00–16:00 museum shift, 09:00–17:00 museum shift" in saturday


def test_what_is_not_there_yet_is_added_whatever_word_says_when_it_is(stage: Stage) -> None:
    assert stage.say("picnic is sunday 12-15").text == "Added: Sun 8 Mar, 12:00–15:00 picnic."
    assert stage.say("picnic sunday 13-15 instead").text == "Moved from Sun 8 Mar, 12:00 to Sun 8 Mar, 13:00–15:00 picnic."


def test_without_a_day_the_next_one_of_these_words_is_at_the_new_time(stage: Stage) -> None:
    stage.say("appt lunch with Ann friday 12:30")
    assert stage.say("lunch with Ann is at 13:00 now").text == "Moved from Fri 6 Mar, 12:30 to Fri 6 Mar, 13:00–14:00 lunch with Ann."


def test_a_day_that_several_of_one_message_fill_is_pointed_out_once(stage: Stage) -> None:
    fill_thursday(stage)
    answer = stage.say("appt thu 17-18 vet\nappt thu 18-19 dentist")
    assert [line for line in answer.lines if "a lot for one day" in line] == [answer.lines[-1]]
    assert answer.lines[-1].startswith("Thu 5 Mar now has 5 ")
