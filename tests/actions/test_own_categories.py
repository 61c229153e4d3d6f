"""A person's own categories: named, renamed, dropped."""

from __future__ import annotations

from tests.stage import Stage


def test_what_comes_with_the_settings_gives_way_to_the_persons_own_unless_it_is_used(stage: Stage) -> None:
    stage.say("2h learning")
    stage.say("/start")
    for _ in range(2):
        stage.tap("Keep this")
    assert stage.say("choir, kids, museum").lines[0] == "Your hours go to Choir, Kids, Museum and Learning."
    assert stage.look(lambda desk: len({category.colour for category in desk.categories.all()})) == 4
    stage.say("undo")
    assert stage.look(lambda desk: len(desk.categories.all())) == 5


def test_a_category_is_dropped_while_nothing_names_it(stage: Stage) -> None:
    stage.say("2h museum")
    assert stage.say("drop category workshop").text == "Category dropped: Workshop."
    assert stage.say("remove category museum").text == "“museum” has hours, goals or plans, so it stays. Nothing changed."
    assert stage.say("jobs").lines[0] == "Museum, Museum of Canals and Locks"
    stage.say("undo")
    assert "Workshop" in stage.say("jobs").text


def test_names_keep_their_capitals_but_for_the_one_that_a_phone_puts_first(stage: Stage) -> None:
    stage.say("/start")
    for _ in range(2):
        stage.tap("Keep this")
    assert stage.say("Nursery, TA, school and Museum").lines[0].startswith("Your hours go to Nursery, TA, School and Museum")
    assert stage.look(lambda desk: {each.name for each in desk.categories.all()} >= {"nursery", "TA", "school", "Museum"})
    assert stage.say("nursery and TA").lines[0] == "Paid jobs: Nursery and TA."
    stage.tap("Skip the rest")
    assert stage.say("2h ta").lines[0] == "TA, Mon 2 Mar: 2 h"
    assert stage.say("category UW choir").lines[0] == "New category: UW choir, in personal."


def test_a_category_is_renamed_with_all_its_hours_and_its_old_name_still_understood(stage: Stage) -> None:
    stage.say("2h museum")
    before = stage.look(lambda desk: (desk.categories.all(), desk.jobs.all()))
    assert stage.say("rename museum to Reception").text == (
        "Museum is called Reception now, with all its hours. “museum” is still understood."
    )
    assert stage.say("hours").lines[1] == "Reception: 2 h"
    assert stage.say("1h museum").lines[0] == "Reception, Mon 2 Mar: 1 h"
    assert stage.say("timesheet reception").lines[0] == "Reception, Museum of Canals and Locks"
    stage.say("undo")
    stage.say("undo")
    assert stage.look(lambda desk: (desk.categories.all(), desk.jobs.all())) == before


def test_a_renamed_job_that_is_its_own_employer_takes_that_along(stage: Stage) -> None:
    stage.say("new job bakery")
    assert stage.say("rename bakery to Crumb").lines[0].startswith("Bakery is called Crumb now")
    assert stage.say("job crumb").lines[0] == "Crumb"
    assert stage.say("rename crumb to CRUMB").text == "Crumb is called CRUMB now, with all its hours."
    assert stage.say("rename crumb to museum").text == "“museum” is the name of a category already. Nothing changed."
