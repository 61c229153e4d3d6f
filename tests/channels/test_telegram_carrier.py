"""What the carrier makes of parcels and of Telegram's refusals. What crosses the wire is in test_telegram_over_http.py."""

from __future__ import annotations

import io
from dataclasses import replace
from datetime import timedelta

import httpx
import pytest
from hypothesis import given
from hypothesis import strategies as st
from PIL import Image
from telegram.error import BadRequest, ChatMigrated, Forbidden, InvalidToken, NetworkError, RetryAfter, TelegramError, TimedOut

from bot.channels.carrying import CarryBlocked, CarryError, CarryLater, CarryRefused
from bot.channels.telegram_carrier import bold_entities, carry_error, chat_of, fits_a_photo, keyboard
from bot.heard import button_place
from bot.voice.length import units
from tests.rounds.memory_outbox import message


@pytest.fixture(autouse=True)
def timedeltas(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("PTB_TIMEDELTA", "1")


@pytest.mark.parametrize(
    ("error", "kind"),
    [
        (Forbidden("Forbidden: bot was blocked by the user"), CarryBlocked),
        (Forbidden("Forbidden: user is deactivated"), CarryBlocked),
        (BadRequest("Bad Request: chat not found"), CarryBlocked),
        (BadRequest("Bad Request: PEER_ID_INVALID"), CarryBlocked),
        (BadRequest("Bad Request: message text is empty"), CarryRefused),
        (BadRequest("Bad Request: message to edit not found"), CarryRefused),
        (ChatMigrated(-100), CarryRefused),
        (TimedOut(), CarryLater),
        (NetworkError("Bad Gateway"), CarryLater),
        (InvalidToken(), CarryLater),
        (TelegramError("Invalid server response"), CarryLater),
    ],
)
def test_each_error_means_one_thing_to_the_postman(error: TelegramError, kind: type[CarryError]) -> None:
    assert type(carry_error(error)) is kind


@pytest.mark.parametrize("wait", [7, timedelta(seconds=7)])
def test_the_wait_that_telegram_asks_for_is_kept(wait: int | timedelta) -> None:
    error = carry_error(RetryAfter(wait))
    assert isinstance(error, CarryLater)
    assert (error.seconds, error.perhaps_carried) == (7, False)


@pytest.mark.parametrize(
    ("cause", "perhaps"),
    [
        (httpx.ConnectError("no route"), False),
        (httpx.ConnectTimeout("no route"), False),
        (httpx.PoolTimeout("busy"), False),
        (httpx.ReadTimeout("no answer"), True),
        (httpx.ReadError("reset"), True),
        (None, True),
    ],
)
def test_what_failed_after_it_was_sent_may_have_arrived(cause: Exception | None, perhaps: bool) -> None:
    for failure in (TimedOut(), NetworkError("trouble")):
        failure.__cause__ = cause
        error = carry_error(failure)
        assert isinstance(error, CarryLater)
        assert error.perhaps_carried is perhaps


@given(st.text(max_size=60), st.data())
def test_bold_words_are_the_same_words_when_counted_in_utf_16(text: str, data: st.DataObject) -> None:
    start = data.draw(st.integers(0, len(text)))
    end = data.draw(st.integers(start, len(text)))
    parcel = replace(message(text), bold=((start, end),))
    (entity,) = bold_entities(parcel)
    counted = text.encode("utf-16-le", "surrogatepass")
    marked = counted[2 * entity.offset : 2 * (entity.offset + entity.length)]
    assert marked.decode("utf-16-le", "surrogatepass") == text[start:end]
    assert units(text) == len(counted) // 2


def test_each_button_carries_its_place_only() -> None:
    markup = keyboard(message("Today", id=12, labels=("Close 1", "Push 1")))
    assert markup is not None
    data = [button.callback_data for button in markup.inline_keyboard[0]]
    assert [button_place(str(each)) for each in data] == [(12, 0, 0), (12, 0, 1)]


def test_a_message_without_buttons_has_no_keyboard() -> None:
    assert keyboard(message("Today")) is None


@pytest.mark.parametrize("address", ["terminal:me", "telegram:", "telegram:-100", "telegram:x", "4711"])
def test_an_address_that_is_no_private_telegram_chat_is_refused(address: str) -> None:
    with pytest.raises(CarryRefused):
        chat_of(address)


@pytest.mark.parametrize(
    ("width", "height", "fits"), [(1170, 2400, True), (5000, 5000, True), (5000, 5001, False), (100, 2000, True), (100, 2001, False)]
)
def test_a_picture_too_tall_for_a_photo_is_told_from_one_that_is_not(width: int, height: int, fits: bool) -> None:
    made = io.BytesIO()
    Image.new("1", (width, height)).save(made, "PNG")
    assert fits_a_photo(made.getvalue()) is fits
    assert not fits_a_photo(made.getvalue() + bytes(10 * 1024 * 1024))


def test_what_is_no_picture_is_no_photo() -> None:
    assert not fits_a_photo(b"")
