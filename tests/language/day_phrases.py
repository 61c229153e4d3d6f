"""Phrases for days, said on Tuesday 3 March 2026 by a person whose week starts on Monday and who writes 2/3 for the 2nd of March.

        March 2026             April 2026
  mo tu we th fr sa su    mo tu we th fr sa su
                     1           1  2  3  4  5
   2 [3] 4  5  6  7  8     6  7  8  9 10 11 12
   9 10 11 12 13 14 15

Each row is a phrase, the day that is meant looking forward, and the day that is
meant looking back, where it is another one. The conventions are ours:
"next friday" is the friday of the next calendar week, "this friday" that of
this week, "last friday" the latest one before yesterday, "friday" the nearest.
"""

from __future__ import annotations

RELATIVE = """
today => 2026-03-03
tonight => 2026-03-03
now => 2026-03-03
right now => 2026-03-03
at this time => 2026-03-03
this day => 2026-03-03
this morning => 2026-03-03
tomorrow => 2026-03-04
tomorrow's => 2026-03-04
tmrw => 2026-03-04
tomorow => 2026-03-04
the next day => 2026-03-04
the day after => 2026-03-04
tomorrow morning => 2026-03-04
yesterday => 2026-03-02
yesterday, afternoon => 2026-03-02
last night => 2026-03-02
the day before => 2026-03-02
the day after tomorrow => 2026-03-05
day after tomorrow => 2026-03-05
the day before yesterday => 2026-03-01
"""
NAMES = """
friday => 2026-03-06 2026-02-27
fri => 2026-03-06 2026-02-27
fri. => 2026-03-06 2026-02-27
on friday => 2026-03-06 2026-02-27
by friday => 2026-03-06 2026-02-27
friday evening => 2026-03-06 2026-02-27
tuesday => 2026-03-10 2026-02-24
weds => 2026-03-04 2026-02-25
thurs => 2026-03-05 2026-02-26
wendesday => 2026-03-04 2026-02-25
this friday => 2026-03-06
this monday => 2026-03-09 2026-03-02
next friday => 2026-03-13
next tuesday => 2026-03-10
following friday => 2026-03-13
last friday => 2026-02-27
last monday => 2026-02-23
past monday => 2026-03-02
coming friday => 2026-03-06
this coming monday => 2026-03-09
this past friday => 2026-02-27
friday next week => 2026-03-13
friday of next week => 2026-03-13
next week friday => 2026-03-13
next week on friday => 2026-03-13
monday of this week => 2026-03-02
previous week - monday => 2026-02-23
last week's sunday => 2026-03-01
friday after next => 2026-03-13
friday week => 2026-03-13
friday fortnight => 2026-03-20
friday before last => 2026-02-20
the monday before last => 2026-02-23
in 2 fridays => 2026-03-13
monday the week after next => 2026-03-16
monday the week before last => 2026-02-16
the weekend after next => 2026-03-21
tomorrow week => 2026-03-11
today fortnight => 2026-03-17
earlier today => 2026-03-03
2 sundays from now => 2026-03-15
three mondays later => 2026-03-23
2 fridays ago => 2026-02-20
weekend => 2026-03-07 2026-02-28
this weekend => 2026-03-07
next weekend => 2026-03-14
"""
DATES_WITH_MONTHS = """
2 april => 2026-04-02 2025-04-02
2nd april => 2026-04-02 2025-04-02
2nd of april => 2026-04-02 2025-04-02
the 2nd of april => 2026-04-02 2025-04-02
second of april => 2026-04-02 2025-04-02
april 2 => 2026-04-02 2025-04-02
april 2nd => 2026-04-02 2025-04-02
april the 2nd => 2026-04-02 2025-04-02
april second => 2026-04-02 2025-04-02
apr. 2 => 2026-04-02 2025-04-02
apr-2 => 2026-04-02 2025-04-02
apr/2 => 2026-04-02 2025-04-02
april2 => 2026-04-02 2025-04-02
april twenty-first => 2026-04-21 2025-04-21
april twenty one => 2026-04-21 2025-04-21
3 march => 2026-03-03
2 march => 2027-03-02 2026-03-02
feb 29 => 2028-02-29 2024-02-29
april 2 2027 => 2027-04-02
april 2nd, 2027 => 2027-04-02
2 april 2027 => 2027-04-02
2. apr. 2027 => 2027-04-02
2-apr-27 => 2027-04-02
2/apr/2027 => 2027-04-02
3 aug 96 => 1996-08-03
april 2 '27 => 2027-04-02
july 4th of 1995 => 1995-07-04
april 2nd next year => 2027-04-02
4 july last year => 2025-07-04
next 6th of april => 2026-04-06
april 2027 => 2027-04-01
april of next year => 2027-04-01
april of 2027 => 2027-04-01
the 1st of the month => 2026-04-01 2026-03-01
next year in april => 2027-04-01
the year after next => 2028-01-01
2027, april 2 => 2027-04-02
2027 april 2 => 2027-04-02
april 2nd in 2027 => 2027-04-02
april second two thousand twenty seven => 2027-04-02
april second twenty twenty seven => 2027-04-02
2 april 26 => 2026-04-02
next month on the 21st => 2026-04-21
next month, the 21st => 2026-04-21
the 21st next month => 2026-04-21
in june => 2026-06-01 2025-06-01
"""
DATES_IN_FIGURES = """
2026-04-02 => 2026-04-02
2026 04 02 => 2026-04-02
2026/4/2 => 2026-04-02
2026.04.02 => 2026-04-02
20260402 => 2026-04-02
2026-apr-2 => 2026-04-02
2/4 => 2026-04-02 2025-04-02
31/3 => 2026-03-31 2025-03-31
3/31 => 2026-03-31 2025-03-31
2/4/2027 => 2027-04-02
2/4/27 => 2027-04-02
2-4-27 => 2027-04-02
2.4.27 => 2027-04-02
2.4. => 2026-04-02 2025-04-02
31-10-74 => 1974-10-31
10 31 1974 => 1974-10-31
9/2027 => 2027-09-01
2024-13-01 => 2024-01-13
"""
DAYS_OF_A_MONTH = """
the 20th => 2026-03-20 2026-02-20
20th => 2026-03-20 2026-02-20
the second => 2026-04-02 2026-03-02
the twenty first => 2026-03-21 2026-02-21
the 31st => 2026-03-31 2026-01-31
the 20th of next month => 2026-04-20
20 of next month => 2026-04-20
20th of the current month => 2026-03-20
1st of last month => 2026-02-01
the first of the month => 2026-04-01 2026-03-01
"""
NAMED_DATES = """
friday, april 10 => 2026-04-10
fri 10 april => 2026-04-10
friday the 10th of april => 2026-04-10
fri 10/4 => 2026-04-10
this friday (mar-6) => 2026-03-06
10/4 (fri) => 2026-04-10
friday the 13th => 2026-03-13 2026-02-13
friday, the 13th => 2026-03-13 2026-02-13
sunday 15 => 2026-03-15 2026-02-15
thursday 30 => 2026-04-30
friday 6.3. => 2026-03-06
fri, jul 9 => 2027-07-09 2025-07-09
monday 2 march => 2026-03-02
tomorrow, 4 march => 2026-03-04 2025-03-04
"""
PLACES = """
first friday of the month => 2026-03-06
the first friday in this month => 2026-03-06
second monday of last month => 2026-02-09
first tuesday in october => 2026-10-06 2025-10-07
last friday of march => 2026-03-27 2025-03-28
second sunday => 2026-03-08 2026-02-08
the 5th last day of may => 2026-05-27 2025-05-27
second-to-last friday of may => 2026-05-22 2025-05-23
last day in october 2027 => 2027-10-31
4th day of last month => 2026-02-04
1st week of april on friday => 2026-04-03 2025-04-04
end of the month => 2026-03-31
end of next month => 2026-04-30
beginning of next week => 2026-03-09
end of the week => 2026-03-08
start of april => 2026-04-01 2025-04-01
mid april => 2026-04-15 2025-04-15
end of the year => 2026-12-31
last day of the year => 2026-12-31
first day of next week => 2026-03-09
eom => 2026-03-31
next week => 2026-03-09
the week after next => 2026-03-16
next month => 2026-04-01
the month after next => 2026-05-01
next year => 2027-01-01
"""
DISTANCES = """
in 3 days => 2026-03-06
in three days => 2026-03-06
in a week => 2026-03-10
in a fortnight => 2026-03-17
in 2 weeks' time => 2026-03-17
within 10 days => 2026-03-13
after 3 days => 2026-03-06
+3 days => 2026-03-06
3 days from now => 2026-03-06
10 days from today => 2026-03-13
a week hence => 2026-03-10
3w later => 2026-03-24
3mo later => 2026-06-03
in 1 month => 2026-04-03
1 month, 21 days ago => 2026-01-13
2 years 21 days later => 2028-03-24
3 weeks ago => 2026-02-10
a few days ago => 2026-02-28
a couple of days ago => 2026-03-01
a year ago => 2025-03-03
next 2 weeks => 2026-03-17
the next 3 days => 2026-03-06
in the next 3 days => 2026-03-06
2 upcoming days => 2026-03-05
last 2 weeks => 2026-02-17
"""
COUNTED_FROM_A_DAY = """
a week on thursday => 2026-03-12 2026-03-05
a week from thursday => 2026-03-12 2026-03-05
two weeks after yesterday => 2026-03-16
2 days before yesterday => 2026-02-28
a week tomorrow => 2026-03-11
a week today => 2026-03-10
three weeks from tmrw => 2026-03-25
the day after christmas => 2026-12-26 2025-12-26
3 days before march 10th => 2026-03-07 2025-03-07
two months after next friday => 2026-05-13
the friday before easter => 2026-04-03 2025-04-18
monday two weeks from now => 2026-03-16
thursday in 2 weeks => 2026-03-19
in 2 weeks on thursday => 2026-03-19
"""
FEASTS = """
christmas => 2026-12-25 2025-12-25
xmas eve => 2026-12-24 2025-12-24
new year's eve => 2026-12-31 2025-12-31
new year's day => 2027-01-01 2026-01-01
valentine's day => 2027-02-14 2026-02-14
halloween 2027 => 2027-10-31
easter => 2026-04-05 2025-04-20
last easter => 2025-04-20
easter monday next year => 2027-03-29
good friday => 2026-04-03 2025-04-18
thanksgiving => 2026-11-26 2025-11-27
mother's day => 2026-05-10 2025-05-11
"""
FAMILIES = (
    RELATIVE
    + NAMES
    + DATES_WITH_MONTHS
    + DATES_IN_FIGURES
    + DAYS_OF_A_MONTH
    + NAMED_DATES
    + PLACES
    + DISTANCES
    + COUNTED_FROM_A_DAY
    + FEASTS
)
WHERE_ONLY_A_DAY_STANDS = """
15 => 2026-03-15
2-4 => 2026-04-02
2 - 4 => 2026-04-02
7.6 => 2026-06-07
1 month => 2026-04-03
3 weeks => 2026-03-24
10d => 2026-03-13
june => 2026-06-01
sept. => 2026-09-01
"""
