"""Settings of ``weekwright run`` as a service: its log, its health address, and the webhook if it has one."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Final
from urllib.parse import urlsplit

from bot.log_lines import LogForm
from bot.settings_table import Table, over

LARGEST_PORT: Final = 65535
MOST_WORKERS: Final = 30
"""More would each send less than one message a second."""

HTTPS_PORT: Final = 443
WEBHOOK_PORTS: Final = (HTTPS_PORT, 80, 88, 8443)
"""The ports that Telegram calls. Source: core.telegram.org/bots/api#setwebhook."""


@dataclass(frozen=True, slots=True)
class Address:
    """Where to listen: a host of this machine, and a port."""

    host: str
    port: int

    def __str__(self) -> str:
        return f"[{self.host}]:{self.port}" if ":" in self.host else f"{self.host}:{self.port}"


@dataclass(frozen=True, slots=True)
class WebhookSettings:
    """``url`` is the https address that Telegram calls; ``listen`` is where a proxy passes that on to."""

    url: str
    listen: Address


@dataclass(frozen=True, slots=True)
class RunSettings:
    """``health`` is where it is told over HTTP whether all goes well, or None; without a webhook Telegram is polled.

    ``workers`` says how many of its like share the database, and with it Telegram's pace.
    """

    log: LogForm
    health: Address | None
    webhook: WebhookSettings | None
    workers: int


def run_settings(table: Table, environment: Mapping[str, str]) -> RunSettings:
    """What the table ``run`` says, with ``environment`` over it. Raises SettingsError."""
    table.only(["log", "health", "webhook", "listen", "workers"])
    log, log_key = over(table, "log", environment, "WEEKWRIGHT_LOG")
    health, health_key = over(table, "health", environment, "WEEKWRIGHT_HEALTH")
    return RunSettings(
        log=log.choice(log_key, LogForm),
        health=_address(health, health_key) if health.has(health_key) else None,
        webhook=_webhook(table, environment),
        workers=_workers(table, environment),
    )


def _webhook(table: Table, environment: Mapping[str, str]) -> WebhookSettings | None:
    webhook, key = over(table, "webhook", environment, "WEEKWRIGHT_WEBHOOK")
    listen, listen_key = over(table, "listen", environment, "WEEKWRIGHT_LISTEN")
    if not webhook.has(key):
        return None
    url = webhook.web_address(key)
    if not url.startswith("https://") or (urlsplit(url).port or HTTPS_PORT) not in WEBHOOK_PORTS:
        ports = ", ".join(map(str, WEBHOOK_PORTS))
        raise webhook.fault(key, f"an https address on one of the ports that Telegram calls ({ports})", url)
    return WebhookSettings(url, _address(listen, listen_key))


def _workers(table: Table, environment: Mapping[str, str]) -> int:
    workers, key = over(table, "workers", environment, "WEEKWRIGHT_WORKERS")
    said = workers.values.get(key)
    if isinstance(said, str) and said.isascii() and said.isdecimal():
        # A variable is always text.
        workers = Table(workers.where, workers.name, {key: int(said)})
    return workers.integer(key, 1, MOST_WORKERS)


def _address(table: Table, key: str) -> Address:
    said = table.text(key)
    host, _, port = said.rpartition(":")
    if not host or not port.isascii() or not port.isdecimal() or not 0 < int(port) <= LARGEST_PORT:
        raise table.fault(key, "a host and a port such as 127.0.0.1:8090", said)
    return Address(host.strip("[]"), int(port))
