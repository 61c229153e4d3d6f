"""A package that a library would load and nobody uses is left out, and there for whoever does."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]


def said_by(program: str) -> str:
    return subprocess.run([sys.executable, "-c", program], capture_output=True, text=True, check=True, cwd=ROOT).stdout.strip()


def test_telegram_is_loaded_without_it_and_it_is_there_afterwards() -> None:
    look = """
import sys
from bot.commands.left_out import left_out
with left_out("cryptography"):
    import bot.channels.telegram
print("cryptography" in sys.modules)

from cryptography.hazmat.primitives.ciphers.aead import AESGCM
print("cryptography" in sys.modules)
"""
    assert said_by(look).split() == ["False", "True"]


def test_one_that_is_loaded_already_stays() -> None:
    look = """
import sys, cryptography
from bot.commands.left_out import left_out
with left_out("cryptography"):
    import cryptography as again
print(again is cryptography and sys.modules["cryptography"] is cryptography)
"""
    assert said_by(look) == "True"
