"""The log of ``weekwright run``: one line an event, in words or as JSON.

Lines hold ids, kinds and places in the code, never what a person wrote.
"""

from __future__ import annotations

import json
import logging
import sys
from datetime import UTC, datetime
from enum import StrEnum


class LogForm(StrEnum):
    """How a line of the log is written."""

    WORDS = "words"
    JSON = "json"


def log_to_standard_error(form: LogForm) -> None:
    """Sends every event from INFO on to standard error, in ``form``."""
    handler = logging.StreamHandler(sys.stderr)
    handler.setFormatter(FORMATTERS[form]())
    logging.basicConfig(level=logging.INFO, handlers=[handler])


class InWords(logging.Formatter):
    """Time in UTC, level, where it happened, what happened; breaks within are written as blanks, so that a line stays one event."""

    def format(self, record: logging.LogRecord) -> str:
        """The event's line."""
        return f"{_moment(record)} {record.levelname} {record.name} {_event(record)}"


class AsJson(logging.Formatter):
    """An object a line: ``at`` in UTC (RFC 3339), ``level``, ``from``, ``event``."""

    def format(self, record: logging.LogRecord) -> str:
        """The event's line."""
        line = {"at": _moment(record), "level": record.levelname.lower(), "from": record.name, "event": _event(record)}
        return json.dumps(line, ensure_ascii=False)


FORMATTERS: dict[LogForm, type[logging.Formatter]] = {LogForm.WORDS: InWords, LogForm.JSON: AsJson}


def _moment(record: logging.LogRecord) -> str:
    return datetime.fromtimestamp(record.created, UTC).isoformat(timespec="milliseconds").replace("+00:00", "Z")


def _event(record: logging.LogRecord) -> str:
    """What happened, in one line, with a traceback's last line where there is one."""
    words = record.getMessage()
    if record.exc_info and record.exc_info[0]:
        words += f" ({record.exc_info[0].__name__})"
    return " ".join(words.split())
