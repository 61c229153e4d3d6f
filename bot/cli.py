"""The commands: reads the arguments, hands over to one module a command, and turns errors into one line."""

from __future__ import annotations

import argparse
import logging
import os
import sys
from collections.abc import Callable, Sequence
from importlib import import_module
from keyword import iskeyword
from pathlib import Path

from bot.faults import Failed, in_words

DONE, FAILED, WRONG_USAGE = 0, 1, 2

Command = Callable[[argparse.Namespace], int]


def main(argv: Sequence[str] | None = None) -> int:
    """Runs the command that ``argv`` names; gives 0 done, 1 failed, 2 wrong usage. Never a traceback for a known fault."""
    parser = _parser()
    given = parser.parse_args(argv)
    if not given.command:
        parser.print_usage(sys.stderr)
        return WRONG_USAGE
    # Known faults are told in one line; what the log would add goes to who asks for it, which is ``run``.
    logging.getLogger("weekwright").addHandler(logging.NullHandler())
    command: Command = import_module(f"bot.commands.{given.command}{'_' * iskeyword(given.command)}").main
    try:
        return command(given)
    except KeyboardInterrupt:
        return DONE
    except BrokenPipeError:
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return FAILED
    except Failed as fault:
        print(f"weekwright: {in_words(fault)}", file=sys.stderr)
        return FAILED


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(prog="weekwright", description="A chat bot that keeps one person's week.")
    commands = parser.add_subparsers(dest="command", metavar="COMMAND")
    run = commands.add_parser("run", help="talk over Telegram")
    run.add_argument("--health", action="store_true", help="ask the bot that runs whether all goes well")
    commands.add_parser("chat", help="talk in this terminal; no token needed")
    _add_rehearse(commands.add_parser("rehearse", help="play a script against a clock that the script moves"))
    _add_understand(commands.add_parser("understand", help="say how a reply would be understood"))
    commands.add_parser("backup", help="copy the database, also while the bot runs").add_argument("file", metavar="FILE", type=Path)
    commands.add_parser("restore", help="put a copy back, keeping what it replaces").add_argument("file", metavar="FILE", type=Path)
    commands.add_parser("check", help="say whether all is in order, and what is not")
    commands.add_parser("move", help="copy the whole database into an empty one").add_argument("url", metavar="URL")
    commands.add_parser("export", help="write all that is kept as open files").add_argument("folder", metavar="DIR", type=Path)
    commands.add_parser("import", help="put an export into an empty database").add_argument("folder", metavar="DIR", type=Path)
    commands.add_parser("erase", help="remove a person for good").add_argument("person", metavar="PERSON")
    return parser


def _add_rehearse(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("script", metavar="SCRIPT", type=Path)
    parser.add_argument("--settings", metavar="FILE", type=Path)
    parser.add_argument("--database", metavar="URL")
    parser.add_argument("--json", action="store_true", help="one object a line")
    parser.add_argument("--files", metavar="DIR", type=Path, help="where files that the bot sends are written")


def _add_understand(parser: argparse.ArgumentParser) -> None:
    parser.add_argument("text", metavar="TEXT", nargs="*", help="the reply; without it, one reply a line from standard input")
    parser.add_argument("--now", metavar="YYYY-MM-DDTHH:MM", help="the local time it is said at")
    parser.add_argument("--zone", metavar="ZONE", help="the time zone")
    parser.add_argument("--settings", metavar="FILE", type=Path)
    parser.add_argument("--json", action="store_true", help="one object a line")
