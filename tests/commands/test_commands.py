"""The commands: what they print, and how they end."""

from __future__ import annotations

import io
import json
import stat
from pathlib import Path

import pytest

from bot.cli import main
from bot.commands import run
from storage.database import Database


@pytest.fixture
def url(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> str:
    for name in ("TOKEN", "SETTINGS", "ALLOWED", "TELEGRAM_URL"):
        monkeypatch.delenv(f"WEEKWRIGHT_{name}", raising=False)
    url = f"sqlite:///{tmp_path / 'week.sqlite'}"
    monkeypatch.setenv("WEEKWRIGHT_DATABASE", url)
    monkeypatch.setenv("WEEKWRIGHT_FORECAST_URL", "http://127.0.0.1:9")
    monkeypatch.setenv("WEEKWRIGHT_GEOCODING_URL", "http://127.0.0.1:9")
    monkeypatch.chdir(tmp_path)
    return url


def script(tmp_path: Path, text: str) -> str:
    path = tmp_path / "script.txt"
    path.write_text(text, "utf-8")
    return str(path)


def play(tmp_path: Path, text: str) -> int:
    return main(["rehearse", script(tmp_path, text), "--database", f"sqlite:///{tmp_path / 'week.sqlite'}", "--json"])


def one_line(err: str) -> str:
    assert err.count("\n") == 1
    assert "Traceback" not in err
    return err.strip()


def test_no_command_is_wrong_usage(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([]) == 2
    assert "usage" in capsys.readouterr().err


def test_an_unknown_command_is_wrong_usage(capsys: pytest.CaptureFixture[str]) -> None:
    with pytest.raises(SystemExit) as ended:
        main(["dance"])
    assert ended.value.code == 2


def test_run_without_a_token_says_how_to_get_one(url: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["run"]) == 1
    assert "@BotFather" in one_line(capsys.readouterr().err)


def test_several_workers_on_a_file_are_refused(url: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setenv("WEEKWRIGHT_TOKEN", "4711:not-a-real-one")
    monkeypatch.setenv("WEEKWRIGHT_WORKERS", "4")
    assert main(["run"]) == 1
    assert "a database in a file is one program's alone; leave run.workers out" in one_line(capsys.readouterr().err)


def test_a_second_copy_on_one_database_says_so_and_stops(
    url: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("WEEKWRIGHT_TOKEN", "4711:not-a-real-one")
    database = Database(url)
    database.hold()
    try:
        assert main(["run"]) == 1
        assert "another copy is running" in one_line(capsys.readouterr().err)
        assert main(["chat"]) == 1
    finally:
        database.close()


def test_a_wrong_settings_file_names_file_key_and_what_was_expected(
    url: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    path = tmp_path / "mine.toml"
    path.write_text('[messages]\nmorning = "early"\n', "utf-8")
    monkeypatch.setenv("WEEKWRIGHT_SETTINGS", str(path))
    assert main(["chat"]) == 1
    line = one_line(capsys.readouterr().err)
    assert "mine.toml" in line
    assert "morning" in line


def test_an_unreadable_database_is_refused_and_left_alone(url: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = tmp_path / "week.sqlite"
    path.write_bytes(b"a shopping list, not a database\n" * 100)
    before = path.read_bytes()
    assert main(["chat"]) == 1
    assert "not a readable database" in one_line(capsys.readouterr().err)
    assert path.read_bytes() == before


def test_backup_restore_and_check(url: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    play(tmp_path, "at 2026-03-02 18:00\nsay 2h workshop\n")
    copy = tmp_path / "copy.sqlite"
    assert main(["backup", str(copy)]) == 0
    assert stat.S_IMODE(copy.stat().st_mode) == 0o600
    play(tmp_path, "at 2026-03-02 19:00\nsay 1h museum\n")
    assert main(["restore", str(copy)]) == 0
    capsys.readouterr()
    main(["export", str(tmp_path / "out")])
    stints = json.loads((tmp_path / "out" / "person-1" / "stints.json").read_text("utf-8"))
    assert [each["minutes"] for each in stints] == [120]


def test_a_backup_never_overwrites(url: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    copy = tmp_path / "copy.sqlite"
    copy.write_text("precious", "utf-8")
    assert main(["backup", str(copy)]) == 1
    assert copy.read_text("utf-8") == "precious"
    one_line(capsys.readouterr().err)


def test_check_tells_each_thing_and_fails_when_one_is_at_fault(url: str, capsys: pytest.CaptureFixture[str]) -> None:
    Database(url).close()
    assert main(["check"]) == 1
    out = capsys.readouterr().out
    assert "Database: sound." in out
    assert "Forecast service: no answer" in out


def test_erase_removes_a_person_and_knows_who_is_not_there(url: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    play(tmp_path, "at 2026-03-02 18:00\nsay 2h workshop\n")
    assert main(["erase", "nobody"]) == 1
    assert "rehearsal:me" in one_line(capsys.readouterr().err)
    assert main(["erase", "rehearsal:me"]) == 0
    database = Database(url)
    assert database.people.all() == ()
    database.close()


@pytest.mark.parametrize("command", [["export", "out"], ["erase", "1"], ["backup", "copy.sqlite"]])
def test_where_there_is_no_database_a_command_makes_none(
    url: str, tmp_path: Path, capsys: pytest.CaptureFixture[str], command: list[str]
) -> None:
    assert main(command) == 1
    assert one_line(capsys.readouterr().err) == f"weekwright: there is no database at {tmp_path / 'week.sqlite'} yet"
    assert list(tmp_path.iterdir()) == []


def test_a_rehearsal_prints_what_the_contract_names(url: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert play(tmp_path, "at 2026-03-02 05:55\nat 2026-03-02 06:00\nsay task order spokes\ntap Undo\n") == 0
    lines = [json.loads(line) for line in capsys.readouterr().out.splitlines()]
    assert [(each["from"], each["kind"], each["round"]) for each in lines] == [
        ("bot", "message", "morning"),
        ("person", "message", None),
        ("bot", "message", None),
        ("person", "tap", None),
        ("bot", "message", None),
    ]
    assert lines[0]["at"] == "2026-03-02T06:00:00+01:00"
    assert lines[2]["buttons"] == [["Undo"]]
    assert lines[2].keys() == {"at", "from", "kind", "text", "buttons", "file", "silent", "round"}


@pytest.mark.parametrize(
    ("line", "reason"),
    [
        ("dance", "unknown step"),
        ("at noon", "expected a time"),
        ("say", "expected what is said"),
        ("tap Fly", "no message has that button"),
        ("edit 2h", "there is no message to edit"),
        ("here north", "expected latitude"),
        ("here 91 0", "no such place"),
        ("send nothing.ics", "no such file"),
        ("weather nothing.json", "no such file"),
        ("crash now", "nothing may follow"),
    ],
)
def test_a_step_that_cannot_be_played_names_its_line_and_nothing_after_it_runs(
    url: str, tmp_path: Path, capsys: pytest.CaptureFixture[str], line: str, reason: str
) -> None:
    assert play(tmp_path, f"# a remark\nat 2026-03-02 18:00\n{line}\nsay 2h workshop\n") == 1
    shown = capsys.readouterr()
    assert "line 3" in one_line(shown.err)
    assert reason in shown.err
    assert "Workshop" not in shown.out


def test_a_script_that_is_not_there_is_named(url: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["rehearse", "nothing.txt"]) == 1
    assert "nothing.txt" in one_line(capsys.readouterr().err)


def test_a_folder_that_cannot_be_made_is_named(url: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    play(tmp_path, "at 2026-03-02 18:00\nsay 2h workshop\n")
    capsys.readouterr()
    assert main(["export", "script.txt/out"]) == 1
    assert one_line(capsys.readouterr().err) == "weekwright: script.txt/out/person-1: Not a directory"


def test_a_crash_loses_nothing(url: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert play(tmp_path, "at 2026-03-02 18:00\nsay 2h workshop\ncrash\ntap Undo\ncrash\nat 2026-03-03 06:00\n") == 0
    lines = [json.loads(line) for line in capsys.readouterr().out.splitlines()]
    assert [each["round"] for each in lines if each["round"]] == ["morning"]
    assert any("Taken back" in each["text"] for each in lines)


def test_chat_talks_in_the_terminal(url: str, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    monkeypatch.setattr("sys.stdin", io.StringIO("2\n3h workshop\n1\n/quit\n"))
    assert main(["chat"]) == 0
    out = capsys.readouterr().out
    assert "Weekwright keeps your week" in out
    assert "3 h" in out
    assert "Taken back" in out


def test_run_warns_of_a_settings_file_that_others_can_read(tmp_path: Path, caplog: pytest.LogCaptureFixture) -> None:
    own = tmp_path / "settings.toml"
    own.write_text("[messages]\n", "utf-8")
    own.chmod(0o600)
    for path in (None, own):
        run._warn_of_open_settings(path)
    assert caplog.records == []
    own.chmod(0o640)
    run._warn_of_open_settings(own)
    assert [record.levelname for record in caplog.records] == ["WARNING"]
