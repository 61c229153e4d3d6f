"""Pictures and the printable page: which one is meant, and the values that it is drawn from."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta

from bot.actions.agenda import agenda
from bot.actions.naming import category_named, category_names
from bot.actions.tally import planned_and_spent
from bot.actions.today import planned_week, this_week, today
from bot.language.meaning import Paper, Show
from bot.pictures.views import CategoryShown, CategoryWeeks, HoursView, Loose, Piece, WeekView
from bot.rules.local_time import ONE_DAY
from bot.rules.planned import Planned
from bot.rules.weeks import DAYS_A_WEEK, first_of_week
from bot.voice.replies import CategoryHours, Enclosing, HoursPictured, PageMade, Reply, WeekPictured
from storage.desk import Desk
from storage.records import Stint

USUAL_WEEKS = 8
MOST_WEEKS = 53
ONE_WEEK = timedelta(days=DAYS_A_WEEK)


def show_week_picture(desk: Desk, said: Show) -> Reply:
    """The week of the day asked for, by default this one."""
    return week_pictured(desk, _week_of(desk, said, this_week(desk)))


def week_pictured(desk: Desk, first: date) -> Enclosing:
    """The picture of the week that starts with ``first``."""
    last = first + ONE_WEEK - ONE_DAY
    hours = planned_and_spent(desk, first, last)
    words = WeekPictured(first, last, sum(each.planned for each in hours), sum(each.spent for each in hours))
    return Enclosing(words, Show("week_picture", first=first, last=last), f"week-{first}.png")


def recap_picture(desk: Desk, day: date) -> Enclosing | None:
    """The picture of the week that ends with ``day``; None when the person wants none, or no hours were noted."""
    first = day - ONE_WEEK + ONE_DAY
    return week_pictured(desk, first) if desk.person.pictures and desk.stints.minutes_by_category(first, day) else None


def show_hours_picture(desk: Desk, said: Show) -> Reply:
    """The weeks asked for, by default the last eight, this one included; a year of them at most, and none from before the first hours."""
    first, last = _weeks_of(desk, said)
    category = category_named(desk, said.category).name if said.category else None
    words = HoursPictured(first, last, (last - first + ONE_DAY) // ONE_WEEK, category)
    return Enclosing(words, Show("hours_picture", first=first, last=last, category=category), f"hours-{first}.png")


def show_week_page(desk: Desk, said: Show) -> Reply:
    """The week of the day asked for, by default the one that planning is about."""
    first = _week_of(desk, said, planned_week(desk))
    last = first + ONE_WEEK - ONE_DAY
    form: Paper = "letter" if said.form == "letter" else "a4"
    return Enclosing(PageMade(first, last, form), Show("week_page", first=first, last=last, form=form), f"week-page-{first}.pdf")


def _week_of(desk: Desk, said: Show, usual: date) -> date:
    asked = said.day or said.first
    return usual if asked is None else first_of_week(asked, desk.person.week_starts)


def _weeks_of(desk: Desk, said: Show) -> tuple[date, date]:
    """First and last day of whole weeks. "Last 12 weeks" are twelve with this one, not thirteen that twelve weeks of days touch."""
    starts = desk.person.week_starts
    last_asked = said.last or today(desk)
    first_asked = said.first or this_week(desk) - (USUAL_WEEKS - 1) * ONE_WEEK
    last_week = first_of_week(last_asked, starts)
    if last_asked == today(desk) and (last_asked - first_asked + ONE_DAY) % ONE_WEEK == timedelta(0):
        first_asked = last_week - (last_asked - first_asked) // ONE_WEEK * ONE_WEEK
    first = max(first_of_week(first_asked, starts), last_week - (MOST_WEEKS - 1) * ONE_WEEK)
    begun = desk.stints.first_day()
    if begun is not None and begun < last_week + ONE_WEEK:
        first = max(first, first_of_week(begun, starts))
    return first, last_week + ONE_WEEK - ONE_DAY


def week_view(desk: Desk, first: date) -> WeekView:
    """What the week picture is drawn from: commitments and accepted blocks beside stints, by hour, and the sums by category."""
    last, names = first + ONE_WEEK - ONE_DAY, category_names(desk)
    # What began on the eve may reach into the first day.
    stints = desk.stints.between(first - ONE_DAY, last)
    person = desk.person
    return WeekView(
        first,
        person.zone,
        _categories(desk, planned_and_spent(desk, first, last)),
        _planned(desk, first - ONE_DAY, last, names),
        tuple(_spent(stint, names) for stint in stints if stint.starts is not None),
        _loose([stint for stint in stints if stint.starts is None and stint.day >= first], names),
        person.waking_start,
        person.waking_end,
    )


def _categories(desk: Desk, hours: tuple[CategoryHours, ...]) -> tuple[CategoryShown, ...]:
    """Every category, so that each keeps its colour from week to week."""
    shown = {each.name: CategoryShown(each.name, each.colour) for each in desk.categories.all()}
    for each in hours:
        shown[each.category] = replace(
            shown[each.category], planned=each.planned, spent=each.spent, at_least=each.at_least, at_most=each.at_most
        )
    return tuple(shown.values())


def _planned(desk: Desk, first: date, last: date, names: dict[int, str]) -> tuple[Piece, ...]:
    fixed: list[Planned] = [each for each in agenda(desk, first, last) if each.commitment.blocks_hours]
    blocks = [each for each in desk.blocks.between(first, last) if each.accepted]
    return tuple(Piece(each.title, names.get(each.category_id or 0), each.starts, each.ends) for each in (*fixed, *blocks))


def _spent(stint: Stint, names: dict[int, str]) -> Piece:
    name = names[stint.category_id]
    assert stint.starts is not None
    return Piece(name, name, stint.starts, stint.ends or stint.starts + timedelta(minutes=stint.minutes + stint.break_minutes))


def _loose(stints: list[Stint], names: dict[int, str]) -> tuple[Loose, ...]:
    """Hours without times, a day and category at a time."""
    minutes: dict[tuple[date, str], int] = {}
    for stint in stints:
        key = stint.day, names[stint.category_id]
        minutes[key] = minutes.get(key, 0) + stint.minutes
    return tuple(Loose(name, day, count) for (day, name), count in minutes.items())


def hours_view(desk: Desk, first: date, last: date, category: str | None) -> HoursView:
    """What the picture of hours over weeks is drawn from: whole weeks, oldest first; categories that had hours or have a target."""
    weeks = tuple(first + number * ONE_WEEK for number in range((last - first + ONE_DAY) // ONE_WEEK))
    spent = [desk.stints.minutes_by_category(week, week + ONE_WEEK - ONE_DAY) for week in weeks]
    targets = {each.category_id: each for each in desk.targets.in_force(weeks[-1])}
    rows = []
    for each in desk.categories.all():
        minutes = tuple(week.get(each.id, 0) for week in spent)
        target = targets.get(each.id)
        if category in (None, each.name) and (any(minutes) or target or category):
            least, most = (target.at_least_minutes, target.at_most_minutes) if target else (None, None)
            rows.append(CategoryWeeks(each.name, minutes, least, most))
    return HoursView(weeks, tuple(rows), tuple((each.name, each.colour) for each in desk.categories.all()))
