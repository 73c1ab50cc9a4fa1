"""Days between moments, without a clock or a calendar library: the record's own timestamps are enough."""


def day_number(at: str) -> float:
    """Days since 1970-01-01 of a timestamp such as `2026-05-03T09:15:00.000Z` or a date such as `2026-05-03`.

    Proleptic Gregorian calendar, era by era of 400 years (ISO 8601). Raises ValueError for anything else.

    >>> day_number("1970-01-02T12:00:00.000Z")
    1.5
    """
    if len(at) < 10 or at[4] != "-" or at[7] != "-":
        raise ValueError("not a date: " + at)
    year, month, day = int(at[:4]), int(at[5:7]), int(at[8:10])
    # Years are counted from March, so that the leap day is the last of its year.
    if month <= 2:
        year -= 1
    era = year // 400
    year_of_era = year - era * 400
    day_of_year = (153 * (month - 3 if month > 2 else month + 9) + 2) // 5 + day - 1
    day_of_era = year_of_era * 365 + year_of_era // 4 - year_of_era // 100 + day_of_year
    days = float(era * 146097 + day_of_era - 719468)
    if len(at) >= 19:
        days += (int(at[11:13]) * 3600 + int(at[14:16]) * 60 + int(at[17:19])) / 86400.0
    return days


def day_or_none(at: object) -> "float | None":
    """As `day_number`; None for anything else."""
    try:
        return day_number(str(at))
    except ValueError:
        return None


def date_of(day: float) -> str:
    """The date of a day number, the other way round: `2026-05-03`.

    >>> date_of(0.9)
    '1970-01-01'
    """
    whole = int(day // 1) + 719468
    era = whole // 146097
    day_of_era = whole - era * 146097
    year_of_era = (day_of_era - day_of_era // 1460 + day_of_era // 36524 - day_of_era // 146096) // 365
    day_of_year = day_of_era - (365 * year_of_era + year_of_era // 4 - year_of_era // 100)
    # Months are counted from March.
    month = (5 * day_of_year + 2) // 153
    in_month = day_of_year - (153 * month + 2) // 5 + 1
    year = year_of_era + era * 400 + (1 if month >= 10 else 0)
    month = month + 3 if month < 10 else month - 9
    return "%04d-%02d-%02d" % (year, month, in_month)
