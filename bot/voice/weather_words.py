"""The weather of a day in plain words."""

from __future__ import annotations

from bot.rules.weather import DayWeather, WetSpell
from bot.voice.manners import Manners

ATTRIBUTION = "Weather data by Open-Meteo.com"

# WMO code table 4677, the 28 codes that Open-Meteo gives: https://open-meteo.com/en/docs
SKIES = {
    0: "clear",
    1: "mainly clear",
    2: "partly cloudy",
    3: "overcast",
    45: "fog",
    48: "freezing fog",
    51: "light drizzle",
    53: "drizzle",
    55: "heavy drizzle",
    56: "light freezing drizzle",
    57: "freezing drizzle",
    61: "light rain",
    63: "rain",
    65: "heavy rain",
    66: "light freezing rain",
    67: "freezing rain",
    71: "light snow",
    73: "snow",
    75: "heavy snow",
    77: "snow grains",
    80: "light showers",
    81: "showers",
    82: "violent showers",
    85: "snow showers",
    86: "heavy snow showers",
    95: "thunderstorm",
    96: "thunderstorm, some hail",
    99: "thunderstorm, heavy hail",
}
WINDY_KMH = 39  # Beaufort 6, strong breeze: WMO-No. 306, code table 1100.
SNOW_BELOW = 3  # Degrees Celsius; common practice, no source.
LONGEST_LINE = 60


def weather_line(day: DayWeather, manners: Manners) -> str:
    """The day in one line that fits a phone: "Rain, 4 to 9 °C, wet 14:00–17:00 (80 %), wind 45 km/h"."""
    parts = [part for part in (_sky(day.code), _temperatures(day.low, day.high), _wet(day, manners), _wind(day)) if part]
    line = parts[0] if parts else "incomplete forecast"
    for part in parts[1:]:
        if len(line) + 2 + len(part) <= LONGEST_LINE:
            line = f"{line}, {part}"
    return line[:1].upper() + line[1:]


def sky_words(code: int) -> str:
    """A WMO code in words; one that is not in the table is named by its number."""
    return SKIES.get(code, f"weather code {code}")


def _sky(code: int | None) -> str:
    return "" if code is None else sky_words(code)


def _temperatures(low: float | None, high: float | None) -> str:
    known = sorted({round(value) for value in (low, high) if value is not None})
    return " to ".join(map(str, known)) + " °C" if known else ""


def _wet(day: DayWeather, manners: Manners) -> str:
    if day.wet_spells:
        chance = max((spell.chance for spell in day.wet_spells if spell.chance is not None), default=None)
        return f"wet {_when(day.wet_spells, manners)}" + ("" if chance is None else f" ({chance} %)")
    what = "rain or snow" if day.low is not None and day.low < SNOW_BELOW else "rain"
    return "" if day.wet_chance is None else f"{round(day.wet_chance)} % chance of {what}"


def _when(spells: tuple[WetSpell, ...], manners: Manners) -> str:
    """One spell, two spells, or from the first to the last with what lies between."""
    if len(spells) > 2:
        return f"at times {manners.brief_times(spells[0].start, spells[-1].end)}"
    return " and ".join(manners.brief_times(spell.start, spell.end) for spell in spells)


def _wind(day: DayWeather) -> str:
    strongest = max((value for value in (day.wind, day.gusts) if value is not None), default=0)
    if strongest < WINDY_KMH:
        return ""
    return f"gusts to {round(strongest)} km/h" if strongest == day.gusts else f"wind to {round(strongest)} km/h"
