from __future__ import annotations

from itertools import combinations

import pytest

from bot.pictures.palette import PALETTES, Colour, contrast, fills_for, ink_on, lab, luminance, mixed
from bot.pictures.week_picture import TINT
from storage.records import Look
from tests.pictures.colour_vision import DEUTERANOPIA, PROTANOPIA, Matrix, as_seen, ciede2000, difference

ORDINARY: Matrix = ((1, 0, 0), (0, 1, 0), (0, 0, 1))
LOOKS = pytest.mark.parametrize("look", list(Look))


def test_black_on_white_has_the_highest_contrast_there_is() -> None:
    # Source: WCAG 2.2, contrast ratio: from 1:1 to 21:1.
    assert contrast((0, 0, 0), (255, 255, 255)) == pytest.approx(21)
    assert contrast((9, 9, 9), (9, 9, 9)) == 1


def test_the_published_grey_just_passes_on_white() -> None:
    # Source: WebAIM, contrast checker: #767676 on white is 4.54:1.
    assert contrast((0x76, 0x76, 0x76), (255, 255, 255)) == pytest.approx(4.54, abs=0.005)


def test_the_primaries_have_the_published_lab_values() -> None:
    # Source: B. Lindbloom, sRGB primaries in CIELAB for D65: red 53.24, 80.09, 67.20; luminance of green 0.7152 (IEC 61966-2-1).
    assert lab((255, 0, 0)) == pytest.approx((53.24, 80.09, 67.20), abs=0.02)
    assert luminance((0, 255, 0)) == pytest.approx(0.7152)


@pytest.mark.parametrize(
    ("one", "other", "published"),
    [
        # Source: Sharma, Wu and Dalal 2005, table 1, pairs 1, 7, 16, 25 and 34.
        ((50, 2.6772, -79.7751), (50, 0, -82.7485), 2.0425),
        ((50, 0, 0), (50, -1, 2), 2.3669),
        ((50, 2.5, 0), (50, 0, -2.5), 4.3065),
        ((60.2574, -34.0099, 36.2677), (60.4626, -34.1751, 39.4387), 1.2644),
        ((2.0776, 0.0795, -1.1350), (0.9033, -0.0636, -0.5514), 0.9082),
    ],
)
def test_colour_differences_are_the_published_ones(
    one: tuple[float, float, float], other: tuple[float, float, float], published: float
) -> None:
    assert ciede2000(one, other) == pytest.approx(published, abs=0.00005)


@LOOKS
def test_all_text_stands_out_by_four_and_a_half_to_one(look: Look) -> None:
    # Source: WCAG 2.2, success criterion 1.4.3.
    palette = PALETTES[look]
    pairs: list[tuple[Colour, Colour]] = [(palette.ink, palette.ground), (palette.soft, palette.ground)]
    pairs += [(ink_on(fill), fill) for fill in palette.fills]
    pairs += [(palette.ink, mixed(palette.ground, fill, TINT)) for fill in (*palette.fills, palette.ink)]

    assert min(contrast(*pair) for pair in pairs) >= 4.5


@LOOKS
def test_every_fill_stands_out_from_the_ground_by_three_to_one(look: Look) -> None:
    # Source: WCAG 2.2, success criterion 1.4.11.
    palette = PALETTES[look]

    assert min(contrast(fill, palette.ground) for fill in palette.fills) >= 3


@LOOKS
@pytest.mark.parametrize(
    ("vision", "least"), [(ORDINARY, 20), (DEUTERANOPIA, 16), (PROTANOPIA, 15)], ids=["ordinary", "deuteranopia", "protanopia"]
)
def test_any_two_fills_can_be_told_apart(look: Look, vision: Matrix, least: float) -> None:
    seen = [as_seen(fill, vision) for fill in PALETTES[look].fills]

    assert min(difference(one, other) for one, other in combinations(seen, 2)) >= least


def test_the_usual_traffic_light_pair_would_not_pass() -> None:
    # Source: common practice: red and green of equal lightness are what deuteranopes confuse.
    one, other = (as_seen(colour, DEUTERANOPIA) for colour in ((200, 80, 60), (125, 125, 50)))

    assert difference(one, other) < 16


@LOOKS
def test_a_category_gets_the_fill_nearest_to_its_colour_and_none_is_given_twice(look: Look) -> None:
    categories = [("workshop", "teal"), ("museum", "goldenrod"), ("learning", "steelblue"), ("family", "tomato"), ("home", "olivedrab")]

    fills = fills_for(categories, PALETTES[look])

    assert len(set(fills.values())) == len(categories)
    assert set(fills.values()) <= set(PALETTES[look].fills)


def test_beyond_eight_categories_fills_are_used_again_evenly() -> None:
    fills = fills_for([(f"category {number}", "grey") for number in range(12)], PALETTES[Look.LIGHT])

    counts = [list(fills.values()).count(fill) for fill in PALETTES[Look.LIGHT].fills]
    assert sorted(counts) == [1, 1, 1, 1, 2, 2, 2, 2]


def test_a_category_keeps_its_place_among_the_fills_in_both_looks_and_with_later_categories() -> None:
    categories = [("nursery", "teal"), ("ta", "goldenrod"), ("school", "steelblue"), ("flat", "orchid")]
    light, dark = (fills_for(categories, PALETTES[look]) for look in (Look.LIGHT, Look.DARK))

    places = {name: PALETTES[Look.LIGHT].fills.index(fill) for name, fill in light.items()}
    assert places == {name: PALETTES[Look.DARK].fills.index(fill) for name, fill in dark.items()}
    assert fills_for([*categories, ("choir", "orchid")], PALETTES[Look.LIGHT]).items() >= light.items()
