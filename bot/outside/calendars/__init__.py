"""Calendars of others: fetched by link, read from iCalendar files, told as single times.

``fetching`` asks for a link; ``reading`` turns bytes into events. What they
are is said in ``bot.rules.calendar_events``.

Why they are read here and not by icalendar and recurring-ical-events, which
the tests compare every result with (measured with icalendar 7.3.2,
recurring-ical-events 3.8.2 and python-dateutil 2.9 on one core):

- The rule FREQ=DAILY;BYMONTH=2;BYMONTHDAY=30 keeps dateutil busy for some 6
  seconds, until the year 9999; with FREQ=SECONDLY there are a hundred
  thousand times as many steps. Neither can be stopped once begun.
- 5,000 plain events, a megabyte, take 4.2 seconds of processor time there
  and 0.6 here.
- icalendar remembers the zones that one calendar describes by their names
  for all that are read after it, another person's among them.
- One broken line can make the whole file unreadable there, one event here.
"""
