"""The webhook, called over real HTTP on loopback as Telegram calls it."""

from __future__ import annotations

import asyncio
import json
import os
import socket
import subprocess
import sys
import time
from collections.abc import AsyncIterator, Awaitable, Callable, Iterator
from contextlib import asynccontextmanager, suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, cast

import pytest
import requests
from telegram import Bot
from telegram.error import InvalidToken, TimedOut

from bot.channels import telegram_webhook
from bot.channels.health import tell_health
from bot.channels.telegram_errors import BadToken
from bot.channels.telegram_updates import Json
from bot.channels.telegram_webhook import LARGEST_UPDATE, SECRET_HEADER, answer_calls, secret_of
from bot.rounds.pulse import ALARM, Pulse
from bot.settings_run import Address, WebhookSettings
from tests.channels.running import ROOT, Running
from tests.channels.standin import PERSON, TOKEN, StandIn

URL = "https://week.example/telegram"
SECRET = {SECRET_HEADER: secret_of(TOKEN)}
UPDATE: Json = {"update_id": 7}


@dataclass
class FakeBot:
    """Takes a webhook after so many failures."""

    failures: list[Exception] = field(default_factory=list)
    token: str = TOKEN
    webhook: tuple[str, dict[str, Any]] | None = None

    async def set_webhook(self, url: str, **more: Any) -> bool:
        if self.failures:
            raise self.failures.pop()
        self.webhook = (url, more)
        return True


def free_address() -> Address:
    with socket.create_server(("127.0.0.1", 0)) as server:
        return Address("127.0.0.1", server.getsockname()[1])


@asynccontextmanager
async def called(hear: Callable[[Json], Awaitable[None]], bot: FakeBot | None = None) -> AsyncIterator[Callable[..., Awaitable[int]]]:
    """Gives what calls the webhook with a body and headers, and gives the status of its answer."""
    listen, bot = free_address(), bot or FakeBot()
    server = asyncio.create_task(answer_calls(cast(Bot, bot), hear, WebhookSettings(URL, listen)))
    while bot.webhook is None:
        await asyncio.sleep(0.01)

    def post(body: bytes, headers: dict[str, str]) -> int:
        return requests.post(f"http://{listen}/telegram", data=body, headers=headers, timeout=10).status_code

    async def call(said: object = UPDATE, headers: dict[str, str] | None = None) -> int:
        body = said if isinstance(said, bytes) else json.dumps(said).encode()
        return await asyncio.to_thread(post, body, SECRET if headers is None else headers)

    try:
        yield call
    finally:
        server.cancel()
        await asyncio.gather(server, return_exceptions=True)


def test_it_answers_only_once_the_update_was_heard() -> None:
    async def talk() -> None:
        steps: list[str] = []

        async def hear(update: Json) -> None:
            await asyncio.sleep(0.1)
            steps.append(f"heard {update['update_id']}")

        async with called(hear) as call:
            assert await call() == 200
            assert steps == ["heard 7"]

    asyncio.run(talk())


def test_telegram_is_told_where_to_call_and_with_which_secret_after_failures_too(monkeypatch: pytest.MonkeyPatch) -> None:
    async def talk() -> None:
        bot = FakeBot([TimedOut(), TimedOut()])
        async with called(_nobody_hears, bot):
            assert bot.webhook is not None
            url, more = bot.webhook
            assert (url, more["secret_token"]) == (URL, secret_of(TOKEN))
            assert "callback_query" in more["allowed_updates"]

    monkeypatch.setattr(telegram_webhook, "pauses", lambda: iter([0.0] * 5))
    asyncio.run(talk())


def test_a_token_that_telegram_does_not_know_ends_it() -> None:
    bot = cast(Bot, FakeBot([InvalidToken()]))
    with pytest.raises(BadToken):
        asyncio.run(answer_calls(bot, _nobody_hears, WebhookSettings(URL, free_address())))


@pytest.mark.parametrize("headers", [{}, {SECRET_HEADER: ""}, {SECRET_HEADER: "x" * 64}, {SECRET_HEADER: TOKEN}])
def test_who_does_not_show_the_secret_is_not_heard(headers: dict[str, str]) -> None:
    async def talk() -> None:
        async with called(_nobody_hears) as call:
            assert await call(UPDATE, headers) == 403

    asyncio.run(talk())


@pytest.mark.parametrize("body", [b"", b"{", b"[1]", b"null", b"\xff\xfe", b"[" * 200_000])
def test_what_is_no_update_is_refused(body: bytes) -> None:
    async def talk() -> None:
        async with called(_nobody_hears) as call:
            assert await call(body) == 400

    asyncio.run(talk())


def test_a_body_that_is_too_large_is_refused() -> None:
    async def talk() -> None:
        async with called(_nobody_hears) as call:
            # The connection may be closed before all of it was written.
            with suppress(requests.RequestException):
                assert await call(b" " * (LARGEST_UPDATE + 1)) == 400

    asyncio.run(talk())


def test_an_update_that_fails_is_not_answered_as_if_it_were_kept() -> None:
    async def hear(update: Json) -> None:
        raise OSError("the disk is full")

    async def talk() -> None:
        async with called(hear) as call:
            assert await call() == 500

    asyncio.run(talk())


def test_health_is_told_over_http_and_nothing_of_who_asks_is_logged(caplog: pytest.LogCaptureFixture) -> None:
    async def ask() -> None:
        seconds, address = [0.0], free_address()
        pulse = Pulse(lambda: seconds[0], [ALARM])
        server = asyncio.create_task(tell_health(address, pulse))
        await asyncio.sleep(0.1)
        answer = await asyncio.to_thread(requests.get, f"http://{address}/health", timeout=10)
        assert (answer.status_code, answer.text) == (200, "in order\n")
        seconds[0] = 601.0
        answer = await asyncio.to_thread(requests.get, f"http://{address}/health", timeout=10)
        assert (answer.status_code, answer.text) == (503, "the alarm has been silent for 601 s\n")
        pulse.beat(ALARM)
        answer = await asyncio.to_thread(requests.get, f"http://{address}/health", timeout=10)
        assert answer.status_code == 200
        server.cancel()
        await asyncio.gather(server, return_exceptions=True)

    asyncio.run(ask())
    assert caplog.records == []


@pytest.fixture
def standin() -> Iterator[StandIn]:
    with StandIn() as standin:
        yield standin


def test_an_address_that_is_taken_is_named_and_nobody_is_invited(standin: StandIn, tmp_path: Path) -> None:
    with socket.create_server(("127.0.0.1", 0)) as other:
        taken = Address("127.0.0.1", other.getsockname()[1])
        with Running(standin, tmp_path, people=(), more={"WEEKWRIGHT_HEALTH": str(taken)}) as bot:
            bot.at("2026-03-03 17:30")
            bot.start()
            assert bot.ended() == 1
            assert bot.log.endswith(f"weekwright: I cannot listen at {taken} (Address already in use)\n")
            assert bot.count("SELECT count(*) FROM pairing") == 0


def test_the_whole_bot_by_webhook_survives_being_killed_and_hears_each_update_once(standin: StandIn, tmp_path: Path) -> None:
    listen, health = free_address(), free_address()
    more = {"WEEKWRIGHT_WEBHOOK": URL, "WEEKWRIGHT_LISTEN": str(listen), "WEEKWRIGHT_HEALTH": str(health), "WEEKWRIGHT_LOG": "json"}

    def telegram_calls(number: int, text: str) -> None:
        """As Telegram does: again and again, until it is answered with 200."""
        chat = {"id": PERSON, "type": "private", "first_name": "Rider"}
        said = {"message_id": number, "date": 1, "chat": chat, "from": {**chat, "is_bot": False}, "text": text}
        until = time.monotonic() + 60
        while time.monotonic() < until:
            try:
                body = {"update_id": number, "message": said}
                if requests.post(f"http://{listen}/telegram", json=body, headers=SECRET, timeout=10).status_code == 200:
                    return
            except requests.ConnectionError:
                time.sleep(0.05)
        raise AssertionError("never answered")

    with Running(standin, tmp_path, more=more) as bot:
        bot.at("2026-03-03 17:30")
        bot.start()
        for number in range(1, 7):
            telegram_calls(number, "1h workshop")
            telegram_calls(number, "1h workshop")
            if number % 2:
                bot.kill()
                bot.start()
        standin.wait_for(lambda: "Workshop today: 6 h in all" in standin.texts()[-1], 30)
        assert bot.count("SELECT sum(minutes) FROM stints") == 6 * 60
        assert next(call.fields["url"] for call in standin.calls if call.method == "setwebhook") == URL
        assert not [call for call in standin.calls if call.method == "getupdates"]
        environment = {**os.environ, "WEEKWRIGHT_HEALTH": str(health), "WEEKWRIGHT_SETTINGS": str(ROOT / "sample_config" / "settings.toml")}
        command = [sys.executable, "-m", "bot", "run", "--health"]
        asked = subprocess.run(command, cwd=ROOT, env=environment, capture_output=True, text=True, check=False)
        assert (asked.returncode, asked.stdout) == (0, "in order\n")
        lines = [json.loads(line) for line in bot.log.splitlines() if line.startswith("{")]
        assert {"at", "level", "from", "event"} == set(lines[0])
        assert secret_of(TOKEN) not in bot.log
        assert bot.terminate() < 5.0


async def _nobody_hears(update: Json) -> None:
    raise AssertionError(f"heard {update}")
