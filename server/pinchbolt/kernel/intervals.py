"""What is done again and again, and after how much. All shipped intervals are common practice; a maker's figure wins.

A workshop, or a bike, sets its own with an `interval` entry of the same `due`.
"""

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Body = dict[str, Any]


def _interval(
    due: str,
    title: str,
    level: str,
    *,
    km: "float | None" = None,
    hours: "float | None" = None,
    days: "float | None" = None,
    why: str = "",
) -> "Body":
    """`level` says what being overdue means: `stop` (do not ride), `care`, or `fine` (worth doing)."""
    return {
        "due": due,
        "title": title,
        "level": level,
        "km": km,
        "hours": hours,
        "days": days,
        "why": why,
        "source": "common practice",
    }


SEALANT_LASTS = {"cool": 180.0, "mild": 120.0, "hot": 60.0}
"""Days until sealant wants topping up, by the climate the bike lives in: common practice."""

USUAL_CLIMATE = "mild"
"""The climate taken where none is said."""

SEALANT_DRIES = "It dries; a dry tyre does not seal."

SEALANT_WHY = (
    SEALANT_DRIES
    + " For a "
    + USUAL_CLIMATE
    + " place; "
    + ", ".join([str(int(SEALANT_LASTS[place])) + " days in a " + place + " one" for place in ("cool", "hot")])
    + ": the bench's Sealant, put on the bike, says which."
)

INTERVALS: "list[Body]" = [
    _interval("sealant", "Sealant topped up", "care", days=SEALANT_LASTS[USUAL_CLIMATE], why=SEALANT_WHY),
    _interval("hanger", "Hanger gauged", "fine", km=3000, days=365),
    _interval("bearings", "Bearings looked at", "fine", km=5000, days=365, why="Headset, hubs, bottom bracket."),
    _interval("bleed", "Brake fluid changed", "care", days=365, why="Old fluid takes up water, or darkens and fades."),
    _interval("charge", "Battery charged", "care", days=45),
    _interval("full-service", "Full service", "fine", km=6000, days=365),
]

# A joint is tightened once more after the first ride, or after this many km at the latest.
RE_TORQUE_KM = 100.0

# Readings that run to a limit: the measure, what it is called, which way it wears, the limit taken when the part has none
# marked (None: without a mark there is no limit; a chain's goes by its speeds), and the marking's name.
WEARS: "list[tuple[str, str, str, float | None, str]]" = [
    ("chain_elongation", "Chain", "up", 0.5, "chain_limit"),
    ("rotor_front", "Rotor, front", "down", None, "rotor_min_front"),
    ("rotor_rear", "Rotor, rear", "down", None, "rotor_min_rear"),
    ("pad_front", "Pads, front", "down", 0.5, "pad_min_front"),
    ("pad_rear", "Pads, rear", "down", 0.5, "pad_min_rear"),
    ("tread_front", "Tread, front", "down", None, "tread_min_front"),
    ("tread_rear", "Tread, rear", "down", None, "tread_min_rear"),
    ("charge", "Battery charge", "down", 20.0, "charge_min"),
]


def for_climate(interval: "Body", climate: object) -> "Body":
    """Sealant's interval in the climate that the calculation `sealant`, put on the bike, was made with; others as they are."""
    if interval["due"] != "sealant":
        return interval
    known = isinstance(climate, str) and climate in SEALANT_LASTS
    place = str(climate) if known else USUAL_CLIMATE
    found = dict(interval)
    found["days"] = SEALANT_LASTS[place]
    found["source"] = str(interval["source"]) + ", " + place + " place" + ("" if known else " assumed")
    if known:
        found["why"] = SEALANT_DRIES + " For a " + place + " place, as the bench's Sealant was put on this bike."
    return found


def intervals_of(climate: object) -> "list[Body]":
    """The shipped intervals as they count for one bike, which lives in `climate` (None: nobody said)."""
    return [for_climate(one, climate) for one in INTERVALS]


def own_jobs(own: "list[Body]") -> "list[Body]":
    """Intervals of jobs that are the workshop's (or the bike's) own invention, each once."""
    known = [str(i["due"]) for i in INTERVALS]
    jobs: "list[Body]" = []
    for one in own:
        job = str(one.get("due"))
        if job not in known:
            known.append(job)
            made = _interval(job, job[:1].upper() + job[1:].replace("-", " "), "care")
            made["source"] = "the workshop's own"
            jobs.append(made)
    return jobs
