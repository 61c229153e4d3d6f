"""When the weather asks for care, and how much.

Temperatures are in degrees Celsius, humidity in percent, wind in km/h. The
words for all this are the voice's; and whatever it says, official warnings
come first.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from enum import IntEnum, StrEnum
from functools import lru_cache
from typing import Final

from bot.rules.weather import ForecastHour
from bot.rules.weather_felt import heat_index, wind_chill
from bot.rules.weather_units import celsius, whole


class Danger(StrEnum):
    """What to take care of."""

    HEAT = "heat"
    COLD = "cold"
    SUN = "sun"
    WIND = "wind"
    RAIN = "rain"
    SNOW = "snow"
    ICE = "ice"
    THUNDER = "thunder"
    FOG = "fog"


_ORDER: Final = {danger: place for place, danger in enumerate(Danger)}


class Level(IntEnum):
    """How much care."""

    CAUTION = 1
    GREAT_CAUTION = 2
    DANGER = 3
    GREAT_DANGER = 4


@dataclass(frozen=True, slots=True)
class Caution:
    """A danger and how great it is.

    ``value`` is what reached the level: felt temperature, UV index, wind or
    gust in km/h, or millimetres in the hour; None where only the weather code
    says it.
    """

    danger: Danger
    level: Level
    value: float | None = None


Steps = tuple[tuple[float, Level], ...]

# Source: NWS, heat index categories: 80, 90, 103 and 125 degrees Fahrenheit.
HEAT: Final[Steps] = tuple(zip(map(celsius, (80, 90, 103, 125)), Level, strict=True))
# Source: Environment Canada, wind chill hazards: hypothermia if long outside without protection; skin freezes
# in 10 to 30 minutes, in 5 to 10, in 2 to 5. Compared with the sign changed, because there less is worse.
COLD: Final[Steps] = tuple(zip((10, 28, 40, 48), Level, strict=True))
# Source: WHO 2002: protection from 3 on, extra protection from 8 on.
SUN: Final[Steps] = ((3, Level.CAUTION), (8, Level.GREAT_CAUTION))
# Source: Beaufort's scale for use on land: umbrellas hard to use (6), hard to walk (8), some damage to buildings (9), trees uprooted (10).
WIND: Final[Steps] = tuple(zip((39, 62, 75, 89), Level, strict=True))
# Source: NWS, wind advisory for gusts of 46 mph, high wind warning for gusts of 58 mph.
GUSTS: Final[Steps] = ((74, Level.GREAT_CAUTION), (93, Level.DANGER))
# Source: WMO-No. 8, rain by intensity in mm/h: moderate, heavy, violent.
RAIN: Final[Steps] = ((2.5, Level.CAUTION), (10, Level.GREAT_CAUTION), (50, Level.DANGER))
# The words of WMO code table 4677; how grave they are is common practice, no source.
CODES: Final = {
    45: (Danger.FOG, Level.CAUTION),
    48: (Danger.FOG, Level.GREAT_CAUTION),
    56: (Danger.ICE, Level.GREAT_CAUTION),
    57: (Danger.ICE, Level.DANGER),
    63: (Danger.RAIN, Level.CAUTION),
    65: (Danger.RAIN, Level.GREAT_CAUTION),
    66: (Danger.ICE, Level.GREAT_CAUTION),
    67: (Danger.ICE, Level.DANGER),
    71: (Danger.SNOW, Level.CAUTION),
    73: (Danger.SNOW, Level.CAUTION),
    75: (Danger.SNOW, Level.GREAT_CAUTION),
    77: (Danger.SNOW, Level.CAUTION),
    81: (Danger.RAIN, Level.CAUTION),
    82: (Danger.RAIN, Level.DANGER),
    85: (Danger.SNOW, Level.CAUTION),
    86: (Danger.SNOW, Level.GREAT_CAUTION),
    95: (Danger.THUNDER, Level.GREAT_CAUTION),
    96: (Danger.THUNDER, Level.DANGER),
    99: (Danger.THUNDER, Level.DANGER),
}


def gravest(hours: Iterable[ForecastHour]) -> tuple[Caution, ...]:
    """What to take care of in any of ``hours``: of each danger the gravest, in the order of ``Danger``.

    What is not forecast is passed over.
    """
    worst: dict[Danger, Caution] = {}
    for hour in hours:
        for caution in _of(hour):
            if caution.danger not in worst or _gravity(caution) > _gravity(worst[caution.danger]):
                worst[caution.danger] = caution
    return tuple(sorted(worst.values(), key=_place))


@lru_cache(maxsize=4096)
def _of(hour: ForecastHour) -> tuple[Caution, ...]:
    """What to take care of in the hour. Everyone at a place has the same hours."""
    return tuple(_all(hour))


def _all(hour: ForecastHour) -> Iterator[Caution]:
    felt_heat, felt_cold = _felt(hour)
    yield from _reached(Danger.HEAT, felt_heat, HEAT)
    if felt_cold is not None:
        yield from (Caution(each.danger, each.level, felt_cold) for each in _reached(Danger.COLD, -felt_cold, COLD))
    yield from _reached(Danger.SUN, None if hour.uv is None else whole(hour.uv), SUN)
    yield from _reached(Danger.WIND, hour.wind, WIND)
    yield from _reached(Danger.WIND, hour.gusts, GUSTS)
    if hour.code in CODES:
        yield Caution(*CODES[hour.code])
    if not _falls_as_snow(hour):
        yield from _reached(Danger.RAIN, hour.millimetres, RAIN)


def _felt(hour: ForecastHour) -> tuple[float | None, float | None]:
    """The temperature felt in the heat, and in the wind or, where that is not defined, the air's own."""
    if hour.temperature is None:
        return None, None
    heat = None if hour.humidity is None else heat_index(hour.temperature, hour.humidity)
    chill = None if hour.wind is None else wind_chill(hour.temperature, hour.wind)
    return heat, hour.temperature if chill is None else chill


def _reached(danger: Danger, value: float | None, steps: Steps) -> Iterable[Caution]:
    if value is not None:
        levels = [level for threshold, level in steps if value >= threshold]
        yield from (Caution(danger, level, value) for level in levels[-1:])


def _falls_as_snow(hour: ForecastHour) -> bool:
    return hour.code in CODES and CODES[hour.code][0] is Danger.SNOW


def _place(caution: Caution) -> int:
    return _ORDER[caution.danger]


def _gravity(caution: Caution) -> tuple[Level, float]:
    value = 0.0 if caution.value is None else caution.value
    return caution.level, -value if caution.danger is Danger.COLD else value
