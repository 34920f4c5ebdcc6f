"""Dates in words."""

from datetime import date

MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
DAYS = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


def day_words(on: date) -> str:
    """Write a date as people say it: `Tue 14 April`."""
    return f"{DAYS[on.weekday()]} {on.day} {MONTHS[on.month - 1]}"
