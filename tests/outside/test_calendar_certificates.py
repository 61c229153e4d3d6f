"""Calendars by secure link: the address that was checked is asked, and its certificate must be for the name."""

from __future__ import annotations

import ssl
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
import trustme

from bot.outside.calendars.fetching import CalendarLinks, Fetched, Validators
from bot.outside.faults import CalendarUnavailable, Fault
from tests.outside.calendar_server import CALENDAR, HASTY, Server, links, look_up, redirect, response, served, silent


@pytest.fixture
def authority() -> trustme.CA:
    """An authority that nobody but these tests trusts."""
    return trustme.CA()


@pytest.fixture
def secured(authority: trustme.CA) -> Iterator[Server]:
    """A server whose certificate is for calendar.example."""
    tls = ssl.create_default_context(ssl.Purpose.CLIENT_AUTH)
    authority.issue_cert("calendar.example").configure_cert(tls)
    with served({"/c.ics": response(), "/moved": redirect("/c.ics")}, tls) as server:
        yield server


def trusting(authority: trustme.CA, folder: Path) -> CalendarLinks:
    """Links that trust the authority."""
    authority.cert_pem.write_to_path(str(folder / "authority.pem"))
    return CalendarLinks(HASTY, look_up, authorities=str(folder / "authority.pem"), on_loopback=True)


@pytest.mark.parametrize("scheme", ["https", "webcal", "webcals"])
def test_the_certificate_is_checked_against_the_name(authority: trustme.CA, secured: Server, tmp_path: Path, scheme: str) -> None:
    result = trusting(authority, tmp_path).fetch(f"{scheme}://calendar.example:{secured.port}/c.ics")
    assert result == Fetched(CALENDAR, Validators())


def test_a_redirect_stays_on_the_secure_way(authority: trustme.CA, secured: Server, tmp_path: Path) -> None:
    assert isinstance(trusting(authority, tmp_path).fetch(f"webcal://calendar.example:{secured.port}/moved"), Fetched)
    assert [asked.split()[1] for asked in secured.asked] == ["/moved", "/c.ics"]


def test_a_certificate_for_another_name_is_refused(authority: trustme.CA, secured: Server, tmp_path: Path) -> None:
    with pytest.raises(CalendarUnavailable) as caught:
        trusting(authority, tmp_path).fetch(f"https://other.example:{secured.port}/c.ics")
    assert (caught.value.fault, secured.asked) == (Fault.NOT_SECURE, [])


def test_a_certificate_that_nobody_vouches_for_is_refused(secured: Server) -> None:
    with pytest.raises(CalendarUnavailable) as caught:
        links().fetch(f"https://calendar.example:{secured.port}/c.ics")
    assert caught.value.fault is Fault.NOT_SECURE


def test_a_handshake_that_never_ends_is_cut_off() -> None:
    patience = replace(HASTY, read_seconds=5, whole_seconds=0.4)
    with served(silent) as server, pytest.raises(CalendarUnavailable) as caught:
        links(patience).fetch(f"https://calendar.example:{server.port}/c.ics")
    assert caught.value.fault is Fault.TIMED_OUT
