"""The older name of ``bot.rules.pay.periods``."""

from bot.rules.pay.periods import ANCHOR, pay_period_of

__all__ = ["ANCHOR", "pay_period_of"]
