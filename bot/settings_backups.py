"""How the database is backed up by itself: where to, how many copies stay, and the key that seals them."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Final

from bot.settings_table import ENVIRONMENT, SettingsError, Table
from storage.rotation import Rotation

KEY_VARIABLE: Final = "WEEKWRIGHT_BACKUP_KEY"
SHORTEST_KEY: Final = 16
MOST_COPIES: Final = 366


@dataclass(frozen=True, slots=True)
class BackupSettings:
    """``folder`` None is the folder ``backups`` beside the database. The key comes from the environment only and is never shown."""

    folder: Path | None
    rotation: Rotation
    key: str | None = field(repr=False)


def backup_settings(table: Table, environment: Mapping[str, str]) -> BackupSettings:
    """The settings of ``table``, with the key of ``environment``. Raises SettingsError."""
    table.only(["folder", "daily", "weekly"])
    return BackupSettings(
        folder=Path(table.text("folder")).expanduser().absolute() if table.has("folder") else None,
        rotation=Rotation(table.integer("daily", 0, MOST_COPIES), table.integer("weekly", 0, MOST_COPIES)),
        key=_key(environment),
    )


def _key(environment: Mapping[str, str]) -> str | None:
    key = environment.get(KEY_VARIABLE, "").strip()
    if key and len(key) < SHORTEST_KEY:
        raise SettingsError(ENVIRONMENT, KEY_VARIABLE, f"at least {SHORTEST_KEY} characters")
    return key or None
