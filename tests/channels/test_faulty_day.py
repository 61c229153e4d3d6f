"""A day on which much goes wrong: nothing that is secret, and nothing that a person wrote, gets out of the house by the log."""

from __future__ import annotations

import itertools
import json
from collections.abc import Callable, Iterator
from datetime import datetime, timedelta
from pathlib import Path
from urllib.parse import quote

import pytest

from bot.channels.telegram_webhook import secret_of
from bot.cli import main
from bot.secrecy import HIDDEN
from tests.channels.running import Running
from tests.channels.standin import TOKEN, StandIn
from tests.channels.standin_http import garbles, refuses, resets, too_many

KEY = "a key that seals the backups"
LINK_SECRET = "private-7f3a99e1c2"
TITLE = "Kropotkin's wheel"
SECRETS = (TOKEN, quote(TOKEN, safe=""), secret_of(TOKEN), KEY, LINK_SECRET)
STARTED = 40.0


@pytest.fixture
def standin() -> Iterator[StandIn]:
    with StandIn() as standin:
        yield standin


def live(standin: StandIn, bot: Running) -> None:
    """Errors of every kind in between ordinary replies; the process ends by itself, is started again, and is killed."""
    bot.set("WEEKWRIGHT_BACKUP_KEY", KEY)
    bot.at("2026-03-02 12:00")
    bot.start()
    standin.say("/start")
    standin.wait_for_message("Weekwright", seconds=STARTED)
    for fault in (too_many(1), refuses(500, f"oops at /bot{TOKEN}/sendMessage"), resets(accepted=False), garbles(accepted=False)):
        standin.fault("sendmessage", fault)
    standin.fault("getupdates", refuses(502, "bad gateway"), resets(accepted=False), garbles(accepted=False))
    standin.say(f"task {TITLE} 30m workshop")
    wait(standin, bot, lambda: any("wheel" in text for text in standin.texts()))
    standin.say(f"https://127.0.0.1:9/{LINK_SECRET}/basic.ics")
    wait(standin, bot, lambda: any("private address" in text for text in standin.texts()))
    standin.send_file("spokes.ics", b"BEGIN:VCALENDAR\r\nBEGIN:VEVENT\r\nSUMMARY:" + TITLE.encode() + b"\r\nDTSTART:nonsense\r\n")
    wait(standin, bot, lambda: len(standin.texts()) >= 5)
    standin.fault("sendmessage", refuses(400, "Bad Request: message text is strange"))
    standin.say(f"task second {TITLE}")
    bot.terminate()


def wait(standin: StandIn, bot: Running, is_so: Callable[[], bool]) -> None:
    """Waits while the bot's clock goes on, so that pauses after faults come to their end."""
    noon, minutes = datetime(2026, 3, 2, 12), itertools.count(1)

    def look() -> bool:
        bot.at((noon + timedelta(minutes=next(minutes))).isoformat())
        return is_so()

    standin.wait_for(look, STARTED)


@pytest.mark.parametrize("debugging", [False, True])
def test_no_secret_is_in_the_log_and_no_text_either_unless_libraries_debug(
    standin: StandIn, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str], debugging: bool
) -> None:
    with Running(standin, tmp_path) as bot:
        if debugging:
            bot.set("TEST_DEBUG", "1")
        live(standin, bot)
        log = bot.log
    assert len(log.splitlines()) > (50 if debugging else 3)
    assert [secret for secret in SECRETS if secret in log] == []
    if debugging:
        assert HIDDEN in log
    else:
        assert "Kropotkin" not in log
    elsewhere = told_by_commands(tmp_path, monkeypatch, capsys)
    assert [secret for secret in (TOKEN, quote(TOKEN, safe=""), secret_of(TOKEN), KEY) if secret in elsewhere] == []


def told_by_commands(folder: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> str:
    """All that check, export, backup and a wrong restore print or write for a person to read."""
    monkeypatch.setenv("WEEKWRIGHT_TOKEN", TOKEN)
    monkeypatch.setenv("WEEKWRIGHT_BACKUP_KEY", KEY)
    monkeypatch.setenv("WEEKWRIGHT_DATABASE", f"sqlite:///{folder / 'week.sqlite'}")
    for name in ("TELEGRAM", "FORECAST", "GEOCODING"):
        monkeypatch.setenv(f"WEEKWRIGHT_{name}_URL", "http://127.0.0.1:9")
    monkeypatch.chdir(folder)
    for command in (["check"], ["export", "out"], ["backup", "copy"], ["restore", "log"], ["erase", "nobody"]):
        main(command)
    told = capsys.readouterr()
    assert "Traceback" not in told.err
    exported = {path.name: path.read_text("utf-8") for path in (folder / "out").rglob("*.*")}
    assert any(TITLE in json.loads(text)[0].get("title", "") for name, text in exported.items() if name == "tasks.json")
    return told.out + told.err + "".join(exported.values())
