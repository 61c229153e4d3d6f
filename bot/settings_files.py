"""Where settings and data lie, and how a settings file is read.

Source of the folders: XDG Base Directory Specification 0.8, "Environment
variables" (a relative path there is to be ignored).
"""

from __future__ import annotations

import tomllib
from collections.abc import Mapping
from importlib.resources import files
from pathlib import Path
from typing import Final

from bot.settings_table import SettingsError, Table

FILE_NAME: Final = "settings.toml"
SAMPLE: Final = "sample_config"
OPEN_TO_OTHERS: Final = 0o077


def find_settings_file(environment: Mapping[str, str], here: Path, configuration: Path) -> Path | None:
    """The settings file: the one ``WEEKWRIGHT_SETTINGS`` names, else one in ``here``, else in ``configuration``, else none.

    Raises SettingsError when the named one is not there, or when it is not to be seen whether one is.
    """
    named = environment.get("WEEKWRIGHT_SETTINGS", "").strip()
    if named:
        if not _is_file(here / named):
            raise SettingsError("the environment", "WEEKWRIGHT_SETTINGS", f"a settings file, and there is none at {here / named}")
        return here / named
    return next((folder / FILE_NAME for folder in (here, configuration) if _is_file(folder / FILE_NAME)), None)


def is_open_to_others(path: Path) -> bool:
    """Whether anyone but the owner may do anything with the file."""
    return bool(path.stat().st_mode & OPEN_TO_OTHERS)


def configuration_folder(environment: Mapping[str, str]) -> Path:
    """Weekwright's folder among the user's configuration. Raises SettingsError when there is no home folder."""
    return _folder(environment, "XDG_CONFIG_HOME", ".config")


def data_folder(environment: Mapping[str, str]) -> Path:
    """Weekwright's folder among the user's data. Raises SettingsError when there is no home folder."""
    return _folder(environment, "XDG_DATA_HOME", ".local/share")


def read_settings_file(path: Path | None) -> Table:
    """All tables of the file at ``path``, with the sample settings for what it leaves out; the sample alone without a path."""
    sample = _parsed(files(SAMPLE).joinpath(FILE_NAME).read_bytes(), f"{SAMPLE}/{FILE_NAME}")
    if path is None:
        return Table(f"{SAMPLE}/{FILE_NAME}", "", sample)
    try:
        content = path.read_bytes()
    except OSError as error:
        raise _unreadable(path, error) from error
    return Table(str(path), "", _completed(_parsed(content, str(path)), sample))


def _is_file(path: Path) -> bool:
    try:
        return path.is_file()
    except OSError as error:
        raise _unreadable(path, error) from error


def _unreadable(path: Path, error: OSError) -> SettingsError:
    return SettingsError(str(path), None, f"a file that can be read ({error.strerror})")


def _folder(environment: Mapping[str, str], variable: str, beneath_home: str) -> Path:
    chosen, home = environment.get(variable, ""), environment.get("HOME", "")
    if Path(chosen).is_absolute():
        return Path(chosen) / "weekwright"
    if not home:
        raise SettingsError("the environment", "HOME", f"the user's home folder, or an absolute path in {variable}")
    return Path(home) / beneath_home / "weekwright"


def _parsed(content: bytes, where: str) -> dict[str, object]:
    try:
        return tomllib.loads(content.decode("utf-8-sig"))
    except UnicodeDecodeError as error:
        raise SettingsError(where, None, f"text in UTF-8, and byte {error.start} is not") from error
    except tomllib.TOMLDecodeError as error:
        raise SettingsError(where, None, f"TOML: {error}") from error


def _completed(given: Mapping[str, object], sample: Mapping[str, object]) -> dict[str, object]:
    """``given``, and key by key the sample's value for what it leaves out.

    A place belongs to its zone and a job to its category, so whoever sets the
    second without the first gets none rather than the sample's.
    """
    whole = {**sample, **given}
    for name, ours in sample.items():
        theirs = given.get(name)
        if isinstance(ours, dict) and isinstance(theirs, dict):
            whole[name] = {**_without_place(ours, theirs), **theirs}
    if "categories" in given and "jobs" not in given:
        del whole["jobs"]
    return whole


def _without_place(ours: Mapping[str, object], theirs: Mapping[str, object]) -> dict[str, object]:
    says_where = theirs.keys() & {"zone", "place", "latitude", "longitude"}
    return {key: value for key, value in ours.items() if not (says_where and key in {"place", "latitude", "longitude"})}
