"""``check`` tells in words what is in order and what is not, changes nothing, and never shows a secret."""

from __future__ import annotations

import sqlite3
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime, timedelta
from importlib.resources import files
from pathlib import Path
from shutil import _ntuple_diskusage

import pytest
import responses
from requests import ConnectionError as NotConnected

from bot.cli import main
from storage import sealing
from storage.backup_folder import BackupFolder
from storage.database import Database

TOKEN = "4711:a-token-that-nobody-may-see"
TODAY = datetime.now(UTC).date()
Capture = pytest.CaptureFixture[str]


@pytest.fixture
def path(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setattr(sealing, "COST", 2)
    for name in ("TOKEN", "SETTINGS", "ALLOWED", "TELEGRAM_URL", "FORECAST_URL", "GEOCODING_URL", "BACKUP_KEY"):
        monkeypatch.delenv(f"WEEKWRIGHT_{name}", raising=False)
    monkeypatch.setenv("WEEKWRIGHT_DATABASE", f"sqlite:///{tmp_path / 'week.sqlite'}")
    monkeypatch.setenv("XDG_CONFIG_HOME", str(tmp_path))
    monkeypatch.chdir(tmp_path)
    Database(f"sqlite:///{tmp_path / 'week.sqlite'}").close()
    return tmp_path / "week.sqlite"


@pytest.fixture(autouse=True)
def web() -> Iterator[responses.RequestsMock]:
    """Open-Meteo answers; what a test does not name cannot be reached."""
    with responses.RequestsMock(assert_all_requests_are_fired=False) as mock:
        forecast = files("sample_config").joinpath("forecast.json").read_text("utf-8")
        mock.get("https://api.open-meteo.com/v1/forecast", body=forecast)
        mock.get("https://geocoding-api.open-meteo.com/v1/search", json={"results": []})
        yield mock


def looked(capsys: Capture) -> tuple[int, list[str]]:
    code = main(["check"])
    told = capsys.readouterr()
    assert told.err == ""
    assert TOKEN not in told.out
    return code, told.out.splitlines()


def test_all_in_order_is_a_line_each_and_no_fault(path: Path, capsys: Capture) -> None:
    folder = BackupFolder(path)
    folder.make(TODAY)
    before = path.read_bytes()
    code, lines = looked(capsys)
    assert [line.split(",")[0] for line in lines if not line.startswith("Disk")] == [
        "Settings: the sample ones; there is no file of your own.",
        "Database: sound.",
        f"Backups: 1 in {folder.folder}",
        "Backups: the latest is sound.",
        "Messages: none was set aside.",
        "Token: none",
        "Forecast service: answers.",
        "Place service: answers.",
    ]
    assert code == 0
    assert path.read_bytes() == before
    assert [each.name for each in folder.folder.iterdir()] == [f"week-{TODAY}.sqlite"]


def test_a_token_is_tried_and_not_shown(path: Path, capsys: Capture, monkeypatch: pytest.MonkeyPatch, web: responses.RequestsMock) -> None:
    monkeypatch.setenv("WEEKWRIGHT_TOKEN", TOKEN)
    web.get(f"https://api.telegram.org/bot{TOKEN}/getMe", json={"ok": True, "result": {"id": 1, "username": "our_week_bot"}})
    code, lines = looked(capsys)
    assert "Token: Telegram knows it as @our_week_bot." in lines
    assert code == 0


@pytest.mark.parametrize(
    ("status", "body", "words"),
    [
        (401, '{"ok": false}', "Token: Telegram does not know it; @BotFather shows the right one."),
        (502, "", "Telegram: no answer (server error)."),
        (200, "<html>", "Telegram: no answer (not understood)."),
        (200, '{"result": {"username": 7}}', "Telegram: no answer (not understood)."),
        (None, "", "Telegram: no answer (not reached)."),
    ],
)
def test_a_telegram_that_answers_otherwise_is_a_fault_in_words(
    path: Path,
    capsys: Capture,
    monkeypatch: pytest.MonkeyPatch,
    web: responses.RequestsMock,
    status: int | None,
    body: str,
    words: str,
) -> None:
    monkeypatch.setenv("WEEKWRIGHT_TOKEN", TOKEN)
    url = f"https://api.telegram.org/bot{TOKEN}/getMe"
    if status is None:
        web.get(url, body=NotConnected(f"cannot reach {url}"))
    else:
        web.get(url, body=body, status=status)
    code, lines = looked(capsys)
    assert words in lines
    assert code == 1


def test_no_network_is_told_and_is_no_traceback(path: Path, capsys: Capture, web: responses.RequestsMock) -> None:
    web.reset()
    code, lines = looked(capsys)
    assert lines[-2:] == ["Forecast service: no answer (not reached).", "Place service: no answer (not reached)."]
    assert code == 1


def test_a_settings_file_that_others_can_read_is_pointed_out(path: Path, capsys: Capture) -> None:
    own = path.with_name("settings.toml")
    own.write_text("[messages]\n", "utf-8")
    own.chmod(0o644)
    code, lines = looked(capsys)
    assert f"Settings: others on this machine can read {own}; set its mode to 0600." in lines
    own.chmod(0o600)
    assert not any("others on this machine" in line for line in looked(capsys)[1])
    assert code == 0


def test_an_old_backup_is_a_fault(path: Path, capsys: Capture) -> None:
    BackupFolder(path).make(TODAY - timedelta(days=3))
    code, lines = looked(capsys)
    assert any(line.endswith("and that is 3 days ago: does the bot run?") for line in lines)
    assert code == 1


def test_a_damaged_backup_is_a_fault(path: Path, capsys: Capture) -> None:
    made = BackupFolder(path).make(TODAY)
    made.write_bytes(made.read_bytes()[:8192])
    code, lines = looked(capsys)
    assert any(line.startswith(f"Backups: {made}") for line in lines)
    assert code == 1


def test_a_sealed_backup_wants_its_key(path: Path, capsys: Capture, monkeypatch: pytest.MonkeyPatch) -> None:
    made = BackupFolder(path, secret="spokes and canals").make(TODAY)
    code, lines = looked(capsys)
    assert f"Backups: {made} could not be looked into (it is sealed, and WEEKWRIGHT_BACKUP_KEY is not set)." in lines
    assert code == 1
    monkeypatch.setenv("WEEKWRIGHT_BACKUP_KEY", "spokes and canals")
    code, lines = looked(capsys)
    assert "Backups: the latest is sound." in lines
    assert code == 0


def test_a_folder_that_takes_no_backup_is_a_fault(path: Path, capsys: Capture) -> None:
    (path.parent / "backups").write_bytes(b"in the way")
    code, lines = looked(capsys)
    assert any(line.startswith("Backups: none can be made") for line in lines)
    assert code == 1


def test_backups_can_be_turned_off(path: Path, capsys: Capture) -> None:
    path.with_name("settings.toml").write_text("[backups]\ndaily = 0\n", "utf-8")
    assert "Backups: turned off in the settings." in looked(capsys)[1]


def test_a_full_disk_is_a_fault(path: Path, capsys: Capture, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("shutil.disk_usage", lambda _: _ntuple_diskusage(10**9, 10**9 - 10**7, 10**7))
    code, lines = looked(capsys)
    assert "Disk: only 10 MB are free where the database lies; make room." in lines
    assert code == 1


def test_messages_that_were_set_aside_are_counted_and_not_shown(path: Path, capsys: Capture) -> None:
    with closing(sqlite3.connect(path)) as connection, connection:
        connection.execute(
            "INSERT INTO parcels (address, kind, text, written, bold, buttons, silent, state, tries, reason) VALUES "
            "('telegram:1', 'message', 'a secret title', '2026-03-02T05:00:00.000000Z', '[]', '[]', 0, 'aside', 1, 'Bad Request')"
        )
    code, lines = looked(capsys)
    assert "Messages: 1 could not be delivered and were set aside, the latest, number 1, on 2026-03-02: Bad Request." in lines
    assert code == 0


def test_a_database_that_is_none_is_a_fault_and_stops_nothing(path: Path, capsys: Capture) -> None:
    path.write_bytes(b"a shopping list, not a database\n" * 100)
    code, lines = looked(capsys)
    assert any("it is not a readable database" in line for line in lines)
    assert lines[-1] == "Place service: answers."
    assert code == 1


@pytest.mark.parametrize("beyond", [".", "a" * 300 + "/week.sqlite"], ids=["no file", "a folder that cannot be entered"])
def test_a_database_that_cannot_be_opened_is_not_called_damaged(
    tmp_path: Path, path: Path, capsys: Capture, monkeypatch: pytest.MonkeyPatch, beyond: str
) -> None:
    # Whoever runs the tests may be let in everywhere, so other refusals of the system stand for the one of its rights.
    monkeypatch.setenv("WEEKWRIGHT_DATABASE", f"sqlite:///{tmp_path / beyond}")
    code, lines = looked(capsys)
    told = next(line for line in lines if "I cannot open it; it may belong to another user" in line)
    assert told.endswith(("(unable to open database file).", "(File name too long)."))
    assert not any("restore a backup" in line for line in lines)
    assert lines[-1] == "Place service: answers."
    assert code == 1


def test_where_there_is_no_database_yet_nothing_is_at_fault(path: Path, capsys: Capture) -> None:
    path.unlink()
    code, lines = looked(capsys)
    assert any("it is made at the first start" in line for line in lines)
    assert code == 0
    assert not path.exists()


def test_a_plain_copy_that_was_left_behind_is_pointed_out(path: Path, capsys: Capture) -> None:
    left = path.with_name("week.sqlite.sealing")
    left.write_bytes(b"plain")
    code, lines = looked(capsys)
    assert any(str(left) in line for line in lines)
    assert code == 0
