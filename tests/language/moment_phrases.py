"""Phrases for a day and a time together, said on Tuesday 3 March 2026 at noon, looking forward.

Each row is a phrase, its day (- where none is said), its start, its end and its
minutes as far as there are any. No source: common practice. The start of a
part of the day without an hour is our convention: the waking hour for the
morning, 15:00, 20:00, 22:00.
"""

from __future__ import annotations

DAY_AND_TIME = """
tomorrow at 3:30 => 2026-03-04 15:30
tomorrow 8:00am => 2026-03-04 08:00
tmr 3 => 2026-03-04 15:00
3pm on friday => 2026-03-06 15:00
friday 3pm => 2026-03-06 15:00
on friday at 4 => 2026-03-06 16:00
at 7:30 pm on fri, apr 10 => 2026-04-10 19:30
next monday at 9am => 2026-03-09 09:00
wednesday at half past three => 2026-03-04 15:30
day after tomorrow at 6pm => 2026-03-05 18:00
noon tomorrow => 2026-03-04 12:00
tomorrow at midnight => 2026-03-04 00:00
8:30 on the 15th => 2026-03-15 08:30
8pm on the 15 => 2026-03-15 20:00
friday the 13th at 6 pm => 2026-03-13 18:00
april second nine thirty => 2026-04-02 09:30
april 2 10:30 am => 2026-04-02 10:30
april 2nd, 9 am => 2026-04-02 09:00
2/4 at 16h00 => 2026-04-02 16:00
25/4 at 4pm => 2026-04-25 16:00
may/22 (fri) - 11:30 am => 2026-05-22 11:30
9, tomorrow => 2026-03-04 09:00
ten thirty tomorrow => 2026-03-04 10:30
around tomorrow 10am => 2026-03-04 10:00
christmas at 5 => 2026-12-25 17:00
next month at 6pm => 2026-04-01 18:00
tomorrow, 13/04/26, at 7 pm => 2026-04-13 19:00
thursday 9 am (bst) => 2026-03-05 09:00
9am utc+1 thursday => 2026-03-05 09:00
tomorrow at lunch => 2026-03-04 12:00
cob friday => 2026-03-06 17:00
close of business tomorrow => 2026-03-04 17:00
first thing tomorrow => 2026-03-04 06:00
evening of friday => 2026-03-06 20:00
before 5pm tomorrow => 2026-03-04 17:00
tomorrow at eighteen thirty => 2026-03-04 18:30
nine-thirty tomorrow => 2026-03-04 09:30
"""
WRITTEN_BY_MACHINES = """
2026-11-30T08:15:30 => 2026-11-30 08:15
2026-11-30t08:15 => 2026-11-30 08:15
2026-11-30T08:15:30.487+01:00 => 2026-11-30 08:15
2026-11-30T08:15:30-05:30 => 2026-11-30 08:15
2026-11-30T23:45Z => 2026-11-30 23:45
Sat, 21 Mar 2026 11:50:48 -0500 => 2026-03-21 11:50
04/21/2026, 8:00:24pm => 2026-04-21 20:00
19:00, 2026-12-22 => 2026-12-22 19:00
"""
TIME_ALONE = """
at 1:30pm => - 13:30
13h30 => - 13:30
at 3 => - 15:00
around 3 => - 15:00
at 1530 => - 15:30
by eod => - 23:59
before 5pm => - 17:00
at lunch => - 12:00
end of business => - 17:00
11:59 => 2026-03-04 11:59
8am => 2026-03-04 08:00
"""
PARTS_OF_THE_DAY = """
this afternoon => 2026-03-03 15:00
this afternoon at 3 => 2026-03-03 15:00
tonight => 2026-03-03 22:00
tonight at 7 => 2026-03-03 19:00
10, tonight => 2026-03-03 22:00
8 tonight => 2026-03-03 20:00
8pm this evening => 2026-03-03 20:00
tonight at 2am => 2026-03-04 02:00
tomorrow morning => 2026-03-04 06:00
in the morning => 2026-03-04 06:00
first thing in the morning => 2026-03-04 06:00
in the evening => - 20:00
tomorrow morning at 10 => 2026-03-04 10:00
friday evening => 2026-03-06 20:00
friday at 8 in the evening => 2026-03-06 20:00
7:00 on next sunday afternoon => 2026-03-15 19:00
christmas early morning at 9:00 => 2026-12-25 09:00
afternoon at 4 => - 16:00
late afternoon at 4 => - 16:00
end of tomorrow => 2026-03-04 23:59
the end of the day => - 23:59
"""
DISTANCES = """
now => 2026-03-03 12:00
right now => 2026-03-03 12:00
as soon as possible => 2026-03-03 12:00
in half an hour => 2026-03-03 12:30
in an hour and a half => 2026-03-03 13:30
in 2h30 => 2026-03-03 14:30
in about 5 hours => 2026-03-03 17:00
in 1d 2hr 5min => 2026-03-04 14:05
within 3 hours => 2026-03-03 15:00
+15 minutes => 2026-03-03 12:15
-2hr5min => 2026-03-03 09:55
15 minutes ago => 2026-03-03 11:45
15 minutes earlier => 2026-03-03 11:45
12 hours from now => 2026-03-04 00:00
1 day 2 hours later => 2026-03-04 14:00
today in one hour => 2026-03-03 13:00
next hour => 2026-03-03 13:00
the minute after => 2026-03-03 12:01
same time tomorrow => 2026-03-04 12:00
this time next week => 2026-03-10 12:00
2 hours after now => 2026-03-03 14:00
an hour before now => 2026-03-03 11:00
"""
HOURS = """
tomorrow 9-11 => 2026-03-04 09:00 11:00 120
after 3:30pm but before 6pm => - 15:30 18:00 150
tomorrow later than 9 and before 11 => 2026-03-04 09:00 11:00 120
4pm up to 5pm => - 16:00 17:00 60
from now until 3pm => 2026-03-03 12:00 15:00
now - 3pm => 2026-03-03 12:00 15:00
from now for 2 hours => 2026-03-03 12:00 14:00
between seven thirty and nine tonight => 2026-03-03 19:30 21:00 90
starting 1 ending 3 => - 13:00 15:00 120
friday 8pm until late => 2026-03-06 20:00
2026-03-05T09:00 - 2026-03-05T11:00 => 2026-03-05 09:00 11:00 120
26/09 1210-1340 => 2026-09-26 12:10 13:40 90
this thu 9-11am => 2026-03-05 09:00 11:00 120
thursday from 9a to 11a => 2026-03-05 09:00 11:00 120
from 9:30 - 11:00 on thursday => 2026-03-05 09:30 11:00 90
9:30 till 11:00 on thursday => 2026-03-05 09:30 11:00 90
monday 8.30-9.45 => 2026-03-09 08:30 09:45 75
3-4pm => - 15:00 16:00 60
8am - 1pm => 2026-03-04 08:00 13:00 300
tomorrow from 2pm for 90 minutes => 2026-03-04 14:00 15:30 90
for 30' starting from 4pm => - 16:00 16:30 30
7-9 tonight => 2026-03-03 19:00 21:00 120
tomorrow morning from 9 to 11 => 2026-03-04 09:00 11:00 120
december 31, 2026 10:00 pm - 1:00 am => 2026-12-31 22:00 01:00 180
fri 9-5 less 30m => 2026-03-06 09:00 17:00 450
"""
DAY_ALONE = """
tomorrow => 2026-03-04
on friday => 2026-03-06
in 3 days => 2026-03-06
"""
FAMILIES = DAY_AND_TIME + WRITTEN_BY_MACHINES + TIME_ALONE + PARTS_OF_THE_DAY + DISTANCES + HOURS + DAY_ALONE
NO_MOMENT = [
    "",
    "for months",
    "in days",
    "secretary",
    "minutes",
    "I second that",
    "laughing out loud",
    "1 adult",
    "we are separated",
    "25",
    "this is the one",
    "this one",
    "this past one",
    "at single",
    "at a couple of",
    "at pairs",
    "at a few",
    "at dozens",
    "single o'clock",
    "dozens o'clock",
    "rat 6",
    "3 30",
    "three twenty",
    "at 650.650.6500",
    "at 650-650-6500",
    "two sixty a m",
    "pay abc 2000",
    "4a",
    "4a.",
    "a4 a5",
    "palm",
    "Martin Luther King' day",
    "two three",
    "morning",
    "at",
    "on",
    "the",
    "9",
    "2 people",
    "half",
    ", , ,",
]
