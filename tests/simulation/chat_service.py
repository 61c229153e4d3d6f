"""A chat service in memory, with Telegram's words (core.telegram.org/bots/api), and the request that python-telegram-bot makes of it."""

from __future__ import annotations

import asyncio
import json
from collections.abc import Mapping
from dataclasses import dataclass, field, replace
from random import Random
from typing import Any

import httpx
from telegram.error import NetworkError, TimedOut
from telegram.request import BaseRequest, RequestData

from tests.simulation.fate import Fate, Trouble
from tests.simulation.virtual_time import Clock

LONGEST_POLL = 6 * 3600.0
MESSAGES = ("sendmessage", "sendphoto", "senddocument", "editmessagetext")
REFUSED = {"429": 7, "429 huge": 10**8, "429 zero": 0}

Json = dict[str, Any]


@dataclass(frozen=True, slots=True)
class Accepted:
    """A message that reached the person. ``told`` says whether the program learned so."""

    chat: int
    message_id: int
    text: str
    buttons: tuple[tuple[tuple[str, str], ...], ...]
    told: bool


@dataclass(slots=True)
class ChatService:
    """Keeps updates until they are confirmed, hands some out again or out of order, and takes messages."""

    random: Random
    clock: Clock
    accepted: list[Accepted] = field(default_factory=list)
    shown: dict[tuple[int, int], Accepted] = field(default_factory=dict)
    blocked: set[int] = field(default_factory=set)
    line_is_down: bool = False
    repeats: float = 0.0
    disorder: float = 0.0
    handed_again: int = 0
    _waiting: list[Json] = field(default_factory=list)
    _handed_out: set[int] = field(default_factory=set)
    _confirmed: list[Json] = field(default_factory=list)
    _next_message: int = 0
    _arrived: asyncio.Event | None = None

    def new_message_id(self) -> int:
        """Messages of both sides are counted together."""
        self._next_message += 1
        return self._next_message

    def bring(self, update: Json) -> None:
        """An update arrives and waits to be asked for."""
        self._waiting.append(update)
        if self._arrived is not None:
            self._arrived.set()

    @property
    def is_empty(self) -> bool:
        """Whether every update was handed out and confirmed."""
        return not self._waiting

    async def updates(self, offset: int | None, *, told: bool) -> list[Json]:
        """What waits; confirms what was handed out below ``offset``. Waits a while when nothing does.

        Without ``told`` the answer is lost. An update that came after a later one would else be confirmed unseen.
        """
        for update in [each for each in self._waiting if each["update_id"] in self._handed_out and each["update_id"] < (offset or 0)]:
            self._waiting.remove(update)
            self._confirmed.append(update)
        if self._confirmed and self.random.random() < self.repeats:
            self.handed_again += 1
            self._waiting.append(self.random.choice(self._confirmed))
        if not self._waiting:
            await self._arrival()
        batch = sorted(self._waiting, key=lambda update: update["update_id"])
        if self.random.random() < self.disorder:
            self.random.shuffle(batch)
        self._handed_out |= {update["update_id"] for update in batch if told}
        return batch

    async def _arrival(self) -> None:
        self._arrived = asyncio.Event()
        try:
            async with asyncio.timeout(LONGEST_POLL):
                await self._arrived.wait()
        except TimeoutError:
            pass
        finally:
            self._arrived = None

    def take(self, message: Accepted, *, is_new: bool) -> None:
        """The person's screen now shows the message."""
        if is_new:
            self.accepted.append(message)
        self.shown[message.chat, message.message_id] = message


def _message(call: Mapping[str, Any], message_id: int, told: bool) -> Accepted:
    rows = json.loads(call["reply_markup"])["inline_keyboard"] if "reply_markup" in call else []
    buttons = tuple(tuple((button["text"], button["callback_data"]) for button in row) for row in rows)
    return Accepted(int(call["chat_id"]), message_id, call.get("text", call.get("caption", "")), buttons, told)


class SimulatedRequest(BaseRequest):
    """What python-telegram-bot calls in the place of HTTP."""

    def __init__(self, service: ChatService, fate: Fate) -> None:
        self._service = service
        self._fate = fate

    @property
    def read_timeout(self) -> float | None:
        return 10.0

    async def initialize(self) -> None:
        """There is nothing to open."""

    async def shutdown(self) -> None:
        """There is nothing to close."""

    async def do_request(
        self, url: str, method: str, request_data: RequestData | None = None, *_timeouts: Any, **_more: Any
    ) -> tuple[int, bytes]:
        """One call of the Bot API, and how it goes wrong if it does."""
        called = url.rpartition("/")[2].lower()
        call: dict[str, Any] = dict(request_data.json_parameters) if request_data else {}
        step = "poll" if called == "getupdates" else "send" if called in MESSAGES else "courtesy"
        trouble = self._fate.of(step)  # type: ignore[arg-type]
        if self._service.line_is_down or trouble == "no line":
            await asyncio.sleep(0.2)
            raise NetworkError("httpx.ConnectError: no line") from httpx.ConnectError("no line")
        if trouble is None or trouble.endswith("accepted"):
            answer = await self._carry_out(called, call, told=trouble is None)
            self._fate.demand_alive()
            if trouble is None:
                return answer
        if trouble == "dies accepted":
            self._fate.die()
        return await self._misbehave(trouble)

    async def _misbehave(self, trouble: Trouble) -> tuple[int, bytes]:
        if trouble in REFUSED:
            return _refuses(429, "Too Many Requests", {"retry_after": REFUSED[trouble]})
        if trouble == "500":
            return _refuses(500, "Internal Server Error")
        if trouble == "400":
            return _refuses(400, "Bad Request: this message is not to the service's taste")
        if trouble.startswith("garbage"):
            return 200, b"<html>Please log in to this network</html>"
        if trouble.startswith("reset"):
            raise NetworkError("httpx.ReadError") from httpx.ReadError("reset")
        await asyncio.sleep(10.0)
        raise TimedOut from httpx.ReadTimeout("no answer")

    async def _carry_out(self, called: str, call: Json, told: bool) -> tuple[int, bytes]:
        await asyncio.sleep(0.05)
        service = self._service
        if called == "getupdates":
            return _answers(await service.updates(int(call["offset"]) if "offset" in call else None, told=told))
        if called not in MESSAGES:
            return _answers(True)
        chat = int(call["chat_id"])
        if chat in service.blocked:
            return _refuses(403, "Forbidden: bot was blocked by the user")
        is_new = called != "editmessagetext"
        message = _message(call, service.new_message_id() if is_new else int(call["message_id"]), told)
        if not is_new and replace(service.shown[chat, message.message_id], told=told) == message:
            return _refuses(400, "Bad Request: message is not modified")
        service.take(message, is_new=is_new)
        return _answers({"message_id": message.message_id, "date": int(service.clock.seconds), "chat": {"id": chat, "type": "private"}})


def _answers(result: object) -> tuple[int, bytes]:
    return 200, json.dumps({"ok": True, "result": result}).encode()


def _refuses(status: int, description: str, parameters: Json | None = None) -> tuple[int, bytes]:
    body = {"ok": False, "error_code": status, "description": description, **({"parameters": parameters} if parameters else {})}
    return status, json.dumps(body).encode()
