"""Heat index, wind chill and the steps of sun and wind against the published tables, and against MetPy."""

from __future__ import annotations

import warnings
from typing import Any

import pytest

from bot.rules.weather import ForecastHour
from bot.rules.weather_danger import GUSTS, Danger, Level, gravest
from bot.rules.weather_felt import heat_index, wind_chill
from bot.rules.weather_units import celsius, fahrenheit, whole
from tests.rules.made import utc

NOON = utc("2026-07-01 12:00")

# Source: NIST SP 811: a mile is 1.609344 km, a nautical mile 1.852 km.
KMH_A_MILE, KMH_A_KNOT, KMH_A_METRE_PER_SECOND = 1.609344, 1.852, 3.6

# Source: NWS heat index chart (NOAA). By relative humidity in percent; columns 80, 82 … 110 degrees Fahrenheit.
HEAT_INDEX = {
    40: "80 81 83 85 88 91 94 97 101 105 109 114 119 124 130 136",
    45: "80 82 84 87 89 93 96 100 104 109 114 119 124 130 137",
    50: "81 83 85 88 91 95 99 103 108 113 118 124 131 137",
    55: "81 84 86 89 93 97 101 106 112 117 124 130 137",
    60: "82 84 88 91 95 100 105 110 116 123 129 137",
    65: "82 85 89 93 98 103 108 114 121 128 136",
    70: "83 86 90 95 100 105 112 119 126 134",
    75: "84 88 92 97 103 109 116 124 132",
    80: "84 89 94 100 106 113 121 129",
    85: "85 90 96 102 110 117 126 135",
    90: "86 91 98 105 113 122 131",
    95: "86 93 100 108 117 127",
    100: "87 95 103 112 121 132",
}
# The chart rounds these two the other way, and leaves the adjustment for damp air out of the other eight.
ROUNDED_OTHERWISE = {(90, 45), (90, 70)}
WITHOUT_ADJUSTMENT = {(82, 90), (80, 95), (82, 95), (84, 95), (86, 95), (80, 100), (82, 100), (84, 100)}
CHART = [(80 + 2 * column, humidity, int(cell)) for humidity, row in HEAT_INDEX.items() for column, cell in enumerate(row.split())]

# Source: NWS wind chill chart of 2001 (NWS La Crosse). By wind in mph; columns 35, 30 … -45 degrees Fahrenheit.
WIND_CHILL = {
    5: "31 25 19 13 7 1 -5 -11 -16 -22 -28 -34 -40 -46 -52 -57 -63",
    10: "27 21 15 9 3 -4 -10 -16 -22 -28 -35 -41 -47 -53 -59 -66 -72",
    15: "25 19 13 6 0 -7 -13 -19 -26 -32 -39 -45 -51 -58 -64 -71 -77",
    20: "24 17 11 4 -2 -9 -15 -22 -29 -35 -42 -48 -55 -61 -68 -74 -81",
    25: "23 16 9 3 -4 -11 -17 -24 -31 -37 -44 -51 -58 -64 -71 -78 -84",
    30: "22 15 8 1 -5 -12 -19 -26 -33 -39 -46 -53 -60 -67 -73 -80 -87",
    35: "21 14 7 0 -7 -14 -21 -27 -34 -41 -48 -55 -62 -69 -76 -82 -89",
    40: "20 13 6 -1 -8 -15 -22 -29 -36 -43 -50 -57 -64 -71 -78 -84 -91",
    45: "19 12 5 -2 -9 -16 -23 -30 -37 -44 -51 -58 -65 -72 -79 -86 -93",
    50: "19 12 4 -3 -10 -17 -24 -31 -38 -45 -52 -60 -67 -74 -81 -88 -95",
    55: "18 11 4 -3 -11 -18 -25 -32 -39 -46 -54 -61 -68 -75 -82 -89 -97",
}
CHILLS = [(35 - 5 * column, wind, int(cell)) for wind, row in WIND_CHILL.items() for column, cell in enumerate(row.split())]

# Source: NWS Tampa Bay, Beaufort's scale: the highest wind of each force from 0 to 11, in knots, in mph and in km/h.
KNOTS = [0, 3, 6, 10, 16, 21, 27, 33, 40, 47, 55, 63]
MPH = [0, 3, 7, 12, 18, 24, 31, 38, 46, 54, 63, 72]
KMH = [0, 5, 11, 19, 28, 38, 49, 61, 74, 88, 102, 117]
# The tables are each rounded to whole units, and here they contradict the one in km/h, which ours is.
KNOTS_OTHERWISE, MPH_OTHERWISE = {48}, {55}
# Source: Beaufort's scale for use on land: umbrellas hard to use (6), hard to walk (8), some damage to buildings (9),
# trees uprooted (10).
CARE = [*[None] * 6, Level.CAUTION, Level.CAUTION, Level.GREAT_CAUTION, Level.DANGER, *[Level.GREAT_DANGER] * 3]


def care_in_wind(wind: float) -> Level | None:
    return next((each.level for each in gravest([ForecastHour(NOON, wind=wind)])), None)


def care_in_sun(uv: float) -> Level | None:
    return next((each.level for each in gravest([ForecastHour(NOON, uv=uv)]) if each.danger is Danger.SUN), None)


def felt_fahrenheit(air: float, humidity: float) -> float:
    return fahrenheit(heat_index(celsius(air), humidity))


def test_the_charts_are_whole() -> None:
    assert len(CHART) == 135
    assert len(CHILLS) == 187


@pytest.mark.parametrize(("air", "humidity", "cell"), CHART)
def test_the_heat_index_is_that_of_the_nws_chart(air: int, humidity: int, cell: int) -> None:
    ours = felt_fahrenheit(air, humidity)

    if (air, humidity) in ROUNDED_OTHERWISE:
        assert ours == pytest.approx(cell, abs=1)
    elif (air, humidity) in WITHOUT_ADJUSTMENT:
        adjustment = (humidity - 85) / 10 * (87 - air) / 5
        assert ours - adjustment == pytest.approx(cell, abs=0.5)
        assert round(ours) != cell
    else:
        assert round(ours) == cell


@pytest.mark.parametrize(
    ("air", "humidity", "exact"),
    [(90, 70, 105.922), (86, 90, 105.394), (100, 50, 118.316), (96, 65, 121.032), (110, 40, 135.657), (82, 95, 93.972), (95, 10, 89.450)],
)
def test_the_heat_index_has_both_adjustments(air: int, humidity: int, exact: float) -> None:
    # Source: MetPy 1.7.1; the last two are the adjustments for damp and for dry air.
    assert felt_fahrenheit(air, humidity) == pytest.approx(exact, abs=0.001)


@pytest.mark.parametrize(("air", "wind", "cell"), CHILLS)
def test_the_wind_chill_is_that_of_the_nws_chart(air: int, wind: int, cell: int) -> None:
    chill = wind_chill(celsius(air), wind * KMH_A_MILE)

    assert chill is not None
    # The metric formula differs from the one in Fahrenheit, which the chart rounds, by up to 0.11.
    assert fahrenheit(chill) == pytest.approx(cell, abs=0.5 + 0.11)


@pytest.mark.parametrize(
    ("air", "wind", "felt"), [(0, 10, -3.31), (-10, 20, -17.86), (-20, 30, -32.57), (-30, 40, -47.50), (-25, 15, -35.24)]
)
def test_the_wind_chill_is_that_of_environment_canada(air: int, wind: int, felt: float) -> None:
    # Source: Environment Canada's formula of 2001; for -10 degrees and 20 km/h pythermalcomfort 4.8.1 gives -17.9 too.
    assert wind_chill(air, wind) == pytest.approx(felt, abs=0.005)


def test_the_wind_chill_is_not_defined_in_mild_or_still_air() -> None:
    # Source: NWS: at or below 50 degrees Fahrenheit and above 3 mph, which are 10 degrees Celsius and 4.8 km/h.
    assert wind_chill(10.1, 30) is None
    assert wind_chill(0, 4.8) is None
    assert wind_chill(10, 4.9) is not None


@pytest.mark.parametrize(
    ("care", "lowest", "highest"),
    [
        (None, 0, 2),  # Low.
        (Level.CAUTION, 3, 5),  # Moderate: protection required.
        (Level.CAUTION, 6, 7),  # High: protection required.
        (Level.GREAT_CAUTION, 8, 10),  # Very high: extra protection.
        (Level.GREAT_CAUTION, 11, 20),  # Extreme: extra protection.
    ],
)
def test_care_in_the_sun_begins_with_the_bands_of_the_who(care: Level | None, lowest: int, highest: int) -> None:
    # Source: WHO, WMO, UNEP and ICNIRP, Global Solar UV Index, 2002, figure 2; protection from 3 on, extra protection from 8 on.
    assert {care_in_sun(uv) for uv in range(lowest, highest + 1)} == {care}
    # Between whole numbers the index is rounded first.
    assert care_in_sun(highest + 0.4) is care
    assert care_in_sun(max(0, lowest - 0.5)) is care


@pytest.mark.parametrize("force", range(12))
def test_care_in_the_wind_begins_where_beauforts_table_in_km_an_hour_says(force: int) -> None:
    assert care_in_wind(KMH[force]) is CARE[force]
    assert care_in_wind(KMH[force] + 1) is CARE[force + 1]


def test_beauforts_tables_in_knots_and_miles_agree_but_for_two_rounded_values() -> None:
    def care_by(wind: int, highest: list[int]) -> Level | None:
        return CARE[sum(wind > each for each in highest)]

    assert {knots for knots in range(80) if care_in_wind(knots * KMH_A_KNOT) is not care_by(knots, KNOTS)} == KNOTS_OTHERWISE
    assert {mph for mph in range(90) if care_in_wind(mph * KMH_A_MILE) is not care_by(mph, MPH)} == MPH_OTHERWISE


@pytest.mark.parametrize("force", range(13))
def test_care_is_that_of_the_force_at_the_speed_that_the_wmo_formula_gives(force: int) -> None:
    # Source: WMO: 0.836 times the force to the power of 3/2, in metres per second.
    assert care_in_wind(0.836 * force**1.5 * KMH_A_METRE_PER_SECOND) is CARE[force]


def test_care_in_gusts_begins_with_the_nws_advisory_and_warning() -> None:
    # Source: NWS, wind advisory for gusts of 46 mph, high wind warning for gusts of 58 mph.
    assert [whole(mph * KMH_A_MILE) for mph in (46, 58)] == [step for step, _ in GUSTS]


WITHOUT_METPY = "MetPy, the second reference, is not installed"


@pytest.fixture(scope="module")
def metpy() -> Any:
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        return pytest.importorskip("metpy.calc", reason=WITHOUT_METPY)


@pytest.fixture(scope="module")
def units(metpy: Any) -> Any:
    return pytest.importorskip("metpy.units", reason=WITHOUT_METPY).units


def test_metpy_gives_the_same_heat_index(metpy: Any, units: Any) -> None:
    for air in range(83, 112, 3):
        for humidity in range(5, 101, 5):
            theirs = metpy.heat_index(air * units.degF, humidity * units.percent).to("degF").magnitude.item()
            assert felt_fahrenheit(air, humidity) == pytest.approx(theirs, abs=0.001)


def test_metpy_gives_the_same_wind_chill(metpy: Any, units: Any) -> None:
    for air in range(-40, 11, 5):
        for wind in range(6, 100, 7):
            theirs = metpy.windchill(air * units.degC, wind * units("km/h")).to("degC").magnitude
            assert wind_chill(air, wind) == pytest.approx(theirs, abs=0.001)
