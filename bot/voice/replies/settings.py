"""Replies about settings, place, help, and the first conversation."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime

from bot.voice.replies.reply import Reply
from storage.records import Category, Person


@dataclass(frozen=True, slots=True)
class SettingKept(Reply):
    """``name`` and ``value`` as ``Set`` has them; ``person`` is the person after the change, at the UTC instant ``now``."""

    name: str
    value: str
    person: Person
    now: datetime


@dataclass(frozen=True, slots=True)
class PlaceKept(Reply):
    """``now`` is the UTC instant."""

    person: Person
    now: datetime


@dataclass(frozen=True, slots=True)
class PlaceSought(Reply):
    name: str


@dataclass(frozen=True, slots=True)
class PlaceUnknown(Reply):
    """``zone`` is the person's, which stays."""

    name: str
    reachable: bool
    zone: str


@dataclass(frozen=True, slots=True)
class SettingsView(Reply):
    person: Person
    categories: tuple[tuple[str, tuple[str, ...], str], ...]
    jobs: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class CategoryAdded(Reply):
    category: Category


@dataclass(frozen=True, slots=True)
class CategoryDropped(Reply):
    name: str


@dataclass(frozen=True, slots=True)
class CategoryRenamed(Reply):
    before: str
    name: str


@dataclass(frozen=True, slots=True)
class CategoriesKept(Reply):
    """The categories that the person has now."""

    names: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class JobsKept(Reply):
    """The categories that are paid jobs now."""

    names: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Help(Reply):
    """``names`` are the person's jobs and other categories, for the examples."""

    topic: str | None = None
    jobs: tuple[str, ...] = ()
    others: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Privacy(Reply):
    """What is kept and how to get or erase it."""


@dataclass(frozen=True, slots=True)
class ErasingAsked(Reply):
    """Whether the person really wants to be erased."""


@dataclass(frozen=True, slots=True)
class Erased(Reply):
    """The last word."""


@dataclass(frozen=True, slots=True)
class NothingErased(Reply):
    """The person thought better of it."""


@dataclass(frozen=True, slots=True)
class Greeting(Reply):
    """One step of the first conversation, with the defaults it offers; ``again`` when it was asked just before."""

    person: Person
    categories: tuple[str, ...]
    jobs: tuple[str, ...]
    again: bool = False
