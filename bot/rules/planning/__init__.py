"""The planner: what goes where on a day, and what goes on which day of a week.

``day.plan_day`` takes an ``asked.OpenDay`` and gives a ``day.DayPlan``;
``week.plan_week`` takes a ``week_asked.OpenWeek`` and gives a
``week.WeekPlan``. Both give the exact optimum of the objectives that
``objective`` and ``week_objective`` state; ``spreading.spread`` then spreads
what a week's targets have for themselves. Everything here is pure: times come
in as UTC instants, and what is to be said comes out as data.
"""
