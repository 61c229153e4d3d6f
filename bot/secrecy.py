"""Keeping secrets out of every log line and every traceback, whoever writes them and at whatever level."""

from __future__ import annotations

import logging
import re
import sys
import threading
import traceback
from collections.abc import Iterable
from types import TracebackType
from urllib.parse import quote

HIDDEN = "(hidden)"
SHORTEST = 8
"""A shorter secret is no secret, and hiding it would spoil plain words."""

# What stands behind the host of a link may be a key: the token in Telegram's addresses, the secret part of a calendar's link.
_LINK = re.compile(r"\b([a-z][a-z0-9+.-]{1,15}://)(?:[^\s/@'\"]{1,500}@)?([^\s/?#'\"<>@]{1,255})[^\s'\"<>)]*", re.IGNORECASE)
# A token is a number, a colon and letters, also where the colon is coded (Bot API, on authorizing a bot).
_TOKEN = re.compile(r"(?<![0-9])[0-9]{1,20}(?::|%3A)[A-Za-z0-9_-]{16,}")


class Secrecy:
    """Hides tokens, what follows the host in links, and ``secrets`` named one by one."""

    def __init__(self, secrets: Iterable[str | None] = ()) -> None:
        known = {form for secret in secrets if secret and len(secret) >= SHORTEST for form in (secret, quote(secret, safe=""))}
        self._known = sorted(known, key=len, reverse=True)

    def hide(self, text: str) -> str:
        """The text without them."""
        for secret in self._known:
            text = text.replace(secret, HIDDEN)
        return _TOKEN.sub(HIDDEN, _LINK.sub(rf"\1\2/{HIDDEN}", text))

    def keep(self) -> None:
        """From now on every handler of the root logger and every traceback that would be printed keeps them."""
        for handler in logging.getLogger().handlers:
            handler.setFormatter(_Discreet(handler.formatter or logging.Formatter(), self))
        sys.excepthook = self._tell
        threading.excepthook = lambda failed: self._tell(failed.exc_type, failed.exc_value, failed.exc_traceback)

    def _tell(self, kind: type[BaseException], error: BaseException | None, trace: TracebackType | None) -> None:
        sys.stderr.write(self.hide("".join(traceback.format_exception(kind, error, trace))))


class _Discreet(logging.Formatter):
    """Another formatter's lines, with secrets hidden; their tracebacks, too."""

    def __init__(self, formatter: logging.Formatter, secrecy: Secrecy) -> None:
        super().__init__()
        self._formatter = formatter
        self._secrecy = secrecy

    def format(self, record: logging.LogRecord) -> str:
        """The line."""
        return self._secrecy.hide(self._formatter.format(record))
