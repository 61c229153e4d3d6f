"""A category that is added by chat."""

from __future__ import annotations

from bot.actions.refused import refused
from bot.voice.replies import CategoryAdded
from storage.desk import Desk
from storage.errors import NameTaken
from storage.records import Category

COLOURS = ("teal", "goldenrod", "steelblue", "tomato", "olivedrab", "orchid", "sienna", "slateblue", "seagreen", "deeppink", "peru")
"""Names of CSS that are told apart on a picture of a week; a new category takes the first that none has."""


def add_category(desk: Desk, value: str) -> CategoryAdded:
    """Keeps the category that ``value`` says: name; section; aliases, with commas. Raises Stopped for a name that is taken."""
    name, section_name, aliases = (part.strip() for part in (value + ";;").split(";")[:3])
    section = desk.sections.named(section_name)
    if not name:
        raise refused("bad value", value)
    if section is None:
        raise refused("no such section", section_name, tuple(each.name for each in desk.sections.all()))
    called = tuple(dict.fromkeys(alias.strip() for alias in aliases.split(",") if alias.strip()))
    try:
        return CategoryAdded(desk.categories.add(Category(0, name, section.name, called, free_colour(desk))))
    except NameTaken as taken:
        raise refused("name taken", taken.name) from taken


def free_colour(desk: Desk) -> str:
    """The first colour that no category has."""
    taken = {category.colour for category in desk.categories.all()}
    return next((colour for colour in COLOURS if colour not in taken), "grey")
