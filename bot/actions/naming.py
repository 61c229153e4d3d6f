"""From names to rows and back."""

from __future__ import annotations

from bot.actions.refused import refused
from storage.desk import Desk
from storage.records import Category


def category_named(desk: Desk, name: str) -> Category:
    """The category with that name or alias. Raises Stopped when there is none."""
    category = desk.categories.named(name)
    if category is None:
        raise refused("no such category", name, tuple(each.name for each in desk.categories.all()))
    return category


def category_id(desk: Desk, name: str | None) -> int | None:
    """The id of the category with that name, None for None. Raises Stopped for an unknown name."""
    return None if name is None else category_named(desk, name).id


def category_name(desk: Desk, id: int | None) -> str | None:
    """The name of the category with that id, None for None."""
    return None if id is None else desk.categories.get(id).name


def category_names(desk: Desk) -> dict[int, str]:
    """Every category's name by its id, in the person's order."""
    return {category.id: category.name for category in desk.categories.all()}
