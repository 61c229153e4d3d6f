"""The Sunday recap: what it counts, and what may be done with it."""

from __future__ import annotations

from datetime import date

from storage.records import Horizon, ToldWeather
from tests.stage import Answer, Stage


def recap_of(answer: Answer) -> list[str]:
    """The lines of the latest recap among what was said."""
    return [parcel for parcel in answer.parcels if parcel.round == "recap" and parcel.encloses is None][-1].text.split("\n")


def test_usual_hours_are_the_mean_of_the_weeks_since_the_person_began(stage: Stage) -> None:
    stage.say("4h workshop")
    stage.at("2026-03-10 12:00")
    stage.say("1h30 workshop")
    stage.at("2026-03-18 12:00")
    stage.say("3h workshop")
    stage.at("2026-03-25 12:00")
    stage.say("2h workshop")
    assert "Workshop: 2 h, usually 2 h 50" in recap_of(stage.at("2026-03-29 18:00"))


def test_weeks_before_the_person_came_are_not_usual_though_hours_of_them_were_told_later(stage: Stage) -> None:
    stage.say("2 february 6h workshop")
    stage.say("4h workshop")
    assert "usual" not in "\n".join(recap_of(stage.at("2026-03-08 18:00")))
    for day in ("2026-03-10", "2026-03-17", "2026-03-24"):
        stage.at(f"{day} 12:00")
        stage.say("2h workshop")
    assert "Workshop: 2 h, usually 2 h 40" in recap_of(stage.at("2026-03-29 18:00"))


def test_nothing_is_usual_before_three_weeks_are_over(stage: Stage) -> None:
    for day, hours in (("02", "9h"), ("09", "8h"), ("16", "1h")):
        stage.at(f"2026-03-{day} 09:00")
        assert stage.say(f"{hours} workshop").lines[0].startswith("Workshop")
        said = recap_of(stage.at(f"2026-03-{int(day) + 6:02d} 18:00"))
        assert "usual" not in "\n".join(said)


def test_jobs_are_told_for_their_pay_periods(stage: Stage) -> None:
    for text in ("4h workshop", "last thursday 2h museum", "1h museum"):
        stage.say(text)
    lines = recap_of(stage.at("2026-03-08 18:00"))
    assert "Pay period since Mon 2 Mar: Workshop 4 h, Museum 1 h" in lines


def test_tasks_closed_pushed_and_dropped_are_counted_on_the_day_they_were(stage: Stage) -> None:
    for text in ("task oil the chains", "task call Ann", "task order spokes", "task sort bolts", "task clean the window"):
        stage.say(text)
    for text in ("done 1", "done 2", "undo", "drop 3", "push 4 to thursday", "done bolts", "push 5 to tuesday next week"):
        stage.say(text)
    lines = recap_of(stage.at("2026-03-08 18:00"))
    # Calling Ann was closed and opened again, and goes from day to day by itself; the bolts were pushed and then closed.
    assert "Closed 2 tasks, dropped 1; 2 went on to a later day." in lines


def test_a_task_of_another_week_that_is_closed_in_this_one_counts_here(stage: Stage) -> None:
    stage.say("task order spokes next monday")
    stage.say("done spokes")
    assert "Closed 1 task." in recap_of(stage.at("2026-03-08 18:00"))
    assert not any("Closed" in line for line in recap_of(stage.at("2026-03-15 18:00")))


def test_a_task_that_is_opened_again_is_no_longer_settled(stage: Stage) -> None:
    stage.say("task order spokes")

    def settled(of: Stage) -> object:
        return of.look(lambda desk: [task.settled for task in desk.tasks.all()])

    stage.say("done 1")
    assert settled(stage) == [date(2026, 3, 2)]
    stage.say("reopen 1")
    assert settled(stage) == [None]
    stage.say("drop 1")
    assert settled(stage) == [date(2026, 3, 2)]


def test_a_commitment_that_came_after_the_plan_is_named_with_what_it_took(stage: Stage) -> None:
    stage.say("task read chapter 4 2h learning")
    stage.say("plan")
    stage.say("accept")
    hours = stage.look(lambda desk: desk.blocks.on(date(2026, 3, 2))[0])
    assert hours.starts.hour == 8  # type: ignore[attr-defined]  # 09:00 in Brussels.
    stage.say("appt today 10:00-10:45 plumber")
    stage.say("push 1 to tomorrow")
    assert "In the way: plumber took 45 min from read chapter 4." in recap_of(stage.at("2026-03-08 18:00"))


def test_the_weather_told_each_morning_is_summed_up(stage: Stage) -> None:
    def tell(desk: object) -> None:
        for day, low, high, wet in ((2, 3.0, 9.4, False), (3, -1.2, 6.0, True), (5, 2.0, 12.0, True)):
            desk.weather.put(ToldWeather(date(2026, 3, day), low, high, 3, wet))  # type: ignore[attr-defined]

    stage.look(tell)
    told = [line for line in recap_of(stage.at("2026-03-08 18:00")) if line.startswith("Weather")]
    assert told == ["Weather as forecast: wet on Tue and Thu, -1 to 12 °C, known of 3 days only."]


def test_no_forecast_at_all_is_no_line_at_all(stage: Stage) -> None:
    assert not any(line.startswith("Weather") for line in recap_of(stage.at("2026-03-08 18:00")))


def test_observations_stand_at_the_end(stage: Stage) -> None:
    stage.say("target workshop at most 2h")
    for text in ("3h workshop", "yesterday 1h home"):
        stage.say(text)
    assert recap_of(stage.at("2026-03-08 18:00"))[-1] == "1 h more workshop than you want at most."


def test_what_estimates_learned_in_the_week_is_told(stage: Stage) -> None:
    stage.say("task oil the chains 30m workshop")
    stage.say("closed 1 in 1h")
    assert "Workshop tasks now take 1.1 times your estimates; 1.0 a week ago." in recap_of(stage.at("2026-03-08 18:00"))


def test_a_target_missed_three_weeks_in_a_row_is_said_without_scolding(stage: Stage) -> None:
    stage.say("target learning at least 4h")
    for day in ("2026-03-02", "2026-03-09", "2026-03-16"):
        stage.at(f"{day} 12:00")
        stage.say("1h learning")
    assert "Learning is below what you want at least, 3 weeks in a row." in recap_of(stage.at("2026-03-22 18:00"))


def test_many_goals_keep_the_message_short_and_all_carry(stage: Stage) -> None:
    for number in range(9):
        stage.say(f"goal page {number} of the album home")
    said = stage.at("2026-03-08 18:00")
    lines = recap_of(said)
    assert "and 4 more: goals" in lines
    assert [label for label in said.labels if label.startswith("Carry")] == [*(f"Carry {n}" for n in range(1, 6)), "Carry all"]
    stage.tap("Carry all")
    goals = stage.look(lambda desk: [goal.carried for goal in desk.goals.open_for(Horizon.WEEK, date(2026, 3, 9))])
    assert goals == [1] * 9


def test_goals_that_nobody_touched_carry_with_mondays_message(stage: Stage) -> None:
    stage.say("goal finish chapter 4 learning 3h")
    stage.say("goal oil the gate home")
    stage.at("2026-03-08 18:00")
    stage.tap("Drop 2")
    assert stage.look(lambda desk: desk.goals.open_for(Horizon.WEEK, date(2026, 3, 9))) == ()
    stage.at("2026-03-09 06:00")
    carried = stage.look(lambda desk: [(goal.title, goal.carried) for goal in desk.goals.open_for(Horizon.WEEK, date(2026, 3, 9))])
    assert carried == [("finish chapter 4", 1)]


def test_the_week_ahead_comes_after_it_and_its_plan_counts_with_what_will_carry(stage: Stage) -> None:
    stage.say("goal finish chapter 4 learning 3h")
    said = stage.at("2026-03-08 18:00").parcels[-1]
    assert said.text.startswith("The week ahead, 9–15 March")
    assert said.round == "week ahead"
    assert said.text.endswith("\n\nGoals: finish chapter 4, 3 h.")
    planned = stage.tap("Plan the week")
    assert "Plan for 9–15 March" in planned.lines
    assert "finish chapter 4 (3 h)" in planned.text


def test_a_late_recap_says_so(stage: Stage) -> None:
    stage.at("2026-03-08 12:00")
    stage.jump("2026-03-09 05:00")
    said = stage.tick()
    assert recap_of(said)[1] == "Late, as I was not running earlier."


def test_a_busy_week_fits_twenty_lines(stage: Stage) -> None:
    for name in ("workshop", "museum", "learning", "family", "home"):
        stage.say(f"2h {name}")
    stage.say("target workshop at most 1h")
    for title in ("finish chapter 4", "true the wheels", "oil the gate"):
        stage.say(f"goal {title} home")
    stage.say("done gate")
    stage.say("task order spokes")
    stage.say("done spokes")
    assert len(recap_of(stage.at("2026-03-08 18:00"))) <= 20
