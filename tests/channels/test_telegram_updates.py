"""Telegram's updates read: https://core.telegram.org/bots/api#update"""

from __future__ import annotations

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.channels.telegram_updates import FileOffer, read_update, tap_id, update_id
from bot.heard import Edited, Located, Said, SentFile, Tapped

PERSON = {"id": 99, "is_bot": False, "first_name": "Rider"}
CHAT = {"id": 99, "type": "private"}
MESSAGE: dict[str, Any] = {"message_id": 5, "date": 1, "from": PERSON, "chat": CHAT}
TAP: dict[str, Any] = {"id": "tap1", "from": PERSON, "chat_instance": "1", "message": MESSAGE, "data": "7.0.1"}


def message(**more: Any) -> dict[str, Any]:
    return {"update_id": 3, "message": {**MESSAGE, **more}}


def test_a_text_is_said() -> None:
    assert read_update(message(text="3h workshop")) == Said("telegram:99", "telegram:3", "telegram:99:5", "3h workshop")


def test_a_reply_to_the_bot_names_the_message_it_replies_to() -> None:
    earlier = {"message_id": 4, "chat": CHAT, "from": {"id": 4711, "is_bot": True}}
    said = read_update(message(text="done", reply_to_message=earlier))
    assert isinstance(said, Said)
    assert said.replies_to == "4"


def test_a_reply_to_the_persons_own_message_names_none() -> None:
    said = read_update(message(text="done", reply_to_message={"message_id": 4, "chat": CHAT, "from": PERSON}))
    assert isinstance(said, Said)
    assert said.replies_to is None


def test_an_edit_has_the_key_of_the_message_it_edits() -> None:
    edit = {"update_id": 4, "edited_message": {**MESSAGE, "edit_date": 2, "text": "2h workshop"}}
    assert read_update(edit) == Edited("telegram:99", "telegram:4", "telegram:99:5", "2h workshop")


def test_a_live_location_that_moves_is_not_heard_again() -> None:
    moved = {"update_id": 4, "edited_message": {**MESSAGE, "location": {"latitude": 51.05, "longitude": 3.72, "live_period": 900}}}
    assert read_update(moved) is None


def test_a_tap_carries_its_data_and_its_id() -> None:
    update = {"update_id": 5, "callback_query": TAP}
    assert read_update(update) == Tapped("telegram:99", "telegram:5", "7.0.1")
    assert tap_id(update) == "tap1"


def test_a_tap_without_data_is_not_heard_but_has_to_be_answered() -> None:
    update = {"update_id": 5, "callback_query": {**TAP, "data": None, "game_short_name": "x"}}
    assert read_update(update) is None
    assert tap_id(update) == "tap1"


def test_a_location_is_located() -> None:
    assert read_update(message(location={"latitude": 51.05, "longitude": 3.72})) == Located("telegram:99", "telegram:3", 51.05, 3.72)


@pytest.mark.parametrize(("latitude", "longitude"), [(91, 0), (0, -180.1), ("51", 3), (True, 3), (float("nan"), 3), (None, None)])
def test_a_location_off_the_globe_is_none(latitude: Any, longitude: Any) -> None:
    assert read_update(message(location={"latitude": latitude, "longitude": longitude})) is None


def test_a_document_is_offered_with_its_name_and_size() -> None:
    offer = read_update(message(document={"file_id": "F", "file_name": "calendar.ics", "file_size": 15}))
    assert offer == FileOffer("F", 15, SentFile("telegram:99", "telegram:3", "telegram:99:5", "calendar.ics", b""))


def test_a_photo_counts_for_its_caption_and_without_one_for_an_empty_text() -> None:
    assert read_update(message(photo=[], caption="2h learning")) == Said("telegram:99", "telegram:3", "telegram:99:5", "2h learning")
    assert read_update(message(photo=[])) == Said("telegram:99", "telegram:3", "telegram:99:5", "")


@pytest.mark.parametrize("kind", ["group", "supergroup", "channel", None])
def test_only_private_chats_are_heard(kind: str | None) -> None:
    elsewhere = {**MESSAGE, "chat": {"id": -5, "type": kind}, "text": "3h workshop"}
    assert read_update({"update_id": 1, "message": elsewhere}) is None
    assert read_update({"update_id": 1, "edited_message": elsewhere}) is None
    assert read_update({"update_id": 1, "callback_query": {**TAP, "message": elsewhere}}) is None


def test_service_messages_and_new_kinds_of_update_are_not_heard() -> None:
    assert read_update(message(pinned_message={})) is None
    assert read_update({"update_id": 1, "poll_answer": {}}) is None


JSON = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats() | st.text(max_size=8),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=8), inner, max_size=3),
    max_leaves=8,
)
GOOD: list[dict[str, Any]] = [
    message(text="3h workshop"),
    message(location={"latitude": 51.05, "longitude": 3.72}),
    message(document={"file_id": "F", "file_name": "x", "file_size": 1}),
    {"update_id": 4, "edited_message": {**MESSAGE, "text": "2h"}},
    {"update_id": 5, "callback_query": TAP},
]


@given(st.sampled_from(GOOD), st.data())
def test_whatever_stands_in_for_any_part_nothing_is_raised(update: dict[str, Any], data: st.DataObject) -> None:
    update = _with_a_part_replaced(update, data)
    read_update(update)
    tap_id(update)
    number = update_id(update)
    assert number is None or isinstance(number, int)


def _with_a_part_replaced(value: dict[str, Any], data: st.DataObject) -> dict[str, Any]:
    name = data.draw(st.sampled_from(sorted(value)))
    inner = value[name]
    go_deeper = isinstance(inner, dict) and inner and data.draw(st.booleans())
    return {**value, name: _with_a_part_replaced(inner, data) if go_deeper else data.draw(JSON)}
