"""Help teaches by example, and every example works as it stands."""

from __future__ import annotations

from datetime import date, datetime
from zoneinfo import ZoneInfo

import pytest

from bot.language.context import Context, Named
from bot.language.meaning import Ask, Show, Unknown
from bot.language.understand import understand
from bot.settings import sample_settings
from bot.voice.help_said import HELP, MEANT, REMARKS, help_page
from bot.voice.manners import Manners
from bot.voice.message import Message
from bot.voice.replies import Help
from bot.voice.times_of_day import example_text
from storage.records import ClockStyle, DateOrder

SAMPLE = sample_settings()
MANNERS = Manners(ZoneInfo("Europe/Brussels"), DateOrder.DAY_MONTH, date(2026, 3, 2))
CONTEXT = Context(
    now=datetime(2026, 3, 2, 18, tzinfo=ZoneInfo("Europe/Brussels")),
    categories=tuple(Named(each.name, each.aliases, each.section) for each in SAMPLE.categories),
    sections=SAMPLE.sections,
    tasks=((1, "order spokes"), (2, "call the glazier"), (3, "oil the chains")),
    routines=("exercise", "cleaning"),
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
    page = help_page(Help(word), MANNERS)
    topic = word if word in HELP else MEANT[word]
    assert page.text.splitlines()[0] == HELP[topic][0]
    assert len(page.text.splitlines()) <= 12


@pytest.mark.parametrize("word", [None, "juggling"])
def test_without_a_topic_there_it_fits_a_phone(word: str | None) -> None:
    page = help_page(Help(word), MANNERS)
    assert page.text.splitlines()[:3] == ["Write it as you would say it", "3h workshop, 1h family", "in workshop"]
    assert len(page.text.splitlines()) == 10
    assert [tap.label for row in page.buttons for tap in row] == ["Hours", "Tasks", "Appointments", "Views", "Jobs", "Settings"]
    assert max(len(row) for row in page.buttons) == 3


def test_every_topic_is_at_most_two_taps_away() -> None:
    first = leads_to(help_page(Help(None), MANNERS))
    assert first | {topic for each in first for topic in leads_to(help_page(Help(each), MANNERS))} == HELP.keys()
    assert all(len(leads_to(help_page(Help(topic), MANNERS))) <= 4 for topic in HELP)


def leads_to(page: Message) -> set[str | None]:
    """The topics of a page's buttons."""
    return {tap.does.topic for row in page.buttons for tap in row if isinstance(tap.does, Show)}


def test_remarks_are_about_topics_there_are() -> None:
    assert REMARKS.keys() <= HELP.keys()
