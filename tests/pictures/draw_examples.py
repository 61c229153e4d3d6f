"""Draws the examples in sample_config/pictures anew: ``python -m tests.pictures.draw_examples``."""

from __future__ import annotations

from pathlib import Path
from typing import Final

from bot.pictures.views import WeekView
from bot.pictures.week_picture import week_picture
from storage.records import Look
from tests.pictures.made_weeks import MANNERS, empty_week, overfull_week, usual_week

FOLDER: Final = Path(__file__).parents[2] / "sample_config" / "pictures"
WEEKS: Final = {"empty": empty_week(), "usual": usual_week(), "overfull": overfull_week()}


def example(name: str, look: Look) -> Path:
    """Where the example of that week in that look is."""
    return FOLDER / f"week-{name}-{look}.png"


def drawn(view: WeekView, look: Look) -> bytes:
    """The example as it is drawn now."""
    return week_picture(view, MANNERS, look)


def main() -> None:
    """Writes every example."""
    for name, view in WEEKS.items():
        for look in Look:
            example(name, look).write_bytes(drawn(view, look))


if __name__ == "__main__":
    main()
