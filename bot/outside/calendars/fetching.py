"""Calendars by link: asked for over TLS, from public addresses only, within a size and a time.

The connection is made to an address that was checked, not to a name that may
lead elsewhere a moment later, while the certificate is checked against the
name. A redirect is a link like any other and is checked as the first one was.
"""

from __future__ import annotations

import socket
import ssl
import zlib
from contextlib import closing
from dataclasses import dataclass
from functools import cached_property
from http.client import HTTPConnection, HTTPException, HTTPResponse, IncompleteRead
from typing import Protocol
from urllib.parse import urljoin

from bot.outside.calendars.addresses import LookUp, addresses_of, public_addresses
from bot.outside.calendars.limits import LIMITS
from bot.outside.calendars.links import Link, read_link
from bot.outside.calendars.receiving import Body, refusal
from bot.outside.calendars.time_limit import TimeLimit
from bot.outside.faults import CalendarUnavailable, Fault
from bot.outside.web_service import Patience

PATIENCE = Patience(connect_seconds=5, read_seconds=10, whole_seconds=30, most_bytes=LIMITS.most_bytes)
MOST_REDIRECTS = 5
MOST_ADDRESSES = 3
MOST_VALIDATOR_CHARS = 1000
CHUNK_BYTES = 16 * 1024
BEGIN = b"BEGIN:VCALENDAR"
WITHIN_BYTES = 2048
REDIRECTS = frozenset({301, 302, 303, 307, 308})


@dataclass(frozen=True, slots=True)
class Validators:
    """What a server calls the version of a calendar that it sent: to be kept and shown to it the next time."""

    etag: str | None = None
    last_modified: str | None = None


@dataclass(frozen=True, slots=True)
class Fetched:
    """A calendar's bytes, and what the server calls this version."""

    content: bytes
    validators: Validators


@dataclass(frozen=True, slots=True)
class NotModified:
    """The calendar is still as it was."""


@dataclass(frozen=True, slots=True)
class _Redirect:
    to: str


NOTHING_KNOWN = Validators()


class CalendarSource(Protocol):
    """Gives calendars by their links."""

    def fetch(self, link: str, known: Validators = NOTHING_KNOWN) -> Fetched | NotModified:
        """The calendar that ``link`` leads to, unless it is still the version ``known``. May block. Raises CalendarUnavailable."""


class CalendarLinks:
    """Fetches calendars. Blocks: call it in a thread.

    ``on_loopback`` lets links lead to this machine, without TLS, too: for
    trying things out, never for links that others give.
    """

    def __init__(
        self,
        patience: Patience = PATIENCE,
        look_up: LookUp = addresses_of,
        *,
        authorities: str | None = None,
        on_loopback: bool = False,
    ) -> None:
        self._patience = patience
        self._look_up = look_up
        self._authorities = authorities
        self._on_loopback = on_loopback

    def fetch(self, link: str, known: Validators = NOTHING_KNOWN) -> Fetched | NotModified:
        """The calendar that ``link`` leads to, unless it is still the version ``known``. Raises CalendarUnavailable."""
        with TimeLimit(self._patience.whole_seconds) as limit:
            try:
                return self._follow(link, known, limit)
            except ssl.SSLCertVerificationError as error:
                raise CalendarUnavailable(Fault.NOT_SECURE, error.verify_message) from error
            except (OSError, HTTPException, ValueError, zlib.error) as error:
                raise CalendarUnavailable(_fault(error, limit), type(error).__name__) from error

    def _follow(self, link: str, known: Validators, limit: TimeLimit) -> Fetched | NotModified:
        for _ in range(MOST_REDIRECTS + 1):
            place = read_link(link, plain=self._on_loopback)
            answer = self._ask(place, known, limit)
            if not isinstance(answer, _Redirect):
                return answer
            link = urljoin(place.address, answer.to)
        raise CalendarUnavailable(Fault.TOO_MANY_REDIRECTS)

    def _ask(self, link: Link, known: Validators, limit: TimeLimit) -> Fetched | NotModified | _Redirect:
        with closing(self._dialled(link, limit)) as line, closing(self._secured(line, link)) as secured:
            limit.holds(secured)
            if isinstance(secured, ssl.SSLSocket):
                secured.do_handshake()
            connection = HTTPConnection(link.host, link.port)
            connection.sock = secured
            connection.request("GET", link.target, headers=_headers(link, known))
            with closing(connection.getresponse()) as response:
                return self._answer(response, known, limit)

    def _dialled(self, link: Link, limit: TimeLimit) -> socket.socket:
        """A connection to the first of the host's addresses that answers."""
        failure: OSError = ConnectionError()
        for address in self._checked(link)[:MOST_ADDRESSES]:
            if limit.passed:
                break
            try:
                line = socket.create_connection((address, link.port), self._patience.connect_seconds)
            except OSError as error:
                failure = error
            else:
                line.settimeout(self._patience.read_seconds)
                return line
        raise failure

    def _secured(self, line: socket.socket, link: Link) -> socket.socket:
        """The connection as it will be spoken on. The certificate is checked against the name when hands are shaken, later."""
        if not link.secure:
            return line
        return self._tls.wrap_socket(line, server_hostname=link.host, do_handshake_on_connect=False)

    def _checked(self, link: Link) -> list[str]:
        return [str(address) for address in public_addresses(link.host, link.port, self._look_up, self._on_loopback)]

    @cached_property
    def _tls(self) -> ssl.SSLContext:
        """Trusts what this system trusts and what requests does; a container often has only the latter."""
        import certifi

        context = ssl.create_default_context(cafile=self._authorities)
        if self._authorities is None:
            context.load_verify_locations(certifi.where())
        return context

    def _answer(self, response: HTTPResponse, known: Validators, limit: TimeLimit) -> Fetched | NotModified | _Redirect:
        status = response.status
        if status == 304 and known != NOTHING_KNOWN:
            return NotModified()
        location = response.headers.get("Location")
        if status in REDIRECTS and location:
            return _Redirect(location)
        if status != 200:
            raise refusal(status, response.headers.get("Retry-After", ""))
        content = self._content(response, limit)
        if BEGIN not in content[:WITHIN_BYTES].upper():
            raise CalendarUnavailable(Fault.NOT_A_CALENDAR)
        return Fetched(content, _validators(response))

    def _content(self, response: HTTPResponse, limit: TimeLimit) -> bytes:
        most = self._patience.most_bytes
        if response.length is not None and response.length > most:
            raise CalendarUnavailable(Fault.TOO_LARGE)
        body = Body(response.headers.get("Content-Encoding", "").strip().lower(), most)
        while not limit.passed and (chunk := response.read1(CHUNK_BYTES)):
            body.add(chunk)
        if limit.passed:
            raise TimeoutError
        if response.length or not body.is_whole:
            raise IncompleteRead(b"")
        return bytes(body.content)


def _headers(link: Link, known: Validators) -> dict[str, str]:
    headers = {
        "Host": link.host_header,
        "User-Agent": "weekwright",
        "Accept": "text/calendar",
        "Accept-Encoding": "gzip",
        "Connection": "close",
    }
    if known.etag:
        headers["If-None-Match"] = known.etag
    if known.last_modified:
        headers["If-Modified-Since"] = known.last_modified
    return headers


def _validators(response: HTTPResponse) -> Validators:
    def kept(name: str) -> str | None:
        value = response.headers.get(name)
        return value if value and len(value) <= MOST_VALIDATOR_CHARS else None

    return Validators(kept("ETag"), kept("Last-Modified"))


def _fault(error: Exception, limit: TimeLimit) -> Fault:
    if limit.passed or isinstance(error, TimeoutError):
        return Fault.TIMED_OUT
    if isinstance(error, (OSError, IncompleteRead)):
        return Fault.NOT_REACHED
    return Fault.NOT_UNDERSTOOD
