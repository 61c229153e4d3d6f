"""What is in deploy/ fits the program that it deploys, and the programs that read it."""

from __future__ import annotations

import re
import shutil
import subprocess
from configparser import RawConfigParser
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]
DEPLOY = ROOT / "deploy"
VARIABLE = re.compile(r"WEEKWRIGHT_[A-Z_]+[A-Z]")
NOT_THE_PROGRAMS = {"WEEKWRIGHT_TEST_PROCESSES"}


def read_by_the_program() -> set[str]:
    """Every variable that the source names."""
    return {name for file in (ROOT / "bot").rglob("*.py") for name in VARIABLE.findall(file.read_text("utf-8"))}


def unit() -> RawConfigParser:
    parser = RawConfigParser(strict=False, delimiters=("=",), comment_prefixes=("#",))
    parser.read(DEPLOY / "weekwright.service", "utf-8")
    return parser


def run(*command: str | Path, folder: Path = DEPLOY) -> subprocess.CompletedProcess[str]:
    return subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False, timeout=60)


def needs(program: str) -> pytest.MarkDecorator:
    return pytest.mark.skipif(shutil.which(program) is None, reason=f"{program} is not installed here")


@pytest.mark.parametrize(
    "file", [*sorted(each for each in DEPLOY.iterdir() if each.is_file()), ROOT / "README.md"], ids=lambda file: file.name
)
def test_every_variable_that_a_file_names_is_one_that_the_program_reads(file: Path) -> None:
    assert set(VARIABLE.findall(file.read_text("utf-8"))) - NOT_THE_PROGRAMS <= read_by_the_program()


def test_every_variable_that_the_program_reads_is_told_of() -> None:
    assert read_by_the_program() <= set(VARIABLE.findall((DEPLOY / "running.md").read_text("utf-8")))


def test_the_unit_and_the_container_run_a_command_that_there_is() -> None:
    from bot.cli import _parser

    commands = [unit()["Service"]["ExecStart"].split()[1:], ["run", "--health"]]
    assert all(_parser().parse_args(command).command == "run" for command in commands)
    assert 'CMD ["weekwright", "run", "--health"]' in (DEPLOY / "Containerfile").read_text("utf-8")


def test_the_container_is_given_all_that_the_program_is_made_of() -> None:
    copied = (DEPLOY / "Containerfile").read_text("utf-8")
    let_in = (ROOT / ".dockerignore").read_text("utf-8")
    for name in ("bot", "storage", "sample_config"):
        assert f"COPY {name} {name}" in copied
        assert f"!{name}" in let_in


def test_the_service_is_no_root_and_has_no_capability_left() -> None:
    service = unit()["Service"]
    assert (service["User"], service["CapabilityBoundingSet"], service["ProtectSystem"]) == ("weekwright", "", "strict")


@needs("systemd-analyze")
def test_systemd_accepts_the_unit_and_finds_it_little_exposed(tmp_path: Path) -> None:
    # The program that it starts need not be installed on the machine that checks it.
    there = tmp_path / "weekwright.service"
    text = (DEPLOY / "weekwright.service").read_text("utf-8")
    there.write_text(text.replace("/opt/weekwright/.venv/bin/weekwright", "/bin/true"), "utf-8")
    verified = run("systemd-analyze", "verify", there)
    assert (verified.returncode, verified.stderr) == (0, "")
    weighed = run("systemd-analyze", "security", "--offline=true", "--threshold=15", there)
    assert weighed.returncode == 0, weighed.stdout


@needs("caddy")
def test_caddy_accepts_its_file() -> None:
    assert run("caddy", "validate", "--adapter", "caddyfile", "--config", "Caddyfile").returncode == 0


@needs("nginx")
@needs("openssl")
def test_nginx_accepts_its_file(tmp_path: Path) -> None:
    key = ("openssl", "req", "-x509", "-newkey", "rsa:2048", "-nodes", "-days", "1", "-subj", "/CN=week.example")
    assert run(*key, "-keyout", "key.pem", "-out", "fullchain.pem", folder=tmp_path).returncode == 0
    site = (DEPLOY / "nginx.conf").read_text("utf-8").replace("/etc/ssl/week.example", str(tmp_path))
    # Whoever runs the tests may have no right to low ports, nor to the system's folders.
    (tmp_path / "site.conf").write_text(site.replace("443 ssl", "4443 ssl"), "utf-8")
    folders = " ".join(f"{kind}_temp_path {tmp_path}/{kind};" for kind in ("client_body", "proxy", "fastcgi", "uwsgi", "scgi"))
    http = f"http {{ access_log off; {folders} include {tmp_path}/site.conf; }}"
    whole = tmp_path / "nginx.conf"
    whole.write_text(f"pid {tmp_path}/pid;\nerror_log {tmp_path}/log;\nevents {{}}\n{http}\n", "utf-8")
    tried = run("nginx", "-t", "-c", whole)
    assert tried.returncode == 0, tried.stderr


@needs("hadolint")
def test_the_container_file_has_no_known_faults() -> None:
    linted = run("hadolint", "Containerfile")
    assert (linted.returncode, linted.stdout) == (0, "")


@needs("docker-compose")
def test_the_compose_file_can_be_read(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("WEEKWRIGHT_TOKEN", "4711:token")
    assert run("docker-compose", "-f", "compose.yaml", "config", "-q").returncode == 0
