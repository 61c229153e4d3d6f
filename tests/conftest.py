"""What holds for every test: the pinned time zones decide, and nothing leaves this machine."""

from __future__ import annotations

import ipaddress
import socket
import zoneinfo
from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import settings

from tests.databases import KINDS, drop_what_stays
from tests.outside_checks.sources import is_outside

# The system's own time zone files may be older or newer than the pinned ones.
zoneinfo.reset_tzpath(to=[])

# Deadlines in milliseconds fail on a busy machine and say nothing of the code.
settings.register_profile("house", deadline=None)
settings.load_profile("house")

REAL_CONNECT = socket.socket.connect


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Marks what checks against something outside the project, so that one command runs all of it."""
    for item in items:
        if is_outside(item.path):
            item.add_marker(pytest.mark.outside)


class LeftTheMachine(AssertionError):
    """A test tried to reach ``address``, which is not on this machine."""

    def __init__(self, address: object) -> None:
        super().__init__(f"a test tried to reach {address}")
        self.address = address


def _is_here(address: object) -> bool:
    if not isinstance(address, tuple):
        return True
    if address[0] == "localhost":
        return True
    try:
        return ipaddress.ip_address(address[0]).is_loopback
    except ValueError:
        return False


def _connect(self: socket.socket, address: Any) -> None:
    if not _is_here(address):
        raise LeftTheMachine(address)
    REAL_CONNECT(self, address)


@pytest.fixture(params=KINDS)
def database_kind(request: pytest.FixtureRequest) -> str:
    """The kind of database that a test is run on: each in turn, unless the test says which."""
    asked: str = request.param
    return asked


@pytest.fixture(scope="session", autouse=True)
def no_database_stays() -> Iterator[None]:
    """The one on the server that tests were run on is gone at the end."""
    yield
    drop_what_stays()


@pytest.fixture(autouse=True)
def nothing_leaves_this_machine(monkeypatch: pytest.MonkeyPatch) -> None:
    """Connections to anything but loopback, and look-ups of other names, fail the test."""
    real_look_up = socket.getaddrinfo

    def look_up(host: Any, *rest: Any, **named: Any) -> Any:
        name = host.decode() if isinstance(host, bytes) else host
        if name is not None and not _is_here((name,)):
            raise LeftTheMachine(name)
        return real_look_up(host, *rest, **named)

    monkeypatch.setattr(socket.socket, "connect", _connect)
    monkeypatch.setattr(socket, "getaddrinfo", look_up)
