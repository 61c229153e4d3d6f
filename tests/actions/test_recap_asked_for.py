"""The recap that is asked for: of this week as it stands, or of one that has been."""

from __future__ import annotations

from tests.stage import Stage


def test_this_weeks_recap_so_far(stage: Stage) -> None:
    stage.say("4h workshop")
    stage.say("goal finish chapter 4 learning 3h")
    stage.jump("2026-03-04 12:00")
    answer = stage.say("recap")
    assert answer.lines[:2] == ["Your week so far, 2–8 March", "Workshop: 4 h"]
    assert "Pay period since Mon 2 Mar: Workshop 4 h" in answer.lines
    assert "1 finish chapter 4, 3 h" in answer.lines
    assert "Carry 1" in answer.labels


def test_what_only_a_whole_week_can_tell_waits_for_its_end(stage: Stage) -> None:
    stage.say("4h workshop")
    stage.say("target workshop at most 3h")
    stage.jump("2026-03-04 12:00")
    for said in ("1h workshop", "yesterday 30m workshop"):
        stage.say(said)
    so_far = stage.say("recap").lines
    assert not any(line.startswith("Most hours on") for line in so_far)
    assert "2 h 30 more workshop than you want at most." in so_far
    stage.jump("2026-03-08 12:00")
    assert "Most hours on Mon 2 Mar: 4 h." in stage.say("recap").lines


def test_on_the_weeks_last_day_it_is_the_recap_itself(stage: Stage) -> None:
    stage.say("4h workshop")
    told = next(parcel for parcel in stage.at("2026-03-08 18:00").parcels if parcel.round == "recap")
    assert stage.say("recap").text == told.text


def test_a_week_that_has_been_is_told_as_it_was(stage: Stage) -> None:
    stage.say("4h workshop")
    stage.jump("2026-03-11 12:00")
    answer = stage.say("recap last week")
    assert answer.lines[:2] == ["Your week, 2–8 March", "Workshop: 4 h"]


def test_asking_changes_nothing_and_another_time_is_still_a_setting(stage: Stage) -> None:
    assert "Undo" not in stage.say("recap").labels
    assert stage.say("recap 17:00").text == "Recap at 17:00 on Sunday."


def test_a_month_has_one_too(stage: Stage) -> None:
    stage.say("4h workshop")
    so_far = stage.say("month recap")
    assert so_far.lines[:2] == ["Your month so far, March 2026", "Workshop: 4 h"]
    assert stage.say("monthly recap").text == so_far.text
    stage.jump("2026-04-02 12:00")
    assert stage.say("recap last month").lines[:2] == ["Your month, March 2026", "Workshop: 4 h"]
    assert stage.say("recap march").lines[0] == "Your month, March 2026"


def test_a_week_is_asked_for_by_its_name(stage: Stage) -> None:
    stage.say("4h workshop")
    for said in ("weekly recap", "week recap", "recap of the week"):
        assert stage.say(said).text == stage.say("recap").text
