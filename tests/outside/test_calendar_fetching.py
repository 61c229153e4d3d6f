"""Calendars by link, from a server on this machine: versions, redirects, sizes, times."""

from __future__ import annotations

import gzip
import socket
import time
import zlib
from dataclasses import replace
from ipaddress import ip_address

import pytest

from bot.outside.calendars.addresses import Address
from bot.outside.calendars.fetching import CalendarLinks, Fetched, NotModified, Validators
from bot.outside.calendars.time_limit import TimeLimit
from bot.outside.faults import CalendarUnavailable, Fault
from bot.outside.web_service import Patience
from tests.outside.calendar_server import CALENDAR, HASTY, Answer, dripping, links, look_up, redirect, response, served, silent


def fetched(answer: bytes, patience: Patience = HASTY) -> bytes:
    """What is fetched from a server that answers so."""
    with served({"/c.ics": answer}) as server:
        result = links(patience).fetch(f"http://calendar.example:{server.port}/c.ics")
    assert isinstance(result, Fetched)
    return result.content


def refused(answer: Answer, patience: Patience = HASTY) -> CalendarUnavailable:
    """Why nothing is fetched from a server that answers so."""
    with served({"/c.ics": answer}) as server, pytest.raises(CalendarUnavailable) as caught:
        links(patience).fetch(f"http://calendar.example:{server.port}/c.ics")
    return caught.value


def test_a_calendar_is_fetched_with_what_the_server_calls_its_version() -> None:
    headers = ('ETag: "v1"', "Last-Modified: Mon, 02 Mar 2026 06:00:00 GMT")
    with served({"/c.ics?key=1%202": response(CALENDAR, *headers)}) as server:
        result = links().fetch(f"http://calendar.example:{server.port}/c.ics?key=1 2")
    assert result == Fetched(CALENDAR, Validators('"v1"', "Mon, 02 Mar 2026 06:00:00 GMT"))
    (asked,) = server.asked
    assert f"Host: calendar.example:{server.port}\r\n" in asked
    assert "If-None-Match" not in asked


def test_a_known_version_is_not_sent_again() -> None:
    with served({"/c.ics": response(b"", status="304 Not Modified")}) as server:
        known = Validators('"v1"', "Mon, 02 Mar 2026 06:00:00 GMT")
        assert links().fetch(f"http://calendar.example:{server.port}/c.ics", known) == NotModified()
    assert 'If-None-Match: "v1"\r\n' in server.asked[0]
    assert "If-Modified-Since: Mon, 02 Mar 2026 06:00:00 GMT\r\n" in server.asked[0]


def test_not_modified_is_no_answer_where_nothing_is_known() -> None:
    assert refused(response(b"", status="304 Not Modified")).fault is Fault.REFUSED


# Redirects.


def test_a_redirect_is_followed_to_another_host() -> None:
    with served({}) as server:
        server.answers = {"/a": redirect(f"http://other.example:{server.port}/b"), "/b": redirect("/c.ics"), "/c.ics": response()}
        assert links().fetch(f"http://calendar.example:{server.port}/a") == Fetched(CALENDAR, Validators())
        assert [line for asked in server.asked for line in asked.split("\r\n") if line.startswith("Host")] == [
            f"Host: {host}.example:{server.port}" for host in ("calendar", "other", "other")
        ]


@pytest.mark.parametrize(("count", "followed"), [(5, True), (6, False)])
def test_five_redirects_are_followed_and_a_sixth_is_not(count: int, followed: bool) -> None:
    answers: dict[str, Answer] = {"/0": response()}
    answers |= {f"/{number}": redirect(f"/{number - 1}") for number in range(1, count + 1)}
    with served(answers) as server:
        link = f"http://calendar.example:{server.port}/{count}"
        if followed:
            assert isinstance(links().fetch(link), Fetched)
            return
        with pytest.raises(CalendarUnavailable) as caught:
            links().fetch(link)
    assert caught.value.fault is Fault.TOO_MANY_REDIRECTS


@pytest.mark.parametrize(
    ("to", "fault"),
    [
        ("http://inside.example/c.ics", Fault.PRIVATE_ADDRESS),
        ("https://inside.example/c.ics", Fault.PRIVATE_ADDRESS),
        ("http://169.254.169.254/c.ics", Fault.PRIVATE_ADDRESS),
        ("file:///secret", Fault.NOT_UNDERSTOOD),
        ("ftp://calendar.example/c.ics", Fault.NOT_SECURE),
        ("http://[", Fault.NOT_UNDERSTOOD),
        ("http://nowhere.example/", Fault.NOT_REACHED),
    ],
)
def test_a_redirect_is_checked_as_a_link_is(to: str, fault: Fault) -> None:
    assert refused(redirect(to)).fault is fault


def test_a_redirect_to_nowhere_is_refused() -> None:
    assert refused(response(b"", status="302 Found")).fault is Fault.REFUSED


# Addresses.


@pytest.mark.parametrize(
    "host", ["127.0.0.1", "calendar.example", "inside.example", "half.example", "[::1]", "0.0.0.0", "[::ffff:127.0.0.1]"]
)
def test_a_private_address_is_never_asked(host: str) -> None:
    with served({"/c.ics": response()}) as server:
        with pytest.raises(CalendarUnavailable) as caught:
            CalendarLinks(HASTY, look_up).fetch(f"https://{host}:{server.port}/c.ics")
        assert server.asked == []
    assert caught.value.fault is Fault.PRIVATE_ADDRESS


def test_a_host_is_looked_up_once_and_the_address_that_was_checked_is_used() -> None:
    answers = iter([["127.0.0.1"], ["10.0.0.7"]])

    def changing(host: str, port: int) -> list[Address]:
        return [ip_address(each) for each in next(answers)]

    with served({"/c.ics": response()}) as server:
        result = CalendarLinks(HASTY, changing, on_loopback=True).fetch(f"http://rebound.example:{server.port}/c.ics")
    assert isinstance(result, Fetched)
    assert next(answers) == ["10.0.0.7"]


def test_the_next_address_is_tried_where_one_does_not_answer() -> None:
    with served({"/c.ics": response()}) as server:
        assert isinstance(links().fetch(f"http://two.example:{server.port}/c.ics"), Fetched)


def test_where_nobody_listens_nothing_is_reached() -> None:
    with served({}) as server:
        port = server.port
    with pytest.raises(CalendarUnavailable) as caught:
        links().fetch(f"http://calendar.example:{port}/c.ics")
    assert (caught.value.fault, caught.value.passing) == (Fault.NOT_REACHED, True)


# Answers that are none.


@pytest.mark.parametrize(
    ("answer", "fault"),
    [
        (response(b"<html>Please log in</html>"), Fault.NOT_A_CALENDAR),
        (response(b""), Fault.NOT_A_CALENDAR),
        (response(status="404 Not Found"), Fault.REFUSED),
        (response(status="401 Unauthorized"), Fault.REFUSED),
        (response(status="503 Service Unavailable"), Fault.SERVER_ERROR),
        (response(status="429 Too Many Requests"), Fault.TOO_MANY_REQUESTS),
        (response(CALENDAR, "Content-Encoding: br"), Fault.NOT_UNDERSTOOD),
        (response(CALENDAR, "Content-Encoding: gzip"), Fault.NOT_UNDERSTOOD),
        (response(CALENDAR, length=1_000), Fault.NOT_REACHED),
        (response(gzip.compress(CALENDAR, mtime=0)[:-9], "Content-Encoding: gzip"), Fault.NOT_REACHED),
        (response(b"400\r\n" + CALENDAR, "Transfer-Encoding: chunked", length=-1), Fault.NOT_REACHED),
        (b"Hello\r\n\r\n", Fault.NOT_UNDERSTOOD),
        (b"HTTP/1.1 200 OK\r\n" + b"A: b\r\n" * 200 + b"\r\n", Fault.NOT_UNDERSTOOD),
        (b"", Fault.NOT_REACHED),
    ],
)
def test_an_answer_that_is_no_calendar_is_refused_with_the_reason(answer: bytes, fault: Fault) -> None:
    assert refused(answer).fault is fault


def test_a_busy_server_says_how_long_to_leave_it_alone() -> None:
    assert refused(response(b"", "Retry-After: 90", status="503 Service Unavailable")).seconds == 90
    assert refused(response(b"", "Retry-After: Mon, 02 Mar 2026 06:00:00 GMT", status="429 Busy")).seconds is None


# Sizes.


def packed(content: bytes, bits: int = zlib.MAX_WBITS) -> bytes:
    """``content`` as deflate packs it."""
    packing = zlib.compressobj(9, wbits=bits)
    return packing.compress(content) + packing.flush()


@pytest.mark.parametrize(
    ("body", "encoding"),
    [
        (CALENDAR, "identity"),
        (gzip.compress(CALENDAR, mtime=0), "gzip"),
        (gzip.compress(CALENDAR, mtime=0), "X-Gzip"),
        (packed(CALENDAR), "deflate"),
    ],
)
def test_a_packed_calendar_is_unpacked(body: bytes, encoding: str) -> None:
    assert fetched(response(body, f"Content-Encoding: {encoding}")) == CALENDAR


def test_a_calendar_in_chunks_or_without_a_length_is_put_together() -> None:
    assert fetched(response(b"%x\r\n%s\r\n0\r\n\r\n" % (len(CALENDAR), CALENDAR), "Transfer-Encoding: chunked", length=-1)) == CALENDAR
    assert fetched(response(length=-1)) == CALENDAR


BIG = CALENDAR + b"\n" * 100_000


@pytest.mark.parametrize(
    "answer",
    [
        response(CALENDAR, length=100_001),
        response(BIG, length=-1),
        response(b"%x\r\n%s\r\n0\r\n\r\n" % (len(BIG), BIG), "Transfer-Encoding: chunked", length=-1),
        response(gzip.compress(BIG, mtime=0), "Content-Encoding: gzip"),
        response(gzip.compress(CALENDAR + b"\n" * 50_000_000, mtime=0), "Content-Encoding: gzip"),
    ],
)
def test_a_calendar_that_is_too_large_is_refused(answer: bytes) -> None:
    assert refused(answer).fault is Fault.TOO_LARGE


# Slow servers.


@pytest.mark.parametrize(
    "answer",
    [
        silent,
        dripping(b"HTTP/1.1 200 OK\r\nA: ", b"b"),
        dripping(b"HTTP/1.1 200 OK\r\n\r\n" + CALENDAR, b"\n"),
        dripping(b"HTTP/1.1 200 OK\r\nContent-Length: 90000\r\n\r\n" + CALENDAR, b"\n"),
        dripping(b"", b"HTTP/1.1 100 Continue\r\n\r\n"),
    ],
)
def test_a_server_that_never_ends_is_cut_off(answer: Answer) -> None:
    patience = replace(HASTY, read_seconds=5, whole_seconds=0.4)
    assert refused(answer, patience=patience).fault is Fault.TIMED_OUT


def test_a_connection_that_comes_too_late_is_cut_at_once() -> None:
    with TimeLimit(0) as limit:
        while not limit.passed:
            time.sleep(0.001)
        here, there = socket.socketpair()
        with here, there:
            limit.holds(here)
            assert there.recv(1) == b""
            limit.holds(here)


def test_a_server_that_says_nothing_is_waited_for_no_longer_than_a_read_may_take() -> None:
    patience = replace(HASTY, read_seconds=0.2, whole_seconds=5)
    assert refused(silent, patience=patience).fault is Fault.TIMED_OUT
