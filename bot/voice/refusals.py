"""What could not be done, each in one clear sentence."""

from __future__ import annotations

from bot.voice.manners import Manners, listed
from bot.voice.message import Message, Page
from bot.voice.replies import Refusal

SENTENCES = {
    "no such task": "I find no task “{about}” here.",
    "several under a number": "Several open tasks have that number: {about}. Say the words of the one you mean.",
    "nothing to accept": "What you saw last holds no hours to accept; a day's plan does: “plan”, or “plan tomorrow”, shows it.",
    "no tasks open": "No task is open.",
    "no goals open": "No goal of this week is open.",
    "no such category": "I know no category “{about}”.",
    "no such section": "I know no section “{about}”.",
    "no such commitment": "I find no commitment “{about}” from today on.",
    "nothing called off": "I find nothing “{about}” from today on that was called off.",
    "not called off": "That was not called off: {about}.",
    "no such goal": "I find no goal “{about}”.",
    "no hours to correct": "There are no hours to correct yet.",
    "only older hours": "No hours were noted in the last seven days. To set older ones right, name them, for example “correct {about} 2h”.",
    "no hours there": "There are no hours to correct there: {about}.",
    "no time left": "Nothing would be left of those hours, so they stay as they are. “undo” or “no, 2h” changes them.",
    "no such hours": "No such hours are noted: {about}. To see what is, write for example “hours yesterday”.",
    "no start known": "I do not know when those hours began, so an end alone changes nothing. Write both, for example “no, 9-12”.",
    "nothing runs": "No clock is running.",
    "clock in the future": "{about} is still to come, so the clock was left alone.",
    "no time at all": "That is less than a minute, so nothing was logged.",
    "end before start": "The end, {about}, is not after the start, so nothing was logged.",
    "nothing to undo": "There is nothing to take back.",
    "already undone": "That was taken back already. Nothing changed.",
    "changed since": "That has been changed since, so it stays: {about}",
    "carried on since": "A new day has carried that on, so it stays: {about}",
    "bad value": "I could not use that: {about}.",
    "no such setting": "I know no setting “{about}”.",
    "button gone": "That button is no longer of use. Nothing changed.",
    "already chosen": "You chose that already. Nothing changed.",
    "file not read": "I cannot read {about} yet, so nothing changed.",
    "too long": "That message is too long for me to read well; please send it in parts. Nothing changed.",
    "edited since": "You have edited that message since, so what it says now stands: {about}",
    "too long a name": "A name, a title or a note has at most {about} characters. Nothing changed.",
    "went wrong": "Something went wrong with that, so nothing changed. Please send it again.",
    "no later hour": "No later hour of today is free for {about}, so the plan stays.",
    "nothing but break": "That break is no shorter than the time it would come off, so nothing was logged.",
    "nothing planned": "Nothing is planned for {about}, so nothing was logged.",
    "nothing planned today": "Nothing is planned for {about} today, so nothing was logged. Write your hours, for example “2h {about}”.",
    "nothing waits": "No planned hours of today wait to be logged, so nothing was logged. Write what you did, for example “2h {about}”.",
    "not planned": "I find nothing called “{about}” in today's plan.",
    "no routine today": "Today's plan has nothing of {about}.",
    "routine another day": "“{about}” is a routine, which is left out on the day itself: write “skip {about}” then.",
    "not free then": "Those hours are not free: {about}. The plan stays.",
    "calendar there": "I read that link already, as “{about}”. Nothing changed.",
    "no such calendar": "I find no calendar “{about}”.",
    "no link": "“{about}” came as a file, so there is no link to pause. Send the file again to bring it up to date.",
    "name taken": "“{about}” is the name of a category already. Nothing changed.",
    "category used": "“{about}” has hours, goals or plans, so it stays. Nothing changed.",
    "no job": "“{about}” is no job. If it is paid work, write “new job {about}”.",
    "no jobs": "There is no job yet. Write “new job” and its name, for example “new job bakery”.",
    "new job not read": "I do not understand “{about}” there, so nothing changed. "
    "Write for example “new job bakery, employer Crumb, paid monthly from the 21st, 15 an hour”.",
    "job there": "“{about}” is a job already. “job {about}” shows what is settled for it.",
    "no such step": "I cannot round to {about} minutes, only to 5, 6 or 15.",
    "break too long": "A break is shorter than the work it comes after, so nothing changed.",
    "limits fall": "More hours cannot pay less, so the overtime stays as it was.",
    "no payday": "I do not know when that is paid. Write for example “payday {about} 5 days after”.",
    "payday moves": "I count a payday from the end of its period, and that day is not always as far from it. "
    "Write for example “payday {about} 5 days after”.",
    "most below least": "The most is less than the least, so nothing changed.",
    "on the way then": "Those hours are for the way to or from {about}. The plan stays.",
    "no such routine": "I find no routine “{about}”.",
    "no such target": "No hours a week are wanted for {about}, so nothing changed.",
    "which commitment": "I cannot tell which commitment you mean. Name it: allow 20 min each way for dentist.",
    "nothing that day": "Nothing is fixed for {about}.",
    "past commitment": "{about} is over. Nothing changed.",
}


def refusal(reply: Refusal, manners: Manners) -> Message:
    """The sentence for the reason, and what is known instead."""
    page = Page()
    page.line(SENTENCES[reply.reason].format(about=reply.about))
    if reply.known:
        page.line(f"I know {listed(list(reply.known))}.")
    return page.message()
