"""``weekwright run`` without the chat service's pace, which would else be all that is measured.

With BENCHMARK_PROFILE set, the profile of the run is written there.
"""

from __future__ import annotations

import cProfile
import os
import sys
from functools import partial

from bot.channels import telegram
from bot.cli import main
from bot.rounds.pace import UNLIMITED, Pace

if __name__ == "__main__":
    telegram.talk = partial(telegram.talk, pace=Pace(UNLIMITED, UNLIMITED))
    profile = cProfile.Profile()
    if "BENCHMARK_PROFILE" not in os.environ:
        sys.exit(main(["run"]))
    code = profile.runcall(main, ["run"])
    profile.dump_stats(os.environ["BENCHMARK_PROFILE"])
    sys.exit(code)
