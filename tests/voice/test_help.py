"""Help teaches by example, and every example works as it stands."""

from __future__ import annotations

from datetime import datetime
from zoneinfo import ZoneInfo

import pytest

from bot.language.context import Context, Named
from bot.language.meaning import Ask, Unknown
from bot.language.understand import understand
from bot.settings import sample_settings
from bot.voice.help_said import HELP, REMARKS

SAMPLE = sample_settings()
CONTEXT = Context(
    now=datetime(2026, 3, 2, 18, tzinfo=ZoneInfo("Europe/Brussels")),
    categories=tuple(Named(each.name, each.aliases, each.section) for each in SAMPLE.categories),
    sections=SAMPLE.sections,
    tasks=((1, "order spokes"), (2, "call the glazier"), (3, "oil the chains")),
)


@pytest.mark.parametrize("example", [example for _, *examples in HELP.values() for example in examples])
def test_every_example_is_understood_as_it_stands(example: str) -> None:
    assert not isinstance(understand(example, CONTEXT), Unknown | Ask)


def test_remarks_are_about_topics_there_are() -> None:
    assert REMARKS.keys() <= HELP.keys()
