"""What is heard, with all its texts tamed: the one way in for what people write and name."""

from __future__ import annotations

from dataclasses import replace

from bot.heard import Edited, Heard, Said, SentFile
from bot.rules.tame_text import tame, tame_lines


def tamed(heard: Heard) -> Heard:
    """The same thing heard, in text that shows all it holds. Taps and locations hold no text that is ever shown."""
    if isinstance(heard, Said | Edited):
        return replace(heard, text=tame_lines(heard.text))
    if isinstance(heard, SentFile):
        return replace(heard, name=tame(heard.name))
    return heard
