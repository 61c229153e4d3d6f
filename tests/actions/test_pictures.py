from __future__ import annotations

from datetime import date, timedelta

import pytest

from bot.actions.pictures import hours_view, week_view
from bot.language.meaning import Show
from bot.language.wire import from_json
from bot.pictures.views import HoursView, WeekView
from storage.records import Parcel, ParcelKind
from tests.stage import Stage

MONDAY = date(2026, 3, 2)


def filed(stage: Stage, text: str) -> tuple[Parcel, Show]:
    """The parcel that is owed for ``text``, and what it encloses."""
    (parcel,) = stage.say(text).parcels
    shown = from_json(parcel.encloses or "")
    assert isinstance(shown, Show)
    return parcel, shown


def drawn_from(stage: Stage, first: date = MONDAY) -> WeekView:
    view = stage.look(lambda desk: week_view(desk, first))
    assert isinstance(view, WeekView)
    return view


def test_a_picture_is_owed_as_a_file_that_is_not_made_yet(stage: Stage) -> None:
    parcel, shown = filed(stage, "week picture")

    assert (parcel.kind, parcel.file_name, parcel.file_bytes) == (ParcelKind.FILE, "week-2026-03-02.png", None)
    assert shown == Show("week_picture", first=MONDAY, last=date(2026, 3, 8))
    assert parcel.text == "Your week, 2–8 March: nothing planned, nothing noted."


def test_the_line_beside_the_week_says_how_much_was_planned_and_spent(stage: Stage) -> None:
    stage.say("museum shift every tue 13-17")
    stage.say("3h workshop")

    assert filed(stage, "picture")[0].text == "Your week, 2–8 March: 3 h spent, 4 h planned."


@pytest.mark.parametrize(
    ("text", "first", "last", "line"),
    [
        ("hours picture", "2026-01-12", "2026-03-08", "Hours of 8 weeks, Mon 12 Jan – Sun 8 Mar."),
        ("hours picture last 12 weeks", "2025-12-15", "2026-03-08", "Hours of 12 weeks, Mon 15 Dec 2025 – Sun 8 Mar."),
        ("hours picture february", "2026-01-26", "2026-03-01", "Hours of 5 weeks, Mon 26 Jan – Sun 1 Mar."),
        ("hours picture museum", "2026-01-12", "2026-03-08", "Museum: hours of 8 weeks, Mon 12 Jan – Sun 8 Mar."),
        ("hours picture since 1 january 2020", "2025-03-03", "2026-03-08", "Hours of 53 weeks, Mon 3 Mar 2025 – Sun 8 Mar."),
    ],
)
def test_hours_are_of_whole_weeks_a_year_of_them_at_most(stage: Stage, text: str, first: str, last: str, line: str) -> None:
    parcel, shown = filed(stage, text)

    assert (str(shown.first), str(shown.last), parcel.text) == (first, last, line)


def test_the_page_is_of_the_coming_week_from_the_recap_on_and_on_the_paper_asked_for(stage: Stage) -> None:
    parcel, shown = filed(stage, "week page letter")
    assert (parcel.file_name, shown.form) == ("week-page-2026-03-02.pdf", "letter")
    assert parcel.text == "The week of 2–8 March to print, on US Letter."

    stage.at("2026-03-08 18:30")
    assert filed(stage, "week page")[1] == Show("week_page", first=date(2026, 3, 9), last=date(2026, 3, 15), form="a4")


def test_planned_and_spent_are_apart_and_hours_without_times_on_their_day(stage: Stage) -> None:
    stage.say("museum shift every tue 13-17")
    stage.say("dentist today 11:00-11:30")
    stage.at("2026-03-03 18:00")
    stage.say("museum 13:10-17:30 less 20m")
    stage.say("yesterday 2h learning")
    stage.say("yesterday 30m learning")

    view = drawn_from(stage)
    assert [(piece.label, piece.category) for piece in view.planned] == [("dentist", None), ("museum shift", "museum")]
    assert [(piece.category, piece.ends - piece.starts) for piece in view.spent] == [("museum", timedelta(hours=4, minutes=20))]
    assert [(each.category, each.day, each.minutes) for each in view.loose] == [("learning", MONDAY, 150)]
    museum = next(each for each in view.categories if each.name == "museum")
    assert (museum.planned, museum.spent) == (240, 240)


def test_a_night_that_began_on_the_eve_of_the_week_reaches_into_it(stage: Stage) -> None:
    stage.say("yesterday museum 22-2")

    assert [piece.category for piece in drawn_from(stage).spent] == ["museum"]
    assert next(each for each in drawn_from(stage).categories if each.name == "museum").spent == 0


def test_the_weeks_hours_add_up_and_a_target_is_shown_without_any(stage: Stage) -> None:
    stage.say("3h workshop")
    stage.say("yesterday 2h workshop")
    stage.say("target learning at least 5h")

    view = stage.look(lambda desk: hours_view(desk, MONDAY - timedelta(days=7), MONDAY + timedelta(days=6), None))
    assert isinstance(view, HoursView)
    assert [(each.name, each.minutes, each.at_least) for each in view.categories] == [
        ("workshop", (120, 180), None),
        ("learning", (0, 0), 300),
    ]


def test_hours_begin_with_the_first_week_that_has_some(stage: Stage) -> None:
    stage.say("last tuesday 2h workshop")

    assert filed(stage, "hours picture")[0].text == "Hours of 2 weeks, Mon 23 Feb – Sun 8 Mar."


def test_every_category_has_its_colour_on_every_picture(stage: Stage) -> None:
    stage.say("3h learning")
    week = drawn_from(stage)
    hours = stage.look(lambda desk: hours_view(desk, MONDAY, MONDAY + timedelta(days=6), None))

    assert isinstance(hours, HoursView)
    assert [each.name for each in hours.categories] == ["learning"]
    assert hours.colours == tuple((each.name, each.colour) for each in week.categories)


def test_several_files_asked_for_at_once_come_one_by_one_after_the_words(stage: Stage) -> None:
    answer = stage.say("3h workshop\nweek picture\nweek page")

    assert [parcel.file_name for parcel in answer.parcels] == [None, "week-2026-03-02.png", "week-page-2026-03-02.pdf"]
    assert stage.edit("2h workshop").lines[1] == "Workshop today: 2 h in all."


def test_the_recap_comes_with_the_weeks_picture_without_a_sound(stage: Stage) -> None:
    stage.say("3h workshop")
    *_, recap, picture, ahead = stage.at("2026-03-08 18:00").parcels

    assert (recap.round, picture.round, ahead.round) == ("recap", "recap", "week ahead")
    assert (picture.file_name, picture.silent, picture.text) == ("week-2026-03-02.png", True, "Your week, 2–8 March: 3 h spent.")


def test_no_picture_comes_of_a_week_without_hours_or_when_none_is_wanted(stage: Stage) -> None:
    assert not [parcel for parcel in stage.at("2026-03-08 18:00").parcels if parcel.file_name]

    assert stage.say("pictures off").lines[0] == "Pictures are light; none comes with the recap."
    stage.at("2026-03-09 12:00")
    stage.say("3h workshop")
    assert not [parcel for parcel in stage.at("2026-03-15 18:00").parcels if parcel.file_name]


def test_dark_pictures_stay_wanted_or_not(stage: Stage) -> None:
    stage.say("pictures off")

    assert stage.say("pictures dark").lines[0] == "Pictures are dark; none comes with the recap."
    assert "Pictures are dark; none comes with the recap" in stage.say("settings").lines
