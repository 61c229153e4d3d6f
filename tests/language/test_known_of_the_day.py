"""Replies whose meaning rests on what is known of the day: the clock, the plan, the latest hours."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, time

import pytest

from bot.language.context import Context, Planned
from bot.language.meaning import AddGoal, Amend, Ask, ClockOut, Close, Log, SaidStint, Unknown
from bot.language.pick import Pick
from bot.language.plan_meaning import AsPlanned
from bot.language.understand import understand
from bot.voice.written import labelled, written
from tests.language.person import at, clocked_in, planning

EVENING = at("2026-03-03T18:00")
AFTER_WORK = replace(EVENING, last_end=time(13, 30))
PLANNED = replace(EVENING, planned=planning(("museum", "13:00", "17:30")).planned)


def _only(text: str, context: Context) -> tuple[str | None, time | None, time | None, int, str | None]:
    meaning = understand(text, context)
    assert isinstance(meaning, Log), meaning
    (stint,) = meaning.stints
    return stint.category, stint.start, stint.end, stint.minutes, stint.began


@pytest.mark.parametrize("text", ["museum until 17", "museum til 5", "until 5pm museum", "worked till 17 at the museum"])
def test_hours_with_an_end_alone_begin_where_the_latest_ended(text: str) -> None:
    assert _only(text, AFTER_WORK) == ("museum", time(13, 30), time(17), 210, "last hours")


def test_they_begin_as_planned_where_nothing_was_done_since() -> None:
    text = "museum until 17"
    assert _only(text, PLANNED) == ("museum", time(13), time(17), 240, "planned")
    assert _only(text, replace(PLANNED, last_end=time(12))) == ("museum", time(13), time(17), 240, "planned")
    assert _only(text, replace(PLANNED, last_end=time(14))) == ("museum", time(14), time(17), 180, "last hours")


def test_hours_written_as_they_are_planned_are_in_that_half_of_the_day() -> None:
    morning = replace(at("2026-03-03T10:20"), waking_start=time(3))
    afternoon = replace(morning, planned=planning(("museum", "14:30", "16:30")).planned)
    assert _only("museum 2:30-4:30", morning)[1:3] == (time(2, 30), time(4, 30))
    assert _only("museum 2:30-4:30", afternoon)[1:3] == (time(14, 30), time(16, 30))
    assert _only("museum 02:30-04:30", afternoon)[1:3] == (time(2, 30), time(4, 30))
    assert _only("museum 2:30-4:00", afternoon)[1:3] == (time(2, 30), time(4))


def test_their_break_comes_off() -> None:
    assert _only("museum until 17 less 30m", PLANNED) == ("museum", time(13), time(17), 210, "planned")


def test_an_end_alone_stops_the_clock_that_runs() -> None:
    assert understand("museum until 17", clocked_in("museum")) == ClockOut("museum", time(17))
    assert understand("worked till 5", clocked_in("museum")) == ClockOut("museum", time(17))
    stopped = understand("museum until 17 less 30m", clocked_in("museum"))
    assert isinstance(stopped, Log)
    assert stopped.ends_clock
    assert stopped.stints[0].minutes == 450


@pytest.mark.parametrize("context", [EVENING, clocked_in("workshop"), replace(EVENING, last_end=time(17, 30))])
def test_where_nobody_can_say_when_they_began_it_is_no_reply(context: Context) -> None:
    assert isinstance(understand("museum until 17", context), Unknown)


def test_without_a_category_each_is_a_choice() -> None:
    meaning = understand("worked till 5", AFTER_WORK)
    assert isinstance(meaning, Ask)
    assert len(meaning.choices) == 5


def test_such_hours_are_written_as_they_were_said() -> None:
    for context in (AFTER_WORK, PLANNED):
        meaning = understand("museum until 17 less 15m", context)
        assert understand(written(meaning, context), context) == meaning


def test_a_break_ends_the_clock_only_where_one_runs_since_today() -> None:
    assert isinstance(understand("out less 30m", clocked_in()), Log)
    assert understand("out less 30m", at()) == ClockOut()
    assert isinstance(understand("out less 30m", replace(clocked_in(), clocked_since=None)), Unknown)
    assert isinstance(understand("out museum less 30m", clocked_in("workshop")), Unknown)
    assert isinstance(understand("out 8:30 less 30m", clocked_in()), Unknown)


@pytest.mark.parametrize(
    "text", ["break 20m", "20 min break", "lunch 20 min", "i had a 20 min break", "had a break of 20 min", "less 20 min"]
)
def test_a_break_alone_corrects_the_hours_of_today_or_of_the_night_before(text: str) -> None:
    assert understand(text, AFTER_WORK) == Amend(break_minutes=20)
    assert understand(text, replace(EVENING, ran_over=True)) == Amend(break_minutes=20)
    assert isinstance(understand(text, EVENING), Unknown)
    assert isinstance(understand(text, clocked_in()), Unknown)


def test_the_plan_is_told_whole_or_for_one_category() -> None:
    context = replace(EVENING, planned=planning(("workshop", "09:00", "12:30"), ("museum", "13:00", "17:00")).planned)
    whole, one = understand("as planned", context), understand("museum as planned", context)
    assert isinstance(whole, Log)
    assert [(stint.category, stint.minutes) for stint in whole.stints] == [("workshop", 210), ("museum", 240)]
    assert isinstance(one, Log)
    assert [stint.category for stint in one.stints] == ["museum"]
    assert isinstance(understand("2h workshop, family as planned", context), Unknown)
    assert isinstance(understand("not as planned", context), Unknown)
    assert isinstance(understand("it went as planned", context), Unknown)


@pytest.mark.parametrize("text", ["as planned", "log as planned", "all as planned", "everything as planned"])
def test_where_nothing_planned_waits_it_is_no_time_at_all(text: str) -> None:
    nothing = Log((SaidStint(None, EVENING.now.date(), 0, began="planned"),))
    assert understand(text, EVENING) == nothing
    told = replace(PLANNED, planned=tuple(replace(block, told=True) for block in PLANNED.planned))
    assert understand(text, told) == nothing
    assert understand("museum as planned", told) != nothing


def test_of_a_day_of_which_some_is_not_over_or_told_already_the_plan_tells_what_waits() -> None:
    context = replace(at("2026-03-03T12:30"), planned=planning(("workshop", "09:00", "12:30"), ("museum", "13:00", "17:00")).planned)
    assert understand("as planned", context) == AsPlanned(date(2026, 3, 3))
    done = replace(context, planned=(context.planned[0], replace(context.planned[1], told=True)))
    assert understand("as planned", done) == AsPlanned(date(2026, 3, 3))
    assert _only("as planned", replace(context, planned=context.planned[:1]))[0] == "workshop"


SPOKES = Planned("workshop", time(16), time(17), "order spokes", task_id=12)
EXERCISE = Planned("home", time(17, 30), time(18, 30), "exercise", routine=True)
ACCEPTED = replace(EVENING, blocks=(SPOKES, EXERCISE), routines=("exercise",))


def test_the_plan_that_was_accepted_is_told_with_what_it_is_for() -> None:
    of_task = SaidStint("workshop", EVENING.now.date(), 60, time(16), time(17), task_ids=(12,))
    of_routine = SaidStint("home", EVENING.now.date(), 60, time(17, 30), time(18, 30), note="exercise")
    later = replace(ACCEPTED, now=at("2026-03-03T19:00").now)
    assert understand("as planned", later) == Log((of_task, of_routine))
    assert understand("spokes as planned", ACCEPTED) == Log((of_task,))
    assert understand("exercise as planned", later) == Log((of_routine,))
    assert understand("as planned", ACCEPTED) == AsPlanned(date(2026, 3, 3))


def test_of_a_category_that_is_named_what_waits_and_is_over_comes_first_too() -> None:
    told, waits = Planned("workshop", time(9), time(12), "shift", told=True), Planned("workshop", time(13), time(15), "shift")
    context = replace(ACCEPTED, planned=(told, waits), blocks=(replace(SPOKES, start=time(19), end=time(20)),))
    meaning = understand("workshop as planned", context)
    assert isinstance(meaning, Log)
    assert [stint.start for stint in meaning.stints] == [time(13)]
    assert understand("workshop as planned", replace(context, planned=(told,))) == AsPlanned(date(2026, 3, 3), "workshop")
    again = understand("workshop as planned", replace(context, planned=(told,), blocks=()))
    assert isinstance(again, Log)
    assert again.stints[0].start == time(9)


def test_hours_without_a_category_are_for_the_block_at_that_hour() -> None:
    assert understand("20m", ACCEPTED) == Log((SaidStint("home", EVENING.now.date(), 20, note="exercise", why="planned"),))
    hours = understand("16-16:30", ACCEPTED)
    assert isinstance(hours, Log)
    assert (hours.stints[0].category, hours.stints[0].task_ids) == ("workshop", (12,))


def test_a_routine_is_told_as_done_or_with_its_hours() -> None:
    for text in ("done exercise", "exercise done", "did my exercise", "exercise is done"):
        assert understand(text, ACCEPTED) == Close(Pick(words="exercise")), text
    assert understand("did my exercise 30m", ACCEPTED) == Close(Pick(words="exercise"), 30)
    for text in ("exercise 30 min", "30m exercise", "did 30 min of exercise", "30m - exercise"):
        assert understand(text, ACCEPTED) == Log((SaidStint(None, EVENING.now.date(), 30, note="exercise"),)), text
    for text in ("exercise 30 min", "exercise done"):
        assert isinstance(understand(text, replace(ACCEPTED, routines=())), Unknown), text


@pytest.mark.parametrize("text", ["family as planned", "worked family like planned", "family as planned less 30m"])
def test_the_plan_of_a_category_that_has_none_is_no_time_at_all(text: str) -> None:
    assert understand(text, PLANNED) == Log((SaidStint("family", PLANNED.now.date(), 0, began="planned"),))


def test_the_plan_is_told_by_a_commitments_name_and_with_a_break() -> None:
    blocks = (Planned("museum", time(10), time(12), "School tour (group 4)"), Planned("museum", time(13), time(17), "museum shift"))
    context = replace(EVENING, planned=blocks)
    for text, minutes in (("tour as planned", 120), ("the school tour as planned", 120), ("museum shift as planned less 30m", 210)):
        meaning = understand(text, context)
        assert isinstance(meaning, Log)
        assert [stint.minutes for stint in meaning.stints] == [minutes]
    assert isinstance(understand("museum as planned less 30m", context), Unknown)
    assert isinstance(understand("tour as planned less 2h", context), Unknown)
    assert isinstance(understand("tours as planned", context), Unknown)
    near = understand("tour 1h30", context)
    assert isinstance(near, Unknown)
    assert "1h30 museum" in near.near


@pytest.mark.parametrize(
    ("text", "goal"),
    [
        ("goal next week: fix tandem", AddGoal("fix tandem", "week", period=date(2026, 3, 9))),
        ("next week goal fix tandem", AddGoal("fix tandem", "week", period=date(2026, 3, 9))),
        ("goal fix tandem this week", AddGoal("fix tandem", "week")),
        ("goal next month paint shed", AddGoal("paint shed", "month", period=date(2026, 4, 1))),
        ("goal april: paint shed", AddGoal("paint shed", "month", period=date(2026, 4, 1))),
        ("goal january: paint shed", AddGoal("paint shed", "month", period=date(2027, 1, 1))),
        ("goal march: paint shed", AddGoal("paint shed", "month")),
    ],
)
def test_a_goal_may_be_for_a_week_or_month_to_come(text: str, goal: AddGoal) -> None:
    assert understand(text, at()) == goal
    assert understand(written(goal, at()), at()) == goal


def test_a_choice_is_labelled_by_the_24_hour_clock() -> None:
    late = replace(at(), waking_end=time(23, 30))
    for text in ("appt dentist fri 7-8", "appt dentist tomorrow 8-9", "museum 8-9 yesterday"):
        meaning = understand(text, late)
        assert isinstance(meaning, Ask)
        labels = [labelled(choice, late) for choice in meaning.choices]
        assert len(set(labels)) == 2
        assert not any("am" in label.split()[-1] or "pm" in label for label in labels), labels


@pytest.mark.parametrize(
    ("text", "category", "words"),
    [
        ("yesterday museum as planned", "museum", None),
        ("museum yesterday as planned", "museum", None),
        ("museum as planned yesterday", "museum", None),
        ("worked museum as planned on mon 2 march", "museum", None),
        ("yesterday as planned", None, None),
        ("yesterday school tour as planned", None, "school tour"),
    ],
)
def test_the_plan_of_another_day_is_for_that_day_to_tell(text: str, category: str | None, words: str | None) -> None:
    context = replace(PLANNED, now=PLANNED.now.replace(month=3, day=3))
    assert understand(text, context) == AsPlanned(date(2026, 3, 2), category, words)


def test_a_plan_is_not_told_of_a_day_to_come_or_in_ordinary_talk() -> None:
    for text in ("museum tomorrow as planned", "it went as planned yesterday", "yesterday museum as planned monday"):
        assert isinstance(understand(text, PLANNED), Unknown)


def test_what_ran_in_from_yesterday_and_what_is_not_over_is_for_the_plan_to_tell() -> None:
    watch, shift = Planned("museum", time(22), time(7), "night watch"), Planned("museum", time(18), time(19), "evening tour")
    morning = replace(EVENING, now=EVENING.now.replace(hour=7, minute=5), planned=(shift,), ran_in=(watch,))
    today = EVENING.now.date()
    for text, category, words in (
        ("museum as planned", "museum", None),
        ("as planned", None, None),
        ("watch as planned", None, "night watch"),
    ):
        assert understand(text, morning) == AsPlanned(today, category, words)
    assert understand("museum as planned", replace(morning, ran_in=())) == AsPlanned(today, "museum")
    assert understand("workshop as planned", morning) == Log((SaidStint("workshop", today, 0, began="planned"),))


def test_what_was_planned_is_told_as_done_and_stops_its_clock() -> None:
    context = replace(EVENING, planned=(Planned("museum", time(13), time(17), "museum shift"),), blocks=())
    for text in ("museum done", "museum shift done"):
        meaning = understand(text, context)
        assert isinstance(meaning, Log), text
        assert meaning.stints[0].start == time(13), text
    assert understand("museum done", replace(context, clocked_in="museum", clocked_since=time(13))) == ClockOut("museum")
    for text in ("dinner done", "done shopping"):
        assert not isinstance(understand(text, context), Log), text
    told = replace(context, planned=(replace(context.planned[0], told=True),))
    assert understand("museum done", told) == understand("museum as planned", told)
    assert understand("workshop done", context) == understand("workshop as planned", context)


def test_hours_may_be_named_by_a_goal_of_the_week_or_what_is_fixed() -> None:
    context = replace(EVENING, blocks=(), planned=(), titles=("write the essay", "pottery class"))
    for text in ("1h30 write the essay", "write the essay 1.5h", "essay 1h30 done", "1h30 on the essay"):
        meaning = understand(text, context)
        assert isinstance(meaning, Log), text
        assert [(stint.category, stint.minutes, stint.note) for stint in meaning.stints] == [(None, 90, "write the essay")], text
    assert isinstance(understand("pottery class as planned", context), AsPlanned)
    for text in ("poetry as planned", "essays 2h", "pottery class 18-19 fri"):
        assert not isinstance(understand(text, context), Log | AsPlanned), text
