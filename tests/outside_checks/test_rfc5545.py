"""RFC 5545 through our reading of calendars: every example of section 3.8.5.3.

Source: B. Desruisseaux (ed.), "Internet Calendaring and Scheduling Core Object
Specification (iCalendar)", RFC 5545, September 2009.
"""

from __future__ import annotations

import re
from datetime import date, timedelta
from zoneinfo import ZoneInfo

import pytest

from tests.outside.calendars_made import NEW_YORK, times

MONTHS = "January February March April May June July August September October November December".split()

# Each starts at 9:00 AM in New York. First day, lines of the event, and the days as the RFC lists them;
# where it ends its list with dots, so does this one.
DAYS_LISTED: list[tuple[str, str, str]] = [
    (
        "19970902",
        "RRULE:FREQ=DAILY;COUNT=10",
        "1997 September 2-11",
    ),
    (
        "19970902",
        "RRULE:FREQ=DAILY;UNTIL=19971224T000000Z",
        "1997 September 2-30; October 1-31; November 1-30; December 1-23",
    ),
    (
        "19970902",
        "RRULE:FREQ=DAILY;INTERVAL=2",
        "1997 September 2,4,6,8,10,12,14,16,18,20,22,24,26,28,30; October "
        "2,4,6,8,10,12,14,16,18,20,22,24,26,28,30; November 1,3,5,7,9,11,13,15,17,19,21,23,25,27,29; December "
        "1,3 ...",
    ),
    (
        "19970902",
        "RRULE:FREQ=DAILY;INTERVAL=10;COUNT=5",
        "1997 September 2,12,22; October 2,12",
    ),
    (
        "19980101",
        "RRULE:FREQ=YEARLY;UNTIL=20000131T140000Z;BYMONTH=1;BYDAY=SU,MO,TU,WE,TH,FR,SA",
        "1998 January 1-31; 1999 January 1-31; 2000 January 1-31",
    ),
    (
        "19980101",
        "RRULE:FREQ=DAILY;UNTIL=20000131T140000Z;BYMONTH=1",
        "1998 January 1-31; 1999 January 1-31; 2000 January 1-31",
    ),
    (
        "19970902",
        "RRULE:FREQ=WEEKLY;COUNT=10",
        "1997 September 2,9,16,23,30; October 7,14,21,28; November 4",
    ),
    (
        "19970902",
        "RRULE:FREQ=WEEKLY;UNTIL=19971224T000000Z",
        "1997 September 2,9,16,23,30; October 7,14,21,28; November 4,11,18,25; December 2,9,16,23",
    ),
    (
        "19970902",
        "RRULE:FREQ=WEEKLY;INTERVAL=2;WKST=SU",
        "1997 September 2,16,30; October 14,28; November 11,25; December 9,23; 1998 January 6,20; February 3,17 ...",
    ),
    (
        "19970902",
        "RRULE:FREQ=WEEKLY;UNTIL=19971007T000000Z;WKST=SU;BYDAY=TU,TH",
        "1997 September 2,4,9,11,16,18,23,25,30; October 2",
    ),
    (
        "19970902",
        "RRULE:FREQ=WEEKLY;COUNT=10;WKST=SU;BYDAY=TU,TH",
        "1997 September 2,4,9,11,16,18,23,25,30; October 2",
    ),
    (
        "19970901",
        "RRULE:FREQ=WEEKLY;INTERVAL=2;UNTIL=19971224T000000Z;WKST=SU;BYDAY=MO,WE,FR",
        "1997 September 1,3,5,15,17,19,29; October 1,3,13,15,17,27,29,31; November 10,12,14,24,26,28; December 8,10,12,22",
    ),
    (
        "19970902",
        "RRULE:FREQ=WEEKLY;INTERVAL=2;COUNT=8;WKST=SU;BYDAY=TU,TH",
        "1997 September 2,4,16,18,30; October 2,14,16",
    ),
    (
        "19970905",
        "RRULE:FREQ=MONTHLY;COUNT=10;BYDAY=1FR",
        "1997 September 5; October 3; November 7; December 5; 1998 January 2; February 6; March 6; April 3; May 1; June 5",
    ),
    (
        "19970905",
        "RRULE:FREQ=MONTHLY;UNTIL=19971224T000000Z;BYDAY=1FR",
        "1997 September 5; October 3; November 7; December 5",
    ),
    (
        "19970907",
        "RRULE:FREQ=MONTHLY;INTERVAL=2;COUNT=10;BYDAY=1SU,-1SU",
        "1997 September 7,28; November 2,30; 1998 January 4,25; March 1,29; May 3,31",
    ),
    (
        "19970922",
        "RRULE:FREQ=MONTHLY;COUNT=6;BYDAY=-2MO",
        "1997 September 22; October 20; November 17; December 22; 1998 January 19; February 16",
    ),
    (
        "19970928",
        "RRULE:FREQ=MONTHLY;BYMONTHDAY=-3",
        "1997 September 28; October 29; November 28; December 29; 1998 January 29; February 26 ...",
    ),
    (
        "19970902",
        "RRULE:FREQ=MONTHLY;COUNT=10;BYMONTHDAY=2,15",
        "1997 September 2,15; October 2,15; November 2,15; December 2,15; 1998 January 2,15",
    ),
    (
        "19970930",
        "RRULE:FREQ=MONTHLY;COUNT=10;BYMONTHDAY=1,-1",
        "1997 September 30; October 1,31; November 1,30; December 1,31; 1998 January 1,31; February 1",
    ),
    (
        "19970910",
        "RRULE:FREQ=MONTHLY;INTERVAL=18;COUNT=10;BYMONTHDAY=10,11,12,13,14,15",
        "1997 September 10-15; 1999 March 10-13",
    ),
    (
        "19970902",
        "RRULE:FREQ=MONTHLY;INTERVAL=2;BYDAY=TU",
        "1997 September 2,9,16,23,30; November 4,11,18,25; 1998 January 6,13,20,27; March 3,10,17,24,31 ...",
    ),
    (
        "19970610",
        "RRULE:FREQ=YEARLY;COUNT=10;BYMONTH=6,7",
        "1997 June 10; July 10; 1998 June 10; July 10; 1999 June 10; July 10; 2000 June 10; July 10; 2001 June 10; July 10",
    ),
    (
        "19970310",
        "RRULE:FREQ=YEARLY;INTERVAL=2;COUNT=10;BYMONTH=1,2,3",
        "1997 March 10; 1999 January 10; February 10; March 10; 2001 January 10; February 10; March 10; 2003 "
        "January 10; February 10; March 10",
    ),
    (
        "19970101",
        "RRULE:FREQ=YEARLY;INTERVAL=3;COUNT=10;BYYEARDAY=1,100,200",
        "1997 January 1; April 10; July 19; 2000 January 1; April 9; July 18; 2003 January 1; April 10; July 19; 2006 January 1",
    ),
    (
        "19970519",
        "RRULE:FREQ=YEARLY;BYDAY=20MO",
        "1997 May 19; 1998 May 18; 1999 May 17 ...",
    ),
    (
        "19970512",
        "RRULE:FREQ=YEARLY;BYWEEKNO=20;BYDAY=MO",
        "1997 May 12; 1998 May 11; 1999 May 17 ...",
    ),
    (
        "19970313",
        "RRULE:FREQ=YEARLY;BYMONTH=3;BYDAY=TH",
        "1997 March 13,20,27; 1998 March 5,12,19,26; 1999 March 4,11,18,25 ...",
    ),
    (
        "19970605",
        "RRULE:FREQ=YEARLY;BYDAY=TH;BYMONTH=6,7,8",
        "1997 June 5,12,19,26; July 3,10,17,24,31; August 7,14,21,28; 1998 June 4,11,18,25; July "
        "2,9,16,23,30; August 6,13,20,27; 1999 June 3,10,17,24; July 1,8,15,22,29; August 5,12,19,26 ...",
    ),
    (
        "19970902",
        "RRULE:FREQ=MONTHLY;BYDAY=FR;BYMONTHDAY=13|EXDATE;TZID=America/New_York:19970902T090000",
        "1998 February 13; March 13; November 13; 1999 August 13; 2000 October 13 ...",
    ),
    (
        "19970913",
        "RRULE:FREQ=MONTHLY;BYDAY=SA;BYMONTHDAY=7,8,9,10,11,12,13",
        "1997 September 13; October 11; November 8; December 13; 1998 January 10; February 7; March 7; April 11; May 9; June 13 ...",
    ),
    (
        "19961105",
        "RRULE:FREQ=YEARLY;INTERVAL=4;BYMONTH=11;BYDAY=TU;BYMONTHDAY=2,3,4,5,6,7,8",
        "1996 November 5; 2000 November 7; 2004 November 2 ...",
    ),
    (
        "19970904",
        "RRULE:FREQ=MONTHLY;COUNT=3;BYDAY=TU,WE,TH;BYSETPOS=3",
        "1997 September 4; October 7; November 6",
    ),
    (
        "19970929",
        "RRULE:FREQ=MONTHLY;BYDAY=MO,TU,WE,TH,FR;BYSETPOS=-2",
        "1997 September 29; October 30; November 27; December 30; 1998 January 29; February 26; March 30 ...",
    ),
    (
        "19970805",
        "RRULE:FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=MO",
        "1997 August 5,10,19,24",
    ),
    (
        "19970805",
        "RRULE:FREQ=WEEKLY;INTERVAL=2;COUNT=4;BYDAY=TU,SU;WKST=SU",
        "1997 August 5,17,19,31",
    ),
    (
        "20070115",
        "RRULE:FREQ=MONTHLY;BYMONTHDAY=15,30;COUNT=5",
        "2007 January 15,30; February 15; March 15,30",
    ),
]

# The same on 2 September 1997, within one day or two: rule, and the times of day that the RFC lists.
# The twenty minutes are printed with dots in the middle: "9:00,9:20,9:40,10:00,10:20, ... 16:00,16:20,16:40".
EVERY_TWENTY_MINUTES = " ".join(f"{hour:02}:{minute:02}" for hour in range(9, 17) for minute in (0, 20, 40))
TIMES_LISTED: list[tuple[str, str]] = [
    ("FREQ=MINUTELY;INTERVAL=15;COUNT=6", "09:00 09:15 09:30 09:45 10:00 10:15"),
    ("FREQ=MINUTELY;INTERVAL=90;COUNT=4", "09:00 10:30 12:00 13:30"),
    ("FREQ=DAILY;BYHOUR=9,10,11,12,13,14,15,16;BYMINUTE=0,20,40", EVERY_TWENTY_MINUTES),
    ("FREQ=MINUTELY;INTERVAL=20;BYHOUR=9,10,11,12,13,14,15,16", EVERY_TWENTY_MINUTES),
    # Erratum 3883 (verified): 17:00 UTC is one in the afternoon in New York, so that the printed 15:00 is not reached;
    # five in the afternoon, which the example means, is 21:00 UTC.
    ("FREQ=HOURLY;INTERVAL=3;UNTIL=19970902T170000Z", "09:00 12:00"),
    ("FREQ=HOURLY;INTERVAL=3;UNTIL=19970902T210000Z", "09:00 12:00 15:00"),
]


def listed(text: str) -> list[date]:
    """The days of a list such as ``1997 September 2-11; October 2``."""
    days: list[date] = []
    year = 0
    for part in text.removesuffix(" ...").split(";"):
        match = re.fullmatch(r"(?:(\d{4}) )?(\w+) ([\d,-]+)", part.strip())
        assert match is not None
        year = int(match[1] or year)
        for run in match[3].split(","):
            first, _, last = run.partition("-")
            days += [date(year, MONTHS.index(match[2]) + 1, day) for day in range(int(first), int(last or first) + 1)]
    return days


@pytest.mark.parametrize(("first_day", "lines", "text"), DAYS_LISTED)
def test_the_days_are_those_of_section_3_8_5_3(first_day: str, lines: str, text: str) -> None:
    expected = listed(text)
    first = date.fromisoformat(first_day)
    last_day = expected[-1] if text.endswith("...") else date(2010, 1, 1)
    found = times(f"DTSTART;TZID={NEW_YORK}:{first_day}T090000|DURATION:PT1H|{lines}", first, last_day)
    starts = [event.starts.astimezone(ZoneInfo(NEW_YORK)) for event in found]
    assert [start.date() for start in starts] == expected
    # Nine in the morning is nine in the morning, in summer (EDT) and in winter (EST).
    assert {start.hour for start in starts} == {9}
    assert all(event.ends - event.starts == timedelta(hours=1) for event in found)


@pytest.mark.parametrize(("rule", "text"), TIMES_LISTED)
def test_the_times_are_those_of_section_3_8_5_3(rule: str, text: str) -> None:
    found = times(f"DTSTART;TZID={NEW_YORK}:19970902T090000|RRULE:{rule}", date(1997, 9, 2), date(1997, 9, 3))
    days = 2 if "COUNT" not in rule and "UNTIL" not in rule else 1
    assert [f"{event.starts.astimezone(ZoneInfo(NEW_YORK)):%H:%M}" for event in found] == text.split() * days
