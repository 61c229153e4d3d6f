"""Weather to take care of, in words."""

from __future__ import annotations

from datetime import UTC, date, datetime, timedelta
from zoneinfo import ZoneInfo

import pytest

from bot.rules.weather_danger import Caution, Danger, Level
from bot.voice.danger_words import DEFER, caution_lines, caution_words
from bot.voice.manners import Manners
from storage.records import Commitment, DateOrder, Occurrence

NOON = datetime(2026, 3, 8, 11, tzinfo=UTC)
PICNIC = Occurrence(
    Commitment(1, "picnic", NOON, NOON + timedelta(hours=3), "Europe/Brussels"), date(2026, 3, 8), NOON, NOON + timedelta(hours=3)
)
MANNERS = Manners(ZoneInfo("Europe/Brussels"), DateOrder.DAY_MONTH, date(2026, 3, 8))


@pytest.mark.parametrize(
    ("caution", "words"),
    [
        (Caution(Danger.HEAT, Level.DANGER, 41.3), "heat that feels like 41 °C"),
        (Caution(Danger.COLD, Level.CAUTION, -12.4), "cold that feels like -12 °C"),
        (Caution(Danger.SUN, Level.GREAT_CAUTION, 8), "strong sun (UV 8)"),
        (Caution(Danger.WIND, Level.GREAT_CAUTION, 80), "wind to 80 km/h"),
        (Caution(Danger.RAIN, Level.CAUTION, 3), "rain"),
        (Caution(Danger.RAIN, Level.GREAT_CAUTION, 12), "heavy rain"),
        (Caution(Danger.RAIN, Level.DANGER), "violent rain"),
        (Caution(Danger.SNOW, Level.CAUTION), "snow"),
        (Caution(Danger.ICE, Level.DANGER), "freezing rain and ice"),
        (Caution(Danger.THUNDER, Level.DANGER), "thunderstorms"),
        (Caution(Danger.FOG, Level.GREAT_CAUTION), "freezing fog"),
    ],
)
def test_each_danger_has_its_words(caution: Caution, words: str) -> None:
    assert caution_words(caution) == words


def test_every_danger_at_every_level_has_words() -> None:
    for danger in Danger:
        for level in Level:
            assert caution_words(Caution(danger, level, 50))


def test_a_commitment_is_named_with_what_touches_it_and_official_warnings_come_first() -> None:
    found = ((PICNIC, (Caution(Danger.RAIN, Level.CAUTION), Caution(Danger.THUNDER, Level.DANGER))),)
    assert caution_lines(found, MANNERS) == ["12:00 picnic: mind rain and thunderstorms.", DEFER]
    assert caution_lines((), MANNERS) == []
