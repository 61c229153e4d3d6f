"""Which addresses a link may lead to: public ones only, so that nobody reads the bot's own network through it.

Sources: the registries of special-purpose addresses (RFC 6890) as the
standard library holds them; RFC 3056 and RFC 6052 for IPv4 addresses inside
IPv6 ones.
"""

from __future__ import annotations

import socket
from collections.abc import Callable
from ipaddress import IPv4Address, IPv4Network, IPv6Address, IPv6Network, ip_address

from bot.outside.faults import CalendarUnavailable, Fault

Address = IPv4Address | IPv6Address
LookUp = Callable[[str, int], list[Address]]
"""Host name and port -> every address it has. Raises OSError if it has none."""

# Set aside for protocols by RFC 6890, yet partly "global" in the registry.
PROTOCOLS = IPv4Network("192.0.0.0/24")
# All that the internet routes for IPv6 (RFC 4291, section 2.4), and the way from there to IPv4 (RFC 6052).
GLOBAL_UNICAST = IPv6Network("2000::/3")
TRANSLATED = IPv6Network("64:ff9b::/96")


def addresses_of(host: str, port: int) -> list[Address]:
    """Every address of ``host``, in the order in which the system would try them. Raises OSError, UnicodeError."""
    answers = socket.getaddrinfo(host, port, type=socket.SOCK_STREAM)
    # A link-local address may carry the name of a network interface.
    return [ip_address(str(answer[4][0]).partition("%")[0]) for answer in answers]


def public_addresses(host: str, port: int, look_up: LookUp = addresses_of, loopback: bool = False) -> list[Address]:
    """Every address of ``host``, all of them public: one private address among them and none is used.

    Who connects must use one of these very addresses; a second look-up may
    answer otherwise. With ``loopback``, this machine counts as public. Raises
    CalendarUnavailable.
    """
    try:
        addresses = look_up(host, port)
    except (OSError, UnicodeError) as error:
        raise CalendarUnavailable(Fault.NOT_REACHED, "no such host") from error
    if not addresses:
        raise CalendarUnavailable(Fault.NOT_REACHED, "no such host")
    if not all(is_public(address) or (loopback and address.is_loopback) for address in addresses):
        raise CalendarUnavailable(Fault.PRIVATE_ADDRESS, host)
    return addresses


def is_public(address: Address) -> bool:
    """Whether ``address``, or the IPv4 address that it leads on to, belongs to one machine on the open internet."""
    if isinstance(address, IPv4Address):
        return address.is_global and not address.is_multicast and address not in PROTOCOLS
    inner = IPv4Address(int(address) & 0xFFFFFFFF) if address in TRANSLATED else address.sixtofour
    return is_public(inner) if inner is not None else address.is_global and address in GLOBAL_UNICAST
