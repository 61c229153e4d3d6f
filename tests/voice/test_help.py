"""Help teaches by example, and every example works as it stands."""

from __future__ import annotations

from datetime import date, datetime
from zoneinfo import ZoneInfo

import pytest

from bot.language.context import Context, Named
from bot.language.meaning import Ask, Unknown
from bot.language.understand import understand
from bot.settings import sample_settings
from bot.voice.help_said import HELP, MEANT, REMARKS, help_page
from bot.voice.manners import Manners
from bot.voice.replies import Help
from bot.voice.times_of_day import example_text
from storage.records import ClockStyle, DateOrder

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


@pytest.mark.parametrize("example", [example for _, *examples in HELP.values() for example in examples])
def test_every_example_means_the_same_by_the_12_hour_clock(example: str) -> None:
    by_twelve = example_text(example, ClockStyle.TWELVE)
    assert understand(by_twelve, CONTEXT) == understand(example, CONTEXT), by_twelve
    assert example_text(example, ClockStyle.TWENTY_FOUR) == example


def test_examples_say_am_and_pm_to_who_lives_by_them() -> None:
    manners = Manners(ZoneInfo("Europe/Brussels"), DateOrder.DAY_MONTH, date(2026, 3, 2), clock_style=ClockStyle.TWELVE)
    lines = [line for topic in HELP for line in help_page(Help(topic), manners).text.splitlines()]
    expected = ("museum 1-5pm less 30m", "in museum 1:05pm", "choir every thursday 7:30-9pm minor", "routine exercise 30m every day 7-9am")
    assert set(expected) <= set(lines)
    assert {"morning at 6:30am", "waking 7am-10pm", "target family 4-8h", "overtime workshop over 40 h at 1.5"} <= set(lines)
    assert any(line.startswith("“museum until 5pm” begins") for line in lines)


@pytest.mark.parametrize(
    "word",
    [
        *"job timesheet quiet log clock in out close drop reopen push".split(),
        *"task goal appt meeting move cancel routine target show undo set calendar mark plan".split(),
    ],
)
def test_every_kind_of_reply_has_a_topic_of_its_own(word: str) -> None:
    page = help_page(Help(word), Manners(ZoneInfo("Europe/Brussels"), DateOrder.DAY_MONTH, date(2026, 3, 2)))
    topic = word if word in HELP else MEANT[word]
    assert page.text.splitlines()[0] == HELP[topic][0]
    assert len(page.text.splitlines()) <= 12


def test_a_word_that_is_no_topic_gets_one_example_of_each() -> None:
    page = help_page(Help("juggling"), Manners(ZoneInfo("Europe/Brussels"), DateOrder.DAY_MONTH, date(2026, 3, 2)))
    assert all(examples[1] in page.text for examples in HELP.values())
    assert max(len(row) for row in page.buttons) <= 4


def test_remarks_are_about_topics_there_are() -> None:
    assert REMARKS.keys() <= HELP.keys()
