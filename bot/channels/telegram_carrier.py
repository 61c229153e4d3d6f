"""Carries parcels to Telegram chats, and turns Telegram's refusals into the postman's three errors.

Limits: https://core.telegram.org/bots/api (a text of 4096 and a caption of 1024 UTF-16 units).
"""

from __future__ import annotations

import logging
from dataclasses import replace
from datetime import timedelta

import httpx
from telegram import Bot, InlineKeyboardButton, InlineKeyboardMarkup, LinkPreviewOptions, Message, MessageEntity
from telegram.error import BadRequest, ChatMigrated, Forbidden, NetworkError, RetryAfter, TelegramError

from bot.channels.carrying import CarryBlocked, CarryError, CarryLater, CarryRefused
from bot.channels.telegram_wire import NotReachedError
from bot.heard import button_data
from bot.voice.length import units
from storage.records import Parcel, ParcelKind

log = logging.getLogger("weekwright.telegram")

MOST_TEXT_UNITS = 4096
MOST_CAPTION_UNITS = 1024
MOST_PHOTO_BYTES = 10 * 1024 * 1024
LONGEST_ASKED_SECONDS = 3600.0
MOST_PHOTO_SIDES = 10_000
MOST_PHOTO_RATIO = 20
NO_PREVIEW = LinkPreviewOptions(is_disabled=True)
# What the Bot API server says of an edit that changes nothing: the message already reads as it should.
UNCHANGED = "message is not modified"
# What it says of a chat that is gone: the person never wrote first, or removed the account.
GONE = ("chat not found", "user not found", "peer_id_invalid")
SURELY_NOT_CARRIED = (NotReachedError, httpx.ConnectError, httpx.ConnectTimeout, httpx.PoolTimeout)


class TelegramCarrier:
    """The postman's way into private chats."""

    def __init__(self, bot: Bot) -> None:
        self._bot = bot

    async def carry(self, parcel: Parcel, rewrites: str | None) -> str:
        """Sends or edits; gives the message's number in its chat.

        An edit of something that was never carried is sent as a message of its
        own. Raises CarryLater, CarryRefused or CarryBlocked.
        """
        chat = chat_of(parcel.address)
        _refuse_too_long(parcel)
        try:
            if rewrites is not None:
                await self._edit(chat, int(rewrites), parcel)
                return rewrites
            return str((await self._send_or_plainly(chat, parcel)).message_id)
        except TelegramError as error:
            if rewrites is not None and UNCHANGED in error.message.lower():
                return rewrites
            raise carry_error(error) from error
        except OverflowError as error:
            # A wait that no number of Python's for waits can hold.
            raise CarryLater(LONGEST_ASKED_SECONDS, "asked to wait for ever") from error

    async def typing(self, address: str) -> None:
        """Shows for some seconds that an answer is being written. Of no consequence when it fails."""
        try:
            await self._bot.send_chat_action(chat_of(address), "typing")
        except TelegramError as error:
            log.debug("typing not shown: %s", type(error).__name__)

    async def _send_or_plainly(self, chat: int, parcel: Parcel) -> Message:
        """What Telegram finds fault with in full is sent once more as bare words: better without its buttons than not at all."""
        try:
            return await self._send(chat, parcel)
        except BadRequest as error:
            if not isinstance(carry_error(error), CarryRefused) or not (parcel.bold or parcel.buttons):
                raise
            log.warning("parcel %d refused in full, sent as bare words: %s", parcel.id, error.message)
            return await self._send(chat, replace(parcel, bold=(), buttons=()))

    async def _edit(self, chat: int, message_id: int, parcel: Parcel) -> None:
        await self._bot.edit_message_text(
            parcel.text,
            chat_id=chat,
            message_id=message_id,
            entities=bold_entities(parcel),
            reply_markup=keyboard(parcel),
            link_preview_options=NO_PREVIEW,
        )

    async def _send(self, chat: int, parcel: Parcel) -> Message:
        if parcel.kind is ParcelKind.FILE:
            return await self._send_file(chat, parcel)
        return await self._bot.send_message(
            chat,
            parcel.text,
            entities=bold_entities(parcel),
            reply_markup=keyboard(parcel),
            disable_notification=parcel.silent,
            link_preview_options=NO_PREVIEW,
        )

    async def _send_file(self, chat: int, parcel: Parcel) -> Message:
        content, name = parcel.file_bytes or b"", parcel.file_name or "file"
        if name.lower().endswith(".png") and fits_a_photo(content):
            return await self._bot.send_photo(
                chat,
                content,
                filename=name,
                caption=parcel.text,
                caption_entities=bold_entities(parcel),
                reply_markup=keyboard(parcel),
                disable_notification=parcel.silent,
            )
        return await self._bot.send_document(
            chat,
            content,
            filename=name,
            caption=parcel.text,
            caption_entities=bold_entities(parcel),
            reply_markup=keyboard(parcel),
            disable_notification=parcel.silent,
        )


def fits_a_photo(png: bytes) -> bool:
    """Whether Telegram takes the picture as a photo: in bytes, in width and height together, and in their ratio.

    Source: Telegram Bot API, sendPhoto; where a PNG says its size: ISO/IEC 15948, section 11.2.2, IHDR.
    """
    width, height = int.from_bytes(png[16:20]), int.from_bytes(png[20:24])
    shapely = 0 < width + height <= MOST_PHOTO_SIDES and max(width, height) <= MOST_PHOTO_RATIO * min(width, height)
    return len(png) <= MOST_PHOTO_BYTES and shapely


def carry_error(error: TelegramError) -> CarryError:
    """What an error of python-telegram-bot means to the postman.

    The order matters: BadRequest and TimedOut are NetworkErrors too.
    """
    words = error.message
    if isinstance(error, RetryAfter):
        return CarryLater(seconds_of(error.retry_after), "asked to wait")
    if isinstance(error, Forbidden) or any(sign in words.lower() for sign in GONE):
        return CarryBlocked(words)
    if isinstance(error, (BadRequest, ChatMigrated)):
        return CarryRefused(words)
    perhaps = not isinstance(error.__cause__, SURELY_NOT_CARRIED)
    reason = "no network" if isinstance(error, NetworkError) else type(error).__name__
    return CarryLater(0, reason, perhaps_carried=perhaps)


def seconds_of(wait: int | timedelta) -> float:
    """How long Telegram asks to be left alone, in seconds but an hour at most; python-telegram-bot gives a number or a timedelta.

    Asking again too early costs one more refusal; believing a wait of years would cost every message.
    """
    seconds = wait.total_seconds() if isinstance(wait, timedelta) else float(wait)
    return min(max(seconds, 0.0), LONGEST_ASKED_SECONDS)


def chat_of(address: str) -> int:
    """The private chat's number, which is the person's. Raises CarryRefused for an address of another kind."""
    kind, _, number = address.partition(":")
    if kind != "telegram" or not number.isdecimal():
        raise CarryRefused(f"no Telegram address: {address}")
    return int(number)


def bold_entities(parcel: Parcel) -> list[MessageEntity]:
    """The bold stretches, counted as Telegram counts: in UTF-16 units, of which a code point beyond U+FFFF takes two."""
    text = parcel.text
    return [MessageEntity(MessageEntity.BOLD, offset=units(text[:start]), length=units(text[start:end])) for start, end in parcel.bold]


def keyboard(parcel: Parcel) -> InlineKeyboardMarkup | None:
    """The buttons under the message; each carries only its own place."""
    if not parcel.buttons:
        return None
    return InlineKeyboardMarkup(
        [
            [InlineKeyboardButton(button.label, callback_data=button_data(parcel.id, row, place)) for place, button in enumerate(buttons)]
            for row, buttons in enumerate(parcel.buttons)
        ]
    )


def _refuse_too_long(parcel: Parcel) -> None:
    most = MOST_CAPTION_UNITS if parcel.kind is ParcelKind.FILE else MOST_TEXT_UNITS
    if units(parcel.text) > most:
        raise CarryRefused(f"text longer than {most}")
