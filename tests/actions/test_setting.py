"""Settings by chat, and the first conversation."""

from __future__ import annotations

from datetime import datetime
from typing import NoReturn

import pytest

from bot.outside.faults import Fault, PlacesUnavailable
from bot.outside.geocoding import NoGeocoding
from storage.records import Person, RoundKind
from tests.stage import Stage


def person(stage: Stage) -> Person:
    found = stage.look(lambda desk: desk.person)
    assert isinstance(found, Person)
    return found


@pytest.mark.parametrize(
    ("said", "answer"),
    [
        ("morning at 6:30", "Morning message at 06:30."),
        ("evening 20:30", "Evening nudge at 20:30, only when something is open."),
        ("recap 17:00", "Recap at 17:00 on Sunday."),
        ("waking 7-22", "Waking hours 07:00–22:00."),
        ("decimals comma", "Decimals are written with a comma: 14,50."),
        ("week starts sunday", "Your week starts on Sunday; the recap comes on Saturday."),
        ("dates month first", "Dates are read and written as Mon Mar 2."),
        ("12-hour clock", "Times by the 12-hour clock, as 2:30 pm."),
        ("clock 24 hours", "Times by the 24-hour clock, as 14:30."),
        ("free share 25%", "25 % of the free hours are kept for what comes up."),
        ("zone America/New_York", "Time zone America/New_York; it is Mon 2 Mar, 03:00 there."),
    ],
)
def test_a_setting_is_said_back(stage: Stage, said: str, answer: str) -> None:
    assert stage.say(said).text == answer


def test_a_time_set_by_chat_is_when_the_message_comes(stage: Stage) -> None:
    stage.say("morning at 6:30")
    assert stage.at("2026-03-03 06:29").parcels == ()
    assert [parcel.round for parcel in stage.at("2026-03-03 06:30").parcels] == ["morning"]


def test_a_morning_message_moved_after_it_came_does_not_come_twice(stage: Stage) -> None:
    stage.at("2026-03-03 06:05")
    stage.say("morning at 7:00")
    assert stage.at("2026-03-03 23:00").parcels == ()
    assert len(stage.at("2026-03-04 07:00").parcels) == 1


@pytest.mark.parametrize(
    ("said", "before", "after"),
    [("morning at 7:00", "06:00", "07:00"), ("evening 21:00", "20:00", "21:00"), ("zone Europe/London", "06:00", "07:00")],
)
def test_what_was_planned_moves_back_when_a_time_is_taken_back_and_forth_again(stage: Stage, said: str, before: str, after: str) -> None:
    stage.say("task order spokes")
    kind = "evening" if said.startswith("evening") else "morning"

    def due() -> str:
        found = stage.look(lambda desk: min(each.due for each in desk.rounds.waiting(RoundKind(kind))))
        assert isinstance(found, datetime)
        return found.astimezone(stage.zone).strftime("%H:%M")

    assert due() == before
    stage.say(said)
    assert due() == after
    stage.tap("Undo")
    assert due() == before
    stage.tap("Undo")
    assert due() == after
    stage.say("undo")
    stage.say(said)
    stage.edit("1h family")
    assert due() == before


def test_a_shared_location_sets_place_and_zone(stage: Stage) -> None:
    answer = stage.here(40.71, -74.01)
    assert answer.lines[0] == "Place 40.71, -74.01, time zone America/New_York; it is Mon 2 Mar, 03:00 there."
    assert person(stage).zone == "America/New_York"


def test_a_place_is_looked_up_by_its_name(stage: Stage) -> None:
    assert stage.say("place Lisbon").text == "Looking up Lisbon."
    assert "Europe/Lisbon" in stage.tick().text
    assert person(stage).zone == "Europe/Lisbon"


def test_a_place_that_is_not_found_changes_nothing(stage: Stage) -> None:
    stage.say("place Nowhereville")
    assert stage.tick().text.startswith("I find no place called Nowhereville.")
    assert person(stage).zone == "Europe/Brussels"


def test_a_value_of_no_use_is_refused(stage: Stage) -> None:
    assert stage.say("zone Europe/Atlantis").text == "I could not use that: Europe/Atlantis."
    assert person(stage).zone == "Europe/Brussels"


def test_the_first_conversation_takes_six_messages_with_defaults_on_buttons(stage: Stage) -> None:
    said = [stage.say("/start")]
    while "Keep this" in said[-1].labels:
        said.append(stage.tap("Keep this"))
    assert len(said) == 6
    assert said[-1].lines[0] == "That is all. Write as you would say it:"


def test_the_first_conversation_takes_bare_answers(stage: Stage) -> None:
    stage.say("/start")
    assert stage.say("Lisbon").text == "Looking up Lisbon."
    assert "When are you up?" in stage.tick().text
    assert "What do your hours go to?" in stage.say("7-22").text
    assert stage.say("choir, garden club, friends").lines[0] == "Your hours go to Choir, Garden club and Friends."
    assert "When shall I write?" in stage.say("garden club, choir").text
    assert "That is all." in stage.say("6:30 and 20:30").text
    me = person(stage)
    assert (me.zone, me.waking_start.hour, me.morning_at.minute, me.evening_at.minute) == ("Europe/Lisbon", 7, 30, 30)
    assert stage.look(lambda desk: sorted(desk.categories.get(job.category_id).name for job in desk.jobs.all())) == ["choir", "garden club"]


def test_a_place_that_is_not_found_brings_the_question_again_without_its_introduction(stage: Stage) -> None:
    stage.say("/start")
    stage.say("Nowhereville")
    asked = stage.tick()
    assert asked.lines[0].startswith("I find no place called Nowhereville.")
    assert asked.lines[1].startswith("Where are you?")
    assert "When are you up?" in stage.tap("Keep this").text


def test_while_no_place_can_be_looked_up_the_time_zone_is_asked_for(stage: Stage, monkeypatch: pytest.MonkeyPatch) -> None:
    def not_reached(self: NoGeocoding, name: str) -> NoReturn:
        raise PlacesUnavailable(Fault.NOT_REACHED)

    monkeypatch.setattr(NoGeocoding, "find", not_reached)
    stage.say("/start")
    stage.say("Turku")
    assert stage.tick().lines[:3] == [
        "I cannot look up Turku just now: share your location, or write “place Turku” later.",
        "Until then your time zone is Europe/Brussels. If that is not your time, write “zone” and its city, like “zone Lisbon”.",
        "Where are you? I have Ghent, Europe/Brussels.",
    ]
    assert stage.say("zone Helsinki").lines[0].startswith("Time zone Europe/Helsinki; it is Mon 2 Mar, 10:00 there.")


@pytest.mark.parametrize(("typed", "zone"), [("Azores", "Atlantic/Azores"), ("lisbon", "Europe/Lisbon"), ("Madeira", "Atlantic/Madeira")])
def test_a_city_or_island_that_a_zone_is_named_after_names_the_zone(stage: Stage, typed: str, zone: str) -> None:
    # Source: the tz database's zone.tab, and the names of its zones.
    assert stage.say(f"zone {typed}").lines[0].startswith(f"Time zone {zone}; it is Mon 2 Mar, ")
    stage.say("undo")
    stage.say("/start")
    stage.say(typed)
    assert f"time zone {zone}; it is Mon 2 Mar, " in stage.tick().lines[0]


def test_a_name_that_several_zones_end_with_names_none(stage: Stage) -> None:
    assert stage.say("zone Eastern").text == "I could not use that: Eastern."


def test_who_has_no_job_yet_is_asked_for_names_or_none(stage: Stage) -> None:
    stage.say("/start")
    for _ in range(2):
        stage.tap("Keep this")
    asked = stage.say("choir, garden")
    assert asked.lines[-2:] == ["Which of them are paid jobs? I have none.", "Write their names, or “none”."]


def test_an_answer_taken_back_is_named_without_the_question_that_followed(stage: Stage) -> None:
    stage.say("/start")
    for _ in range(4):
        stage.tap("Keep this")
    stage.say("6:30 and 20:30")
    assert stage.say("undo").text == ("Taken back: “Morning message at 06:30; Evening nudge at 20:30, only when something is open”")


@pytest.mark.parametrize(("typed", "zone"), [("Europe/Lisbon", "Europe/Lisbon"), ("america/new york", "America/New_York")])
def test_a_zones_name_answers_where_the_person_is_and_leaves_the_place_unknown(stage: Stage, typed: str, zone: str) -> None:
    stage.say("/start")
    answer = stage.say(typed)
    assert answer.lines[0].startswith(f"Time zone {zone}; it is Mon 2 Mar, 0")
    assert "For the weather I need a place" in answer.lines[0]
    assert "When are you up?" in answer.text
    assert (person(stage).zone, person(stage).place_name, person(stage).latitude) == (zone, None, None)


def test_the_name_of_the_zone_that_is_known_keeps_the_place_in_it(stage: Stage) -> None:
    stage.say("/start")
    assert stage.say("europe/brussels").lines[0] == "Time zone Europe/Brussels; it is Mon 2 Mar, 09:00 there."
    assert person(stage).place_name == "Ghent"


def test_a_zone_that_is_none_brings_the_question_again(stage: Stage) -> None:
    stage.say("/start")
    answer = stage.say("Europe/Atlantis")
    assert answer.lines[0] == "I could not use that: Europe/Atlantis."
    assert "Where are you?" in answer.text


def test_the_examples_name_what_the_persons_hours_go_to(stage: Stage) -> None:
    stage.say("/start")
    for _ in range(2):
        stage.tap("Keep this")
    stage.say("bakery, choir, cinema")
    stage.say("bakery and cinema")
    assert "3h bakery, 1h choir" in stage.tap("Keep this").lines
    assert stage.look(lambda desk: desk.categories.all()[0].section) == "work"
    assert stage.say("help hours").lines[1:3] == ["3h bakery, 1h choir", "cinema 13-17 less 30m"]


def test_it_can_be_left_at_any_point_and_taken_up_later(stage: Stage) -> None:
    stage.say("/start")
    stage.tap("Keep this")
    assert "Workshop, Mon 2 Mar: 2 h" in stage.say("2h workshop").text
    stage.at("2026-03-03 09:00")
    assert "When are you up?" in stage.say("/start").text


def test_skipping_the_rest_ends_it(stage: Stage) -> None:
    stage.say("/start")
    assert "That is all." in stage.tap("Skip the rest").text
    assert "nothing is recorded" in stage.say("Lisbon").text


def test_words_that_answer_no_question_are_not_taken_for_a_place(stage: Stage) -> None:
    assert "nothing is recorded" in stage.say("Lisbon").text
    stage.say("/start")
    stage.say("2h workshop")
    assert "nothing is recorded" in stage.say("Lisbon").text


def test_every_reply_works_before_the_first_conversation(stage: Stage) -> None:
    assert "Museum" in stage.say("3h museum").text


def test_a_category_is_added_with_its_section_and_what_else_it_is_called(stage: Stage) -> None:
    assert stage.say("category choir personal alias singing, vocals").lines[0] == (
        "New category: Choir, in personal, also called singing and vocals."
    )
    assert "Choir" in stage.say("2h singing").text
    assert "Choir (also singing and vocals)" in stage.say("settings").text


def test_hours_of_what_is_no_category_are_offered_with_the_category(stage: Stage) -> None:
    answer = stage.say("2h pottery")
    assert answer.lines[0] == "I did not understand that, so nothing is recorded."
    made = stage.tap("category pottery, 2h pottery")
    assert made.lines == ["New category: Pottery, in personal.", "Pottery, Mon 2 Mar: 2 h", "Pottery today: 2 h in all."]
    assert stage.say("1h pottery").lines[1] == "Pottery today: 3 h in all."


def test_a_new_category_has_a_colour_of_its_own_and_can_be_taken_back(stage: Stage) -> None:
    stage.say("category choir")
    colours = stage.look(lambda desk: [category.colour for category in desk.categories.all()])
    assert isinstance(colours, list)
    assert len(set(colours)) == len(colours)
    stage.tap("Undo")
    assert "Choir" not in stage.say("settings").text


def test_a_name_that_a_category_answers_to_already_is_refused(stage: Stage) -> None:
    assert stage.say("category desk").text == "“desk” is the name of a category already. Nothing changed."
    assert stage.say("category choir alias museum").text == "“museum” is the name of a category already. Nothing changed."


def test_an_answer_that_is_not_understood_brings_the_question_again(stage: Stage) -> None:
    stage.say("/start")
    stage.tap("Keep this")
    stage.tap("Keep this")
    assert "What do your hours go to?" in stage.say("1, 2 and 3").text
    assert stage.say("maths 2, choir").lines[0] == "Your hours go to Maths 2 and Choir."
    refused = stage.say("bakery")
    assert refused.lines[0] == "I know no category “bakery”."
    assert "Which of them are paid jobs?" in refused.text
    assert stage.say("none").lines[0] == "No paid jobs."
    assert "That is all." in stage.say("skip").text
