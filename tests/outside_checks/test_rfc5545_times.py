"""What RFC 5545 says of days, times and lengths, through our reading of calendars.

Source: B. Desruisseaux (ed.), "Internet Calendaring and Scheduling Core Object
Specification (iCalendar)", RFC 5545, September 2009; the sections are named
below. Where it gives no figures, they follow from the clocks of New York,
which went on from 02:00 EST to 03:00 EDT on 8 March 2026.
"""

from __future__ import annotations

from datetime import date

from tests.outside.calendars_made import NEW_YORK, at, calendar, read, times

# Section 3.3.5, the three forms of a time.


def test_a_time_without_a_zone_is_on_the_clock_of_whoever_reads_it() -> None:
    lines = "DTSTART:19980118T230000"
    assert times(lines, date(1998, 1, 18), date(1998, 1, 18), "Europe/Brussels")[0].starts == at("1998-01-18 22:00")
    assert times(lines, date(1998, 1, 18), date(1998, 1, 18), NEW_YORK)[0].starts == at("1998-01-19 04:00")


def test_the_same_moment_may_be_written_in_three_ways() -> None:
    ways = ["DTSTART:19970714T133000", "DTSTART:19970714T173000Z", f"DTSTART;TZID={NEW_YORK}:19970714T133000"]
    assert {times(way, date(1997, 7, 14), date(1997, 7, 14))[0].starts for way in ways} == {at("1997-07-14 17:30")}


def test_a_time_with_an_offset_is_no_time() -> None:
    found = read(calendar("DTSTART:20260319T230000-0800"))
    assert (found.events, found.unreadable) == ((), 1)


def test_of_a_repeated_hour_it_is_the_first() -> None:
    found = times(f"DTSTART;TZID={NEW_YORK}:20071104T013000", date(2007, 11, 4), date(2007, 11, 4))
    assert found[0].starts == at("2007-11-04 05:30")


def test_a_time_that_the_clock_leaves_out_is_read_with_the_offset_before() -> None:
    found = times(f"DTSTART;TZID={NEW_YORK}:20070311T023000", date(2007, 3, 11), date(2007, 3, 11))
    assert found[0].starts == at("2007-03-11 07:30")


# Section 3.3.6: days go by the clock, hours are exact. The clocks of New York went on by an hour on 8 March 2026.


def test_a_day_lasts_from_nine_to_nine_and_twenty_four_hours_do_not() -> None:
    start = f"DTSTART;TZID={NEW_YORK}:20260307T090000"
    by_clock = times(f"{start}|DURATION:P1D", date(2026, 3, 7), date(2026, 3, 7))
    exact = times(f"{start}|DURATION:PT24H", date(2026, 3, 7), date(2026, 3, 7))
    assert (by_clock[0].ends, exact[0].ends) == (at("2026-03-08 13:00"), at("2026-03-08 14:00"))


# Section 3.6.1, how long an event lasts.


def test_the_end_of_whole_days_is_the_day_after() -> None:
    found = times("DTSTART;VALUE=DATE:20070628|DTEND;VALUE=DATE:20070709", date(2007, 6, 1), date(2007, 7, 31))
    assert [(event.starts, event.ends, event.all_day) for event in found] == [(at("2007-06-28 04:00"), at("2007-07-09 04:00"), True)]


def test_a_day_without_an_end_lasts_one_day_and_a_time_without_an_end_takes_none() -> None:
    day = times("DTSTART;VALUE=DATE:19971102|RRULE:FREQ=YEARLY", date(1998, 11, 1), date(1998, 11, 30))
    moment = times("DTSTART:19971102T120000Z", date(1997, 11, 1), date(1997, 11, 30))
    assert [(event.starts, event.ends) for event in day] == [(at("1998-11-02 05:00"), at("1998-11-03 05:00"))]
    assert [(event.starts, event.ends) for event in moment] == [(at("1997-11-02 12:00"), at("1997-11-02 12:00"))]


# Section 3.8.4.4, changed recurrences.


def test_a_change_of_this_and_the_future_moves_all_later_ones_by_as_much() -> None:
    series = "DTSTART:19960113T120000Z|DURATION:PT1H|RRULE:FREQ=WEEKLY;COUNT=4"
    change = "RECURRENCE-ID;RANGE=THISANDFUTURE:19960120T120000Z|DTSTART:19960120T143000Z|DURATION:PT2H"
    found = times(f"UID:1@example.org|{series}|END:VEVENT|BEGIN:VEVENT|UID:1@example.org|{change}", date(1996, 1, 1), date(1996, 3, 1))
    assert [(event.recurrence, event.starts, event.ends) for event in found] == [
        ("19960113T120000Z", at("1996-01-13 12:00"), at("1996-01-13 13:00")),
        ("19960120T120000Z", at("1996-01-20 14:30"), at("1996-01-20 16:30")),
        ("19960127T120000Z", at("1996-01-27 14:30"), at("1996-01-27 16:30")),
        ("19960203T120000Z", at("1996-02-03 14:30"), at("1996-02-03 16:30")),
    ]


# Section 3.8.2.7.


def test_a_transparent_event_blocks_no_time() -> None:
    day = date(1997, 11, 2)
    assert not times("DTSTART:19971102T120000Z|TRANSP:TRANSPARENT", day, day)[0].busy
    assert times("DTSTART:19971102T120000Z|TRANSP:OPAQUE", day, day)[0].busy
    assert times("DTSTART:19971102T120000Z", day, day)[0].busy
