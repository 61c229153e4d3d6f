"""Errors -> one clear line on standard error. Here known faults become words; they are raised deep, with data."""

from __future__ import annotations

from bot.channels.script import ScriptError
from bot.exporting.about import NoExport
from bot.outside.faults import OutsideError
from bot.settings import SettingsError
from storage import errors


class CommandError(Exception):
    """A command cannot go on, and its text says why in one sentence."""


Failed = (CommandError, NoExport, ScriptError, SettingsError, errors.StorageError, OutsideError, OSError)
"""What a command may fail with and explain; anything else is a bug and shows itself."""


OF_A_FILE: dict[type[errors.FileError], str] = {
    errors.Busy: "another copy is running on this database ({path}); stop it first",
    errors.Locked: "another program keeps {path} locked; try again once it is done. Nothing was changed",
    errors.NoRoom: "the disk of {path} is full; make room. Nothing was changed",
    errors.AlreadyThere: "{path} is there already; name another file. Nothing was changed",
    errors.TooNew: "{path} was written by a newer version; install that version, or restore an older backup. Nothing was changed",
    errors.Unreadable: "{path} is not a readable database; restore a backup, or name another file. Nothing was changed",
    errors.NoKey: "{path} is sealed; set WEEKWRIGHT_BACKUP_KEY to the key it was made with. Nothing was changed",
    errors.WrongKey: "the key in WEEKWRIGHT_BACKUP_KEY does not open {path}; it was sealed with another. Nothing was changed",
}


def in_words(fault: BaseException) -> str:
    """One line that says what went wrong and, where there is something to do, what."""
    if isinstance(fault, errors.FileError) and type(fault) in OF_A_FILE:
        return OF_A_FILE[type(fault)].format(path=fault.path)
    if isinstance(fault, errors.NoSealing):
        return "sealing needs one more package: pip install 'weekwright[encryption]'"
    if isinstance(fault, errors.NoServer | errors.TooOld | errors.NoDriver):
        return _of_a_server(fault)
    if isinstance(fault, errors.NotEmpty):
        return "there are people in that database already; it has to be an empty one, so name another. Nothing was changed"
    if isinstance(fault, errors.Malformed | errors.Refused | NoExport):
        return f"{' '.join(str(fault).split())}. Nothing was changed"
    if isinstance(fault, OSError) and fault.filename:
        return f"{fault.filename}: {fault.strerror}"
    return " ".join(str(fault).split())


def _of_a_server(fault: errors.NoServer | errors.TooOld | errors.NoDriver) -> str:
    if isinstance(fault, errors.NoServer):
        reason = " ".join(fault.reason.split())
        return f"the server does not let me into {fault.path} ({reason}); does it run, and are name and password right?"
    if isinstance(fault, errors.TooOld):
        return f"the server of {fault.path} is of version {fault.version}; it has to be {fault.oldest} or later"
    return "PostgreSQL needs one more package: pip install 'weekwright[postgresql]'"
