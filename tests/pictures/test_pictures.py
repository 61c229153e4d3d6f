from __future__ import annotations

import io
from dataclasses import replace
from datetime import timedelta

import pytest
from PIL import Image, ImageChops, ImageStat

from bot.pictures.canvas import SMALLEST
from bot.pictures.hours_picture import hours_picture
from bot.pictures.lanes import Placed
from bot.pictures.palette import PALETTES, Colour, fills_for, mixed
from bot.pictures.views import CategoryShown, HoursView, Loose, Piece, WeekView
from bot.pictures.week_picture import SNUG, TINT, Scale, week_picture
from bot.voice.picture_words import hour_mark, unsaid_words
from storage.records import ClockStyle, Look
from tests.pictures.draw_examples import WEEKS, example
from tests.pictures.made_weeks import COLOURS, MANNERS, USUAL_PLAN, USUAL_SPENT, empty_week, months, overfull_week, usual_week, week
from tests.rules.made import MONDAY, wall

BY_TWELVE = replace(MANNERS, clock_style=ClockStyle.TWELVE)
LOOKS = pytest.mark.parametrize("look", list(Look))


def drawn(content: bytes) -> Image.Image:
    picture = Image.open(io.BytesIO(content))
    picture.load()
    return picture


def pixels(picture: Image.Image, colour: Colour) -> int:
    """How many pixels have exactly this colour."""
    counted = picture.getcolors(picture.width * picture.height) or []
    return sum(count for count, each in counted if each == colour)


def fill(name: str, look: Look) -> Colour:
    return fills_for(COLOURS.items(), PALETTES[look])[name]


@LOOKS
@pytest.mark.parametrize("view", WEEKS.values(), ids=WEEKS)
def test_a_week_is_a_png_as_wide_as_three_times_a_phone(view: WeekView, look: Look) -> None:
    picture = drawn(week_picture(view, MANNERS, look))

    assert (picture.format, picture.width) == ("PNG", 3 * 390)
    assert picture.getpixel((0, 0)) == PALETTES[look].ground
    # Source: Telegram Bot API, sendPhoto: width and height together are at most 10,000.
    assert picture.width + picture.height <= 10_000


@LOOKS
def test_what_was_planned_is_outlined_and_what_was_spent_is_filled(look: Look) -> None:
    colour = fill("museum", look)
    tint = mixed(PALETTES[look].ground, colour, TINT)
    planned, spent = (drawn(week_picture(view, MANNERS, look)) for view in (week(USUAL_PLAN, ""), week("", USUAL_SPENT)))

    assert pixels(planned, tint) > 10_000
    assert pixels(spent, tint) == 0
    assert pixels(spent, colour) > 3 * pixels(planned, colour)


@LOOKS
def test_an_empty_week_has_no_categorys_colour_in_it(look: Look) -> None:
    picture = drawn(week_picture(empty_week(), MANNERS, look))

    assert [pixels(picture, colour) for colour in PALETTES[look].fills] == [0] * 8


@LOOKS
def test_twice_the_hours_are_a_bar_of_twice_the_length(look: Look) -> None:
    museum = (CategoryShown("museum", "goldenrod"),)
    views = [replace(week("", f"museum: 0 09:00-{end}:00"), categories=museum) for end in (11, 13)]
    colour = fills_for([("museum", "goldenrod")], PALETTES[look])["museum"]

    one, twice = (pixels(drawn(week_picture(view, MANNERS, look)), colour) for view in views)

    assert twice / one == pytest.approx(2, rel=0.15)


def test_hours_without_times_make_their_day_taller() -> None:
    without, with_loose = usual_week(), replace(usual_week(), loose=(*usual_week().loose, Loose("family", MONDAY, 60)))

    assert drawn(week_picture(with_loose, MANNERS, Look.LIGHT)).height > drawn(week_picture(without, MANNERS, Look.LIGHT)).height


def test_what_is_too_short_for_its_name_is_named_below() -> None:
    short, long = (week(f": 0 09:00-{end} glazier", "") for end in ("09:20", "12:00"))

    assert drawn(week_picture(short, MANNERS, Look.LIGHT)).height > drawn(week_picture(long, MANNERS, Look.LIGHT)).height
    planned = [(9 * 60, "glazier"), (17 * 60 + 30, "tyres")]
    assert unsaid_words(planned, MANNERS) == ["Also planned:", "9:00 glazier,", "17:30 tyres"]
    assert unsaid_words(planned, BY_TWELVE) == ["Also planned:", "9 am glazier,", "5:30 pm tyres"]
    assert unsaid_words([], MANNERS) == []


def test_hours_are_marked_by_the_persons_clock() -> None:
    assert [hour_mark(hour, MANNERS) for hour in (0, 9, 12, 15, 24, 27)] == ["0", "9", "12", "15", "24", "3"]
    assert [hour_mark(hour, BY_TWELVE) for hour in (0, 9, 12, 15, 24, 27)] == ["midnight", "9 am", "noon", "3 pm", "midnight", "3 am"]


def test_the_last_hours_mark_is_whole() -> None:
    """Nothing of it is drawn at the very edge, where the rest would be cut off."""
    for manners in (MANNERS, BY_TWELVE):
        picture = drawn(week_picture(overfull_week(), manners, Look.LIGHT))
        ground = picture.getpixel((0, 0))
        assert {picture.getpixel((picture.width - 1, y)) for y in range(picture.height)} == {ground}


@pytest.mark.parametrize(
    ("label", "hours", "said"),
    [
        ("cinema shift", 6, ("cinema shift", SMALLEST)),
        ("cinema shift", 4.8, ("cinema shift", SNUG)),
        ("cinema shift", 4, ("cinema", SMALLEST)),
        ("cinema", 3, ("cinema", SNUG)),
        ("cinema", 1, ("", SMALLEST)),
    ],
)
def test_a_label_is_in_smaller_letters_or_fewer_words_and_no_word_is_cut(label: str, hours: float, said: tuple[str, float]) -> None:
    placed = Placed(Piece(label, "cinema", wall("2026-03-02 09:00"), wall("2026-03-02 09:00") + timedelta(hours=hours)), 540, 540, 0)

    assert Scale(0, 24).label(replace(placed, ends=540 + round(60 * hours))) == said


def test_the_same_week_gives_the_same_bytes_at_any_time() -> None:
    assert week_picture(usual_week(), MANNERS, Look.DARK) == week_picture(usual_week(), MANNERS, Look.DARK)


@LOOKS
@pytest.mark.parametrize("count", [1, 9, 53])
def test_hours_over_weeks_are_bars_on_one_scale(look: Look, count: int) -> None:
    view = months(count)
    picture = drawn(hours_picture(view, MANNERS, look))

    assert (picture.format, picture.width) == ("PNG", 3 * 390)
    fills = fills_for(view.colours, PALETTES[look])
    workshop, museum = (pixels(picture, fills[name]) for name in ("workshop", "museum"))
    minutes = {each.name: sum(each.minutes) for each in view.categories}
    assert museum / workshop == pytest.approx(minutes["museum"] / minutes["workshop"], rel=0.08)


def test_weeks_without_hours_are_said_to_be_so_on_a_short_picture() -> None:
    bare = HoursView(
        (MONDAY, MONDAY + timedelta(days=7)),
        tuple(replace(each, minutes=(0, 0), at_least=None) for each in months(2).categories),
        tuple(COLOURS.items()),
    )

    assert drawn(hours_picture(bare, MANNERS, Look.LIGHT)).height < drawn(hours_picture(months(2), MANNERS, Look.LIGHT)).height / 2


@LOOKS
@pytest.mark.parametrize("name", WEEKS)
def test_the_committed_examples_are_what_is_drawn_now(name: str, look: Look) -> None:
    committed = drawn(example(name, look).read_bytes())
    now = drawn(week_picture(WEEKS[name], MANNERS, look))

    # Another release of the font library may shade an edge otherwise, so the mean of a channel may differ by one.
    assert committed.size == now.size
    assert max(ImageStat.Stat(ImageChops.difference(committed, now)).mean) < 1
