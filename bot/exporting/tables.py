"""A table's rows as CSV for spreadsheets, and as JSON, which loses nothing."""

from __future__ import annotations

import base64
import csv
import io
import json
from typing import Any

from bot.exporting.cells import inert
from storage.everything import TableRows

BASE64 = "base64"
"""The one name in a JSON object that stands for bytes."""


def as_csv(table: TableRows) -> bytes:
    """RFC 4180 with CRLF, in UTF-8 with a byte order mark, without which spreadsheets guess another encoding."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(table.columns)
    writer.writerows([_cell(value) for value in row] for row in table.rows)
    return text.getvalue().encode("utf-8-sig")


def _cell(value: Any) -> str:
    """Numbers as they are: a minus before a number is no formula."""
    if value is None:
        return ""
    if isinstance(value, bytes):
        return base64.b64encode(value).decode()
    return inert(value) if isinstance(value, str) else repr(value)


def as_json(table: TableRows) -> bytes:
    """One object a row, by column, in UTF-8; one row a line."""
    encode = json.JSONEncoder(ensure_ascii=False, allow_nan=False).encode
    rows = (encode({name: _plain(value) for name, value in zip(table.columns, row, strict=True)}) for row in table.rows)
    listed = ",\n".join(rows)
    return f"[\n{listed}\n]\n".encode()


def _plain(value: Any) -> Any:
    return {BASE64: base64.b64encode(value).decode()} if isinstance(value, bytes) else value
