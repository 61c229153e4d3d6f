"""README shows what the program really prints: each block of text in it is looked for in the played demo week."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[1]


def test_every_message_in_the_readme_is_printed_by_the_demo_week() -> None:
    readme = (ROOT / "README.md").read_text("utf-8")
    blocks = re.findall(r"```text\n(.*?)```", readme, re.S)
    command = [sys.executable, "-m", "bot", "rehearse", "sample_config/week.txt"]
    printed = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=True, timeout=300).stdout
    assert len(blocks) >= 4
    for block in blocks:
        assert block.rstrip("\n") in printed, block
