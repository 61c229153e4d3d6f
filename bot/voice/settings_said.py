"""Settings and the place."""

from __future__ import annotations

from datetime import datetime, time
from decimal import Decimal

from bot.language.meaning import Show
from bot.rules.quiet import is_quiet
from bot.voice.manners import LONG_DAYS, Manners, employed, hours_text, listed, title_text
from bot.voice.message import Message, Page, Tap, one_line
from bot.voice.replies import (
    CategoriesKept,
    CategoryAdded,
    CategoryDropped,
    CategoryRenamed,
    JobsKept,
    PlaceKept,
    PlaceSought,
    PlaceUnknown,
    SettingKept,
    SettingsView,
)
from storage.records import NO_END, DateOrder, Person

A_FIGURE = Decimal("14.50")
AFTERNOON = time(14, 30)


def setting_kept(reply: SettingKept, manners: Manners) -> Message:
    """The setting as it is now."""
    return one_line(_setting_words(reply, manners))


def _setting_words(reply: SettingKept, manners: Manners) -> str:
    person = reply.person
    words = {
        "morning": f"Morning message at {manners.time_of_day(person.morning_at)}.",
        "evening": f"Evening nudge at {manners.time_of_day(person.evening_at)}, only when something is open.",
        "recap": f"Recap at {manners.time_of_day(person.recap_at)} on {_recap_day(person)}.",
        "waking": f"Waking hours {_waking(person, manners)}.",
        "week_starts": f"Your week starts on {LONG_DAYS[person.week_starts]}; the recap comes on {_recap_day(person)}.",
        "dates": f"Dates are read and written as {manners.day(manners.today)}.",
        "clock": f"{_clock_words(manners)}, as {manners.time_of_day(AFTERNOON)}.",
        "decimals": f"Decimals are written with a {person.decimals}: {manners.number(A_FIGURE)}.",
        "zone": _zone_words(person, reply.now, manners),
        "holidays": f"Public holidays are {'' if person.holidays else 'no longer '}shown beside the days.",
        "travel": _travel_words(person),
        "pictures": f"{_pictures(person)}.",
        "free_share": f"{person.free_share} % of the free hours are kept for what comes up.",
        "quiet": _quiet_kept(person, manners),
    }
    return words.get(reply.name, f"{title_text(reply.name)}: {reply.value}.")


def _zone_words(person: Person, now: datetime, manners: Manners) -> str:
    weather = "" if person.latitude is not None else " For the weather I need a place: share your location, or write “place” and your town."
    return f"Time zone {person.zone}; it is {_time_there(now, manners)} there.{weather}"


def _time_there(now: datetime, manners: Manners) -> str:
    """ "Thu 26 Nov, 14:05": whether the zone is the right one shows on any clock."""
    return f"{manners.day(manners.today)}, {manners.clock(now)}"


def _quiet_kept(person: Person, manners: Manners) -> str:
    if not is_quiet(person, manners.today):
        return f"Speaking again: {_messages(person, manners)}, {_recap_words(person, manners)}."
    return f"{_quiet_words(person, manners)}: no morning message, nudge or recap before. What you write is answered as ever."


def _quiet_words(person: Person, manners: Manners) -> str:
    if person.quiet_until is None or person.quiet_until == NO_END:
        return "Quiet until you write “speak again”"
    return f"Quiet until {manners.day(person.quiet_until)}"


def _messages(person: Person, manners: Manners) -> str:
    return f"morning {manners.time_of_day(person.morning_at)}, evening {manners.time_of_day(person.evening_at)}"


def _recap_words(person: Person, manners: Manners) -> str:
    return f"recap {_recap_day(person)} {manners.time_of_day(person.recap_at)}"


def _clock_words(manners: Manners) -> str:
    return f"Times by the {manners.clock_style} clock"


def _travel_words(person: Person) -> str:
    if not person.travel_minutes:
        return "No time is kept free for the way to commitments, unless you say so for one."
    return f"The plan keeps {hours_text(person.travel_minutes)} free each way for every commitment, unless you say otherwise for one."


def _pictures(person: Person) -> str:
    """ "Pictures are light; one comes with the recap"."""
    return f"Pictures are {person.look}; {'one comes' if person.pictures else 'none comes'} with the recap"


def _recap_day(person: Person) -> str:
    return LONG_DAYS[(person.week_starts + 6) % 7]


def _waking(person: Person, manners: Manners) -> str:
    return manners.times(person.waking_start, person.waking_end)


def place_kept(reply: PlaceKept, manners: Manners) -> Message:
    """The place and its zone."""
    there = _time_there(reply.now, manners)
    return one_line(f"{_place_words(reply.person)}, time zone {reply.person.zone}; it is {there} there.")


def _place_words(person: Person) -> str:
    at = f"{person.latitude:.2f}, {person.longitude:.2f}" if person.latitude is not None and person.longitude is not None else "not known"
    return f"{person.place_name} ({at})" if person.place_name else f"Place {at}"


def place_sought(reply: PlaceSought, manners: Manners) -> Message:
    """That a place is being looked up."""
    return one_line(f"Looking up {reply.name}.")


def place_unknown(reply: PlaceUnknown, manners: Manners) -> Message:
    """That no place was found, and what to do."""
    page = Page()
    if reply.reachable:
        page.line(f"I find no place called {reply.name}. Share your location, or try the nearest larger town.")
    else:
        page.line(f"I cannot look up {reply.name} just now: share your location, or write “place {reply.name}” later.")
        page.line(f"Until then your time zone is {reply.zone}. If that is not your time, write “zone” and its city, like “zone Lisbon”.")
    return page.message()


def settings_view(reply: SettingsView, manners: Manners) -> Message:
    """All settings of the person."""
    person = reply.person
    page = Page()
    page.heading("Settings")
    page.line(f"{_place_words(person)}, time zone {person.zone}")
    page.line(f"Waking hours {_waking(person, manners)}; {person.free_share} % of free hours kept for what comes up")
    way = f"{hours_text(person.travel_minutes)} each way" if person.travel_minutes else "none, unless said for one"
    page.line(f"Time for the way to a commitment: {way}")
    page.line(title_text(_messages(person, manners)))
    page.line(title_text(_recap_words(person, manners)))
    if is_quiet(person, manners.today):
        page.line(_quiet_words(person, manners))
    order = "day before month" if person.date_order is DateOrder.DAY_MONTH else "month before day"
    page.line(f"Week starts on {LONG_DAYS[person.week_starts]}; dates: {order}, decimals with a {person.decimals}")
    page.line(_clock_words(manners))
    page.line(f"Public holidays beside the days: {'on' if person.holidays else 'off'}")
    page.line(_pictures(person))
    page.gap()
    page.lines(_section_lines(reply))
    if reply.jobs:
        page.line(f"Paid jobs: {'; '.join(employed(category, employer) for category, employer in reply.jobs)}")
    return page.message(((Tap("How to change them", Show("help", topic="settings")),),))


def _section_lines(reply: SettingsView) -> list[str]:
    """A line a section, with its categories."""
    by_section: dict[str, list[str]] = {}
    for name, aliases, section in reply.categories:
        by_section.setdefault(section, []).append(_called(name, aliases))
    return [f"{title_text(section)}: {', '.join(names)}" for section, names in by_section.items()]


def _called(name: str, aliases: tuple[str, ...]) -> str:
    """ "Museum (also desk and front desk)"."""
    return f"{title_text(name)} (also {listed(list(aliases))})" if aliases else title_text(name)


def category_added(reply: CategoryAdded, manners: Manners) -> Message:
    """The category, its section and what else it is called."""
    category = reply.category
    also = f", also called {listed(list(category.aliases))}" if category.aliases else ""
    return one_line(f"New category: {title_text(category.name)}, in {category.section}{also}.")


def category_dropped(reply: CategoryDropped, manners: Manners) -> Message:
    """That it is gone."""
    return one_line(f"Category dropped: {title_text(reply.name)}.")


def category_renamed(reply: CategoryRenamed, manners: Manners) -> Message:
    """What it is called now, and that its hours came along."""
    line = f"{title_text(reply.before)} is called {title_text(reply.name)} now, with all its hours."
    old = "" if reply.before.casefold() == reply.name.casefold() else f" “{reply.before}” is still understood."
    return one_line(line + old)


def categories_kept(reply: CategoriesKept, manners: Manners) -> Message:
    """What the hours go to now."""
    return one_line(f"Your hours go to {listed([title_text(name) for name in reply.names])}.")


def jobs_kept(reply: JobsKept, manners: Manners) -> Message:
    """Which categories are paid jobs now."""
    return one_line(f"Paid jobs: {listed([title_text(name) for name in reply.names])}." if reply.names else "No paid jobs.")
