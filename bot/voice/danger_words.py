"""Weather to take care of, beside what it touches. Official warnings always come first."""

from __future__ import annotations

from bot.rules.weather_danger import Caution, Danger, Level
from bot.voice.manners import Manners, listed
from storage.records import Occurrence

MOST_LINES = 2
DEFER = "Official warnings come first."
BY_LEVEL = {
    Danger.RAIN: {Level.CAUTION: "rain", Level.GREAT_CAUTION: "heavy rain"},
    Danger.SNOW: {Level.CAUTION: "snow", Level.GREAT_CAUTION: "heavy snow"},
    Danger.FOG: {Level.CAUTION: "fog", Level.GREAT_CAUTION: "freezing fog"},
}
GRAVE = {Danger.RAIN: "violent rain", Danger.SNOW: "heavy snow", Danger.FOG: "freezing fog"}


def caution_lines(cautions: tuple[tuple[Occurrence, tuple[Caution, ...]], ...], manners: Manners) -> list[str]:
    """One line a commitment that the weather touches, and whose word comes first; nothing when none is touched."""
    lines = [
        f"{_when_and_what(occurrence, manners)}: mind {listed([caution_words(each) for each in found])}."
        for occurrence, found in cautions[:MOST_LINES]
    ]
    return [*lines, DEFER] if lines else []


def _when_and_what(occurrence: Occurrence, manners: Manners) -> str:
    return occurrence.title if occurrence.commitment.all_day else f"{manners.clock(occurrence.starts)} {occurrence.title}"


def caution_words(caution: Caution) -> str:
    """ "wind to 52 km/h", "heat that feels like 39 °C"."""
    value = "" if caution.value is None else f"{caution.value:.0f}"
    if caution.danger in BY_LEVEL:
        return BY_LEVEL[caution.danger].get(caution.level, GRAVE[caution.danger])
    words = {
        Danger.HEAT: f"heat that feels like {value} °C",
        Danger.COLD: f"cold that feels like {value} °C",
        Danger.SUN: f"strong sun (UV {value})",
        Danger.WIND: f"wind to {value} km/h",
        Danger.ICE: "freezing rain and ice",
        Danger.THUNDER: "thunderstorms",
    }
    return words[caution.danger]
