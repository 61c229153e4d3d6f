"""The dates of feasts against two other sources, typed in from them.

United States, 2026. Source: the package ``holidays`` 0.109 (MIT), federal holidays.
Germany, 2019 and 2020. Source: the calendar by Calendar Labs that the package
``recurring-ical-events`` 3.8.2 brings among its tests.
"""

from __future__ import annotations

from datetime import date

import pytest

from bot.language.days import read_day
from bot.language.tokens import tokenize
from tests.language.person import at

UNITED_STATES = {
    "new year's day 2026": "2026-01-01",
    "martin luther king jr day 2026": "2026-01-19",
    "mlk day 2026": "2026-01-19",
    "presidents day 2026": "2026-02-16",
    "memorial day 2026": "2026-05-25",
    "juneteenth 2026": "2026-06-19",
    "independence day 2026": "2026-07-04",
    "labor day 2026": "2026-09-07",
    "columbus day 2026": "2026-10-12",
    "veterans day 2026": "2026-11-11",
    "thanksgiving 2026": "2026-11-26",
    "christmas 2026": "2026-12-25",
}
GERMANY = {
    "epiphany 2019": "2019-01-06",
    "shrove tuesday 2019": "2019-03-05",
    "good friday 2019": "2019-04-19",
    "easter sunday 2019": "2019-04-21",
    "easter monday 2019": "2019-04-22",
    "ascension day 2019": "2019-05-30",
    "whit monday 2019": "2019-06-10",
    "corpus christi 2019": "2019-06-20",
    "all saints day 2019": "2019-11-01",
    "boxing day 2019": "2019-12-26",
    "shrove tuesday 2020": "2020-02-25",
    "good friday 2020": "2020-04-10",
    "easter sunday 2020": "2020-04-12",
    "easter monday 2020": "2020-04-13",
    "ascension day 2020": "2020-05-21",
    "whit monday 2020": "2020-06-01",
    "corpus christi 2020": "2020-06-11",
}


@pytest.mark.parametrize(("phrase", "wanted"), {**UNITED_STATES, **GERMANY}.items())
def test_feasts_fall_where_others_say_they_do(phrase: str, wanted: str) -> None:
    tokens = tokenize(phrase)
    found = read_day(tokens, 0, at(), "forward")
    assert found is not None
    assert (found.value, found.end) == (date.fromisoformat(wanted), len(tokens))


def test_a_feast_without_its_year_is_the_nearest_in_the_looking_direction() -> None:
    ahead, back = (read_day(tokenize("of easter"), 1, at(), look) for look in ("forward", "back"))
    assert ahead is not None
    assert back is not None
    assert (ahead.value, back.value) == (date(2026, 4, 5), date(2025, 4, 20))
