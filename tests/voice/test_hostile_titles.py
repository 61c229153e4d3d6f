"""Whatever titles hold, every message is one that Telegram shows as it is meant.

Messages go out as text with offsets for what is bold, and never in a markup
that is parsed: https://core.telegram.org/bots/api#messageentity. So a title
may hold < and & and all else, and is shown with just that in it.
"""

from __future__ import annotations

import ast
from datetime import UTC, date, datetime
from pathlib import Path
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from bot.language.context import Context, Named
from bot.voice import replies as r
from bot.voice.manners import Manners
from bot.voice.message import Message
from bot.voice.say import VOICES, say
from storage.records import DateOrder
from tests.voice.made_replies import Making

ZONE = ZoneInfo("Europe/Brussels")
NOW = datetime(2026, 3, 3, 9, 0, tzinfo=UTC)
MANNERS = Manners(ZONE, DateOrder.DAY_MONTH, date(2026, 3, 3))
CONTEXT = Context(NOW.astimezone(ZONE), (Named("museum", (), "work", True),), ("work", "personal"))
TITLES = st.sampled_from(
    (
        "<b>bold</b>",
        "<script>alert(1)</script>",
        "a & b &lt; c &#x3c;",
        "</b></i><a href='tg://user?id=1'>x</a>",
        "*bold* _it_ [x](https://museum.example) `code` ~s~ ||h||",
        "{about} {} {0} %s %(x)s",
        "=cmd|' /C calc'!A0",
        "😀" * 40,
        "\U0001f6b2 ключи",
        "x" * 290,
        "'\"\\",
    )
)
HOUSE = Path(__file__).resolve().parents[2] / "bot"


def check(message: Message) -> None:
    """All that Telegram asks of a text with entities, and that a title cannot have put there."""
    assert message.text.strip()
    last = 0
    for start, end in message.bold:
        assert last <= start < end <= len(message.text)
        assert "\n" not in message.text[start:end]
        last = end
    for row in message.buttons:
        for tap in row:
            assert tap.label.strip()
            assert "\n" not in tap.label


@pytest.mark.parametrize("kind", VOICES, ids=lambda kind: kind.__name__)
@settings(max_examples=10, suppress_health_check=list(HealthCheck))
@given(data=st.data())
def test_every_reply_is_said_whole_whatever_its_titles_hold(kind: type[r.Reply], data: st.DataObject) -> None:
    reply: Any = data.draw(Making(TITLES).made(kind))
    check(say(reply, MANNERS, lambda: CONTEXT))


def test_nothing_is_ever_sent_in_a_markup_that_is_parsed() -> None:
    asked = [
        str(path)
        for path in HOUSE.rglob("*.py")
        for node in ast.walk(ast.parse(path.read_text("utf-8")))
        if isinstance(node, ast.keyword) and node.arg == "parse_mode"
    ]
    assert asked == []
