"""What each field of an export means and in which unit: a table's heading is its name, and below it stands one line a field."""

from __future__ import annotations

from typing import Final

FIELDS: Final = """
## people
Who you are and how you want things.
- address: where you chat: the service and your number there
- zone: the time zone, by its name in the IANA database
- joined: the instant at which you first came
- place_name: the place that the weather is asked for, by name
- latitude: of that place, degrees north, WGS 84
- longitude: of that place, degrees east, WGS 84
- waking_start: the local time at which your waking hours start
- waking_end: the local time at which they end
- week_starts: the first day of your week, by its name
- date_order: how you write dates: day-month or month-day
- clock_style: how times of day are written to you: 24-hour or 12-hour
- decimals: how you write decimals: point or comma
- morning_at: the local time of the morning message
- evening_at: the local time of the evening nudge
- recap_at: the local time of the recap on the last day of the week
- free_share: how much of the free hours a plan leaves free, in per cent
- travel_minutes: minutes a plan leaves free before and after each commitment, unless something else was said of it
- step: where the first conversation stands; done once it is over
- decimals: how figures are written: point or comma
- holidays: 1 when public holidays stand beside the days
- look: how pictures look: light or dark
- pictures: 1 when a picture comes with the recap
- quiet_until: the local day until which nothing comes unasked, if you said

## sections
What groups goals and categories.
- name: what it is called

## categories
What hours are spent on.
- name: what it is called
- section: the name of its section
- aliases: other names it answers to, a list
- colour: a colour by its CSS name

## jobs
The categories that are paid work.
- category_id: the category
- employer: who pays
- pay_period: how often: weekly, every two weeks, twice a month, four-weekly or monthly
- week_starts: the first day of its workweek, by its name; nothing where it is yours
- anchor: a local day in a period of two or four weeks, from which the others are counted
- payday_after: how many days after a period's last one it is paid, if you said
- rounding: to how many minutes, and what is rounded; nothing where nothing is
- breaks: unpaid breaks, a list of pairs: after how many minutes of work, and how many minutes long
- overtime: limits by week, by day and on the seventh day, JSON: pairs of minutes and how many times the rate they pay
- currency: what it is paid in, a code of ISO 4217
- remind: 1 when you want a word on the eve of payday
- month_starts: the day of the month on which its monthly periods begin; the last one of a month that is shorter

## job_rates
What an hour of a job pays, from when on.
- job_id: the job
- since: the local day from which it holds
- per_hour: the pay of one hour, decimal, in the job's currency

## handed_in
The pay periods that you handed in, with their figures and the rules they came by.
- job_id: the job
- first: the first local day of the period
- last: its last local day
- at: the instant at which you said so
- days: the days, a list: the local day, the minutes worked, the minutes paid
- rounding: the rounding by which it was handed in, as of a job
- breaks: the break rules by which it was handed in, as of a job
- overtime_minutes: minutes of overtime in the workweeks that end in it
- rounding: the rounding that held then, as in jobs; nothing where nothing was rounded
- breaks: the unpaid breaks that held then, a list of pairs as in jobs
- gross: the estimate of its pay, decimal, if rates were known
- currency: what that is in, a code of ISO 4217

## commitments
What is fixed in time, made with others.
- title: what it is
- starts: the instant at which its first time starts
- ends: the instant at which its first time ends
- zone: the time zone whose clocks it follows when it comes again
- category_id: the category whose hours it plans, if any
- rule: how it comes again, a recurrence rule of RFC 5545, if it does
- major: 1 for a major one, 0 for a minor one
- outdoors: 1 when it is outdoors
- all_day: 1 when it has a day but no time
- except_days: local days on which it was cancelled or moved away, a list
- cancelled: 1 when it was cancelled for good, or when a calendar's event of this title and start was called off
- minutes_before: minutes for the way there, empty where nothing was said
- minutes_after: minutes for the way back, empty where nothing was said

## routines
What you do every day or week.
- title: what it is
- minutes: how long it takes, minutes
- rule: when, a recurrence rule of RFC 5545
- since: the local day from which it holds
- window_start: the local time from which you would rather do it
- window_end: the local time until which you would
- category_id: the category whose hours it plans, if any

## goals
What you want for a week or a month.
- title: what it is
- horizon: week or month
- period: the first local day of that week or month
- section: the name of its section
- category_id: its category, if any
- estimate_minutes: how long it may take, minutes
- state: open, met, carried or dropped
- carried: how many times it was carried so far
- origin_id: the goal that it was carried from

## tasks
What is meant for a day.
- title: what it is
- day: the local day
- number: what it is called on that day
- category_id: its category, if any
- goal_id: the goal it serves, if any
- estimate_minutes: how long it may take, minutes
- state: open, closed or dropped
- pushes: the local days it was pushed from, a list
- outdoors: 1 when it is outdoors
- settled: the local day on which it was closed or dropped

## told_weather
The weather that you were told of a day.
- day: the local day
- low: the lowest temperature, degrees Celsius
- high: the highest temperature, degrees Celsius
- code: the kind of weather, a code of WMO 4677
- wet: 1 when it was to be wet

## silences
That you blocked the bot, while you do.
- since: the instant at which it was noticed
- unsent: how many messages were left unsent

## sick_days
The days on which you were sick.
- day: the local day

## targets
Hours you want in a category.
- category_id: the category
- since: the local day from whose week on it holds
- at_least_minutes: wanted a week at least, minutes
- at_most_minutes: wanted a week at most, minutes

## stints
Hours you spent.
- category_id: on what
- day: the local day they count for
- minutes: how long, without the break, minutes
- starts: the instant they started, if you said
- ends: the instant they ended, if you said
- break_minutes: how long the break was, minutes
- task_ids: the tasks they were spent on, a list
- note: what you said of them

## blocks
Planned hours.
- day: the local day
- starts: the instant they start
- ends: the instant they end
- title: what they are for
- category_id: the category whose hours they plan, if any
- task_id: the task they are for, if any
- routine_id: the routine they are for, if any
- goal_id: the goal they are for, if any
- accepted: 1 when you accepted them, 0 when they were only proposed

## running
The clock that runs, if one does.
- category_id: on what
- starts: the instant you clocked in

## calendars
Calendars of others that you sent or subscribed to.
- name: what it is called
- link: where it is read from, if it is
- paused: 1 when it is not read for now

## calendar_events
Their events, each time an event takes place a row.
- calendar_id: the calendar
- uid: what the calendar calls the event
- recurrence: which of its times this is; empty for an event of one time
- title: what it is
- starts: the instant it starts
- ends: the instant it ends
- all_day: 1 when it has a day but no time
- busy: 1 when it takes your hours
- cancelled: 1 when it does not take place
- place: where it is

## marks
What you said of events by their words.
- words: the words that their titles hold
- category_id: the category they count for, if you said
- minor: 1 for minor, 0 for major, if you said
- outdoors: 1 for outdoors, 0 for indoors, if you said
- minutes_before: minutes for the way there, empty where nothing was said
- minutes_after: minutes for the way back, empty where nothing was said

## calendar_visits
When each calendar was read by its link for the last time.
- calendar_id: the calendar
- at: the instant
- reaches: the local day up to which events were read
- etag: what its server called that version
- last_modified: when its server said it was changed

## sent_files
Long files you sent that are still to be read; they are forgotten once they are.
- key: the message that brought a file which is still to be read
- name: what the file is called
- content: what it holds

## journal_entries
What was done, so that it can be undone.
- at: the instant
- summary: the first line of what you were told
- heard_key: which message of yours it was
- undone_by: the entry that took it back
- undoes: the entry that this one took back
- replaces: the entry that this one took the place of
- by: person when you did it, round when it came by itself

## journal_changes
What each entry changed, row by row.
- entry_id: the entry
- step: the place of the change in it, from 0
- table: the table that was changed
- row_id: the row of that table
- before: the row as it was, JSON; nothing where there was none
- after: the row as it became, JSON; nothing where there is none

## journal_numbers
The last number given in each table, so that none is given twice.
- table: the table
- last: the number

## parcels
Messages owed and sent.
- address: where to
- kind: message, edit or file
- text: what it says
- written: the instant it was written
- bold: which letters are bold: pairs of places in the text, a list
- buttons: its buttons, row by row: label, what a tap does, whether only one may be taken
- silent: 1 when it came without a sound
- round: which round it belongs to, if any
- file_name: what its file is called
- file_bytes: the file, if it is kept
- encloses: what its file shows, if it is made when it is carried
- edits: the parcel that it rewrites
- answers: the journal entry that it tells of
- refuses: 1 when it says that something you wanted was not done
- state: owed, sent or aside
- not_before: the instant before which it is not tried again
- tries: how often it was tried
- carried_as: what the chat service calls it
- reason: why it was put aside
- tried: the instant of the last try
- sent: the instant it was sent

## taps
Which buttons were tapped.
- parcel_id: the message
- row: the row of the button, from 0
- place: its place in the row, from 0
- entry_id: the journal entry that came of it

## rounds
What falls due by itself.
- kind: what it is
- key: its day or name, one of each kind
- due: the instant it is due
- detail: what it is about
- state: waiting, done or missed
- tries: how often it was tried
"""
