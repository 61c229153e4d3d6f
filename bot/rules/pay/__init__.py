"""From stints to a timesheet: periods, rounding, breaks, overtime, and what it is likely to pay."""
