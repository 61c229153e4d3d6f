"""What Weekwright knows when nobody has set anything: settings, the sample week, a forecast and a calendar, all invented."""
