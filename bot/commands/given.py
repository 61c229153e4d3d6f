"""What the arguments and the environment give to a command."""

from __future__ import annotations

import os
from pathlib import Path

from bot.faults import CommandError
from bot.settings import Settings, configuration_folder, find_settings_file, load_settings
from storage.opening import is_server, sqlite_path


def settings_given(path: Path | None = None) -> Settings:
    """The settings of ``path``, else of the file that counts here, else the sample ones. Raises SettingsError."""
    return load_settings(path or settings_file(), os.environ)


def settings_file() -> Path | None:
    """The settings file that counts here, if there is one: see ``find_settings_file``. Raises SettingsError."""
    return find_settings_file(os.environ, Path.cwd(), configuration_folder(os.environ))


def demand_database(url: str) -> str:
    """The URL, if there is a database: a file that is not there is not to be made. Raises CommandError."""
    if not is_server(url) and not sqlite_path(url).exists():
        raise CommandError(f"there is no database at {sqlite_path(url)} yet")
    return url
