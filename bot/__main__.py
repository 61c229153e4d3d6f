"""``python -m bot`` is the same as ``weekwright``."""

from bot.cli import main

if __name__ == "__main__":
    raise SystemExit(main())
