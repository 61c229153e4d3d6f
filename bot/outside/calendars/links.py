"""The text of a link -> where to ask and for what."""

from __future__ import annotations

import re
from dataclasses import dataclass
from urllib.parse import quote, urlsplit

from bot.outside.faults import CalendarUnavailable, Fault

# Programs write webcal for "subscribe to this"; what is meant is a page like any other.
SECURE = ("https", "webcal", "webcals")
MOST_LINK_CHARS = 2000
HTTPS_PORT, HTTP_PORT = 443, 80
# A name, once its letters are coded, or an IPv6 address.
HOST = re.compile(r"[a-z0-9._-]+|[0-9a-f:.]+")
UNTOUCHED = "/%:@!$&'()*+,;=~-._?"


@dataclass(frozen=True, slots=True)
class Link:
    """A host to ask, by TLS if ``secure``, and the ``target`` to ask it for, percent-encoded."""

    secure: bool
    host: str
    port: int
    target: str

    @property
    def host_header(self) -> str:
        """The host, with its port where that is not the usual one. RFC 9110, section 7.2."""
        host = f"[{self.host}]" if ":" in self.host else self.host
        return host if self.port == (HTTPS_PORT if self.secure else HTTP_PORT) else f"{host}:{self.port}"

    @property
    def address(self) -> str:
        """The whole link, by http or https."""
        return f"{'https' if self.secure else 'http'}://{self.host_header}{self.target}"


def read_link(text: str, *, plain: bool = False) -> Link:
    """Where ``text`` leads. Raises CalendarUnavailable unless it is an https link, or ``plain`` and an http one."""
    try:
        parts = urlsplit(text.strip())
        host = (parts.hostname or "").encode("idna").decode("ascii")
        port = parts.port
    except ValueError as error:
        raise CalendarUnavailable(Fault.NOT_UNDERSTOOD, "not a link") from error
    if HOST.fullmatch(host) is None or len(text) > MOST_LINK_CHARS:
        raise CalendarUnavailable(Fault.NOT_UNDERSTOOD, "not a link")
    secure = parts.scheme in SECURE
    if not secure and not (plain and parts.scheme == "http"):
        raise CalendarUnavailable(Fault.NOT_SECURE, parts.scheme[:20])
    target = quote(parts.path or "/", safe=UNTOUCHED) + (f"?{quote(parts.query, safe=UNTOUCHED)}" if parts.query else "")
    return Link(secure, host, port or (HTTPS_PORT if secure else HTTP_PORT), target)
