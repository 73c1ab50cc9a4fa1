"""The rules of fit, as data: which two kinds meet, which dimensions are needed, and how they are judged.

A judge takes the two interfaces and gives (result, reason, adaptor). It is called only when the needed dimensions are there.
"""

from .plain import lowered
from .working import shown

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable
    from typing import Any

    Body = dict[str, Any]
    Judged = tuple[str, str, str]

COMMON = "common practice"
STEP = 0.05  # mm: dimensions of one standard written by different makers differ by less


def _near(a: float, b: float, by: float = STEP) -> bool:
    return abs(a - b) <= by + 1e-9


def _mm(value: float) -> str:
    return shown(value) + " mm"


def _fits(reason: str) -> "Judged":
    return ("fits", reason, "")


def _not(reason: str) -> "Judged":
    return ("does-not-fit", reason, "")


def _with(adaptor: str, reason: str) -> "Judged":
    return ("fits-with", reason, adaptor)


def plain_text(text: object) -> str:
    """A spline, thread or shape in comparable form: lower case, × for x, no stray blanks."""
    return lowered(text).replace("\u00d7", "x").replace(" x ", "x")


def _same_text(field: str, noun: str) -> "Callable[[Body, Body], Judged]":
    def judge(a: "Body", b: "Body") -> "Judged":
        if plain_text(a[field]) == plain_text(b[field]):
            return _fits("Both " + noun + " " + str(a[field]) + ".")
        return _not("The " + noun + "s differ: " + str(a[field]) + " and " + str(b[field]) + ".")

    return judge


def _same_size(field: str, noun: str, other: "str | None" = None, by: float = STEP) -> "Callable[[Body, Body], Judged]":
    def judge(a: "Body", b: "Body") -> "Judged":
        one, two = a[field], b[other or field]
        if _near(one, two, by):
            return _fits(noun + " " + _mm(one) + " on both.")
        return _not(noun + " " + _mm(one) + " against " + _mm(two) + ".")

    return judge


def _speeds(a: "Body", b: "Body") -> "Judged":
    if a["speeds"] == b["speeds"]:
        return _fits("Both " + str(a["speeds"]) + "-speed.")
    return _not(str(a["speeds"]) + "-speed against " + str(b["speeds"]) + "-speed.")


def _pull(a: "Body", b: "Body") -> "Judged":
    speeds = _speeds(a, b)
    if speeds[0] != "fits":
        return speeds
    pull = _same_text("pull", "pull")(a, b)
    return pull if pull[0] != "fits" else _fits(speeds[1] + " Pull alike.")


def _shell(a: "Body", b: "Body") -> "Judged":
    if not _near(a["width"], b["width"], 0.5):
        return _not("Shell " + _mm(a["width"]) + " wide, bottom bracket for " + _mm(b["width"]) + ".")
    if a.get("thread") is not None and b.get("thread") is not None:
        return _same_text("thread", "thread")(a, b)
    if a.get("bore") is not None and b.get("bore") is not None:
        return _same_size("bore", "Bore")(a, b)
    return _not("One is threaded, the other pressed in.")


def _spindle(a: "Body", b: "Body") -> "Judged":
    seat, spindle = a["diameter"], b["diameter"]
    if _near(seat, spindle):
        return _fits("Spindle " + _mm(spindle) + " in its seat.")
    if spindle < seat:
        return _with(
            "reducing sleeves " + _mm(seat) + " to " + _mm(spindle), "Spindle " + _mm(spindle) + " is thinner than the seat."
        )
    return _not("Spindle " + _mm(spindle) + " does not pass a seat of " + _mm(seat) + ".")


def _largest_cog(a: "Body", b: "Body") -> "Judged":
    if a["cog_max"] <= b["cog_max"]:
        return _fits("Largest cog " + str(a["cog_max"]) + ", the mech takes " + str(b["cog_max"]) + ".")
    return _not("Largest cog " + str(a["cog_max"]) + ", the mech takes " + str(b["cog_max"]) + " at most.")


def _ring(a: "Body", b: "Body") -> "Judged":
    if a["bolts"] != b["bolts"]:
        return _not(str(a["bolts"]) + " bolts against " + str(b["bolts"]) + ".")
    circle = _same_size("circle", "Bolt circle", by=0.1)(a, b)
    if circle[0] == "fits" and a.get("shape") and b.get("shape") and plain_text(a["shape"]) != plain_text(b["shape"]):
        return _not("Same bolt circle, but the arms are spaced otherwise: " + str(a["shape"]) + " and " + str(b["shape"]) + ".")
    return circle


CUPS = ("upper", "lower")


def _headset(a: "Body", b: "Body") -> "Judged":
    for end in CUPS:
        if plain_text(a[end + "_type"]) != plain_text(b[end + "_type"]):
            return _not("The " + end + " cup is " + str(b[end + "_type"]) + ", the head tube " + str(a[end + "_type"]) + ".")
        if not _near(a[end + "_bore"], b[end + "_bore"], 0.1):
            return _not("The " + end + " bore is " + _mm(a[end + "_bore"]) + ", the headset's " + _mm(b[end + "_bore"]) + ".")
    return _fits("Both ends: type and bore alike.")


def _steerer_in_headset(a: "Body", b: "Body") -> "Judged":
    if not _near(a["diameter"], b["steerer"], 0.1):
        return _not("Steerer " + _mm(a["diameter"]) + ", headset for " + _mm(b["steerer"]) + ".")
    if _near(a["crown"], b["crown"], 0.1):
        return _fits("Steerer " + _mm(a["diameter"]) + ", crown seat " + _mm(a["crown"]) + ".")
    if a["crown"] < b["crown"]:
        return _with(
            "a crown race reducer " + _mm(b["crown"]) + " to " + _mm(a["crown"]), "The crown seat is smaller than the race."
        )
    return _not("Crown seat " + _mm(a["crown"]) + " is larger than the race's " + _mm(b["crown"]) + ".")


def _shimmed(noun: str) -> "Callable[[Body, Body], Judged]":
    def judge(a: "Body", b: "Body") -> "Judged":
        outer, inner = a["diameter"], b["diameter"]
        if _near(outer, inner):
            return _fits(noun + " " + _mm(inner) + " on both.")
        if inner < outer:
            return _with("a shim " + _mm(outer) + " to " + _mm(inner), noun + " " + _mm(inner) + " in " + _mm(outer) + ".")
        return _not(noun + " " + _mm(inner) + " does not enter " + _mm(outer) + ".")

    return judge


def _inside(a: "Body", b: "Body") -> "Judged":
    if b["diameter"] <= a["bore"]:
        return _fits(_mm(b["diameter"]) + " in a bore of " + _mm(a["bore"]) + ".")
    return _not(_mm(b["diameter"]) + " does not enter a bore of " + _mm(a["bore"]) + ".")


def _rails(a: "Body", b: "Body") -> "Judged":
    if _near(a["width"], b["width"], 0.2) and _near(a["height"], b["height"], 0.2):
        return _fits("Rails " + shown(a["width"]) + " \u00d7 " + _mm(a["height"]) + " in their clamp.")
    return _not(
        "Rails "
        + shown(a["width"])
        + " \u00d7 "
        + _mm(a["height"])
        + ", clamp for "
        + shown(b["width"])
        + " \u00d7 "
        + _mm(b["height"])
        + ": a clamp of the wrong shape crushes the rail."
    )


def _axle(a: "Body", b: "Body") -> "Judged":
    for field, noun, by in (("length", "Width", 0.5), ("diameter", "Axle", 0.1), ("pitch", "Thread pitch", 0.01)):
        if not _near(a[field], b[field], by):
            return _not(noun + " " + _mm(a[field]) + " against " + _mm(b[field]) + ".")
    return _fits(_mm(a["diameter"]) + " \u00d7 " + _mm(a["length"]) + ", pitch " + _mm(a["pitch"]) + ".")


def _hub(a: "Body", b: "Body") -> "Judged":
    for field, noun, by in (("length", "Width", 0.5), ("diameter", "Axle", 0.1)):
        if not _near(a[field], b[field], by):
            return _not(noun + " " + _mm(a[field]) + " against the hub's " + _mm(b[field]) + ".")
    return _fits("Hub " + _mm(b["length"]) + ", axle " + _mm(b["diameter"]) + ".")


def _rotor(a: "Body", b: "Body") -> "Judged":
    hub, rotor = plain_text(a["mount"]), plain_text(b["mount"])
    if hub == rotor:
        return _fits("Both " + str(a["mount"]) + ".")
    if "spline" in hub and "six" in rotor:
        return _with("an adaptor from splined lockring to six-bolt", "A six-bolt rotor on a splined hub.")
    return _not("Rotor for " + str(b["mount"]) + ", hub with " + str(a["mount"]) + "; there is no adaptor this way.")


def _rotor_size(a: "Body", b: "Body") -> "Judged":
    least, most, size = a["rotor_min"], a["rotor_max"], b["diameter"]
    if size > most:
        return _not("Rotor " + _mm(size) + ", the mount allows " + _mm(most) + " at most.")
    if _near(size, least, 0.5):
        return _fits("Rotor " + _mm(size) + " without an adaptor.")
    if size > least:
        return _with("a caliper adaptor for " + _mm(size), "The mount is made for " + _mm(least) + ".")
    return _not("Rotor " + _mm(size) + " is smaller than the mount's least, " + _mm(least) + ".")


def _fluid(a: "Body", b: "Body") -> "Judged":
    if plain_text(a["fluid"]) == plain_text(b["fluid"]):
        return _fits("Both for " + str(a["fluid"]) + " fluid.")
    return _not("Lever for " + str(a["fluid"]) + ", caliper for " + str(b["fluid"]) + ": never mixed, the seals fail.")


def _tyre_on_rim(a: "Body", b: "Body") -> "Judged":
    if a.get("bead_seat") is not None and b.get("bead_seat") is not None and a["bead_seat"] != b["bead_seat"]:
        return _not("Bead seat " + _mm(a["bead_seat"]) + " against " + _mm(b["bead_seat"]) + ".")
    if a["hookless"] is True and b.get("hookless") is not True:
        return _not("A hookless rim takes only a tyre approved for it.")
    low, high, width = a.get("tyre_min"), a.get("tyre_max"), b["width"]
    # Before the range: rims of before 2023 are marked for tyres that the norm no longer allows on them.
    if a["hookless"] is True and width < a["inner_width"] + 5:
        return _not(
            "Tyre " + _mm(width) + " is less than 5 mm wider than a hookless rim of " + _mm(a["inner_width"]) + " inside."
        )
    if low is not None and high is not None:
        if low <= width <= high and (a.get("bead_seat") is None or b.get("bead_seat") is None):
            return ("not-known", "The width is right; the bead seat of rim and tyre (622, 584 mm ...) is not on record.", "")
        if low <= width <= high:
            return _fits("Tyre " + _mm(width) + " within the rim's own " + shown(low) + " to " + _mm(high) + ".")
        return _not("Tyre " + _mm(width) + ", the rim is marked for " + shown(low) + " to " + _mm(high) + ".")
    if width < a["inner_width"] * 1.15:
        return _not("Tyre " + _mm(width) + " is hardly wider than the rim's " + _mm(a["inner_width"]) + " inside.")
    return ("not-known", "The rim's own tyre range is not on record; look it up before fitting (ISO 5775).", "")


def _clearance(a: "Body", b: "Body") -> "Judged":
    margin = a["margin"] if a.get("margin") is not None else 4
    left = (a["width"] - b["measured"]) / 2
    told = _mm(left) + " each side of a tyre measured at " + _mm(b["measured"])
    if left >= margin:
        return _fits(told + ", " + _mm(margin) + " wanted.")
    return _not(told + ", less than the " + _mm(margin) + " wanted.")


def _valve(a: "Body", b: "Body") -> "Judged":
    out = b["length"] - a["depth"]
    if out >= 15:
        return _fits(_mm(out) + " of valve stands out of the rim.")
    if b["length"] + 50 > a["depth"] and out > -50:
        return _with("a valve extender", "Only " + _mm(out) + " would stand out; 15 mm wanted for a pump head.")
    return _not("The valve does not reach through the rim.")


def _hose(a: "Body", b: "Body") -> "Judged":
    spare = a["length"] - b["length"] - b["slack"]
    if spare >= 0:
        return _fits(_mm(spare) + " to spare with the slack for turning.")
    return _not("Too short by " + _mm(-spare) + " with the slack for turning.")


def _ports(a: "Body", b: "Body") -> "Judged":
    free = a["count"] - a["used"]
    if free <= 0:
        return _fits("No port is left open.")
    if b["count"] >= free:
        return _fits("Each of " + str(free) + " free ports has a plug.")
    return _not(str(free - b["count"]) + " ports stay open: each unused port must be plugged.")


def _rule(
    rule: str,
    title: str,
    a: str,
    b: str,
    needs_a: str,
    needs_b: str,
    judge: "Callable[[Body, Body], Judged]",
    *,
    stop: bool = False,
    source: str = COMMON,
    may_be_empty: bool = False,
) -> "Body":
    """`needs_a` and `needs_b` list the dimensions wanted, blank-separated; `bore|thread` wants either.

    `may_be_empty`: a bike is whole with an `a` and no `b`, as a post with nothing inside. A `b` without an `a` is not known.
    """
    return {
        "rule": rule,
        "title": title,
        "a": a,
        "b": b,
        "judge": judge,
        "stop": stop,
        "source": source,
        "may_be_empty": may_be_empty,
        "needs_a": [n.split("|") for n in needs_a.split()],
        "needs_b": [n.split("|") for n in needs_b.split()],
    }


RULES: "list[Body]" = [
    _rule("shell", "Shell and bottom bracket", "shell", "shell-fit", "width bore|thread", "width bore|thread", _shell),
    _rule("spindle", "Bottom bracket and crank spindle", "spindle-seat", "spindle", "diameter", "diameter", _spindle),
    _rule("freehub", "Freehub and cassette", "freehub", "cassette", "spline", "spline", _same_text("spline", "spline")),
    _rule("cassette-chain", "Cassette and chain", "cassette", "chain", "speeds", "speeds", _speeds),
    _rule("cassette-shifter", "Cassette and shifter", "cassette", "shifter", "speeds", "speeds", _speeds),
    _rule("shifter-mech", "Shifter and rear mech", "shifter", "rear-mech", "speeds pull", "speeds pull", _pull),
    _rule("largest-cog", "Largest cog and rear mech", "cassette", "rear-mech", "cog_max", "cog_max", _largest_cog),
    _rule("chainring", "Chainring and crank", "ring-mount", "ring-pattern", "bolts circle", "bolts circle", _ring),
    _rule("steerer-stem", "Steerer and stem", "stem-bore", "steerer", "diameter", "diameter", _shimmed("Steerer"), stop=True),
    _rule(
        "headset-frame",
        "Head tube and headset",
        "head-tube",
        "headset",
        "upper_type upper_bore lower_type lower_bore",
        "upper_type upper_bore lower_type lower_bore",
        _headset,
        source="open headset code: type and bore of each end",
    ),
    _rule(
        "headset-fork",
        "Fork and headset",
        "steerer",
        "headset",
        "diameter crown",
        "steerer crown",
        _steerer_in_headset,
        source="open headset code: steerer and crown race",
    ),
    _rule("bar", "Stem and bar", "bar-clamp", "bar", "diameter", "diameter", _same_size("diameter", "Clamp"), stop=True),
    _rule("seatpost", "Seat tube and seatpost", "seat-tube", "seatpost", "diameter", "diameter", _shimmed("Post")),
    _rule(
        "post-insert",
        "Post and what sits inside it",
        "seatpost",
        "post-insert",
        "bore",
        "diameter",
        _inside,
        may_be_empty=True,
    ),
    _rule("rails", "Saddle rails and clamp", "rails", "rail-clamp", "width height", "width height", _rails, stop=True),
    _rule(
        "axle",
        "Axle and frame or fork",
        "axle-seat",
        "axle",
        "length diameter pitch",
        "length diameter pitch",
        _axle,
        stop=True,
    ),
    _rule("hub", "Hub and frame or fork", "axle-seat", "hub", "length diameter", "length diameter", _hub, stop=True),
    _rule("rotor", "Hub and rotor", "rotor-mount", "rotor", "mount", "mount", _rotor),
    _rule(
        "rotor-size",
        "Rotor and caliper mount",
        "caliper-seat",
        "rotor",
        "rotor_min rotor_max",
        "diameter",
        _rotor_size,
        stop=True,
    ),
    _rule("caliper", "Caliper and its mount", "caliper-seat", "caliper", "mount", "mount", _same_text("mount", "mount")),
    _rule("fluid", "Lever and caliper fluid", "brake-lever", "caliper", "fluid", "fluid", _fluid, stop=True),
    _rule(
        "tyre-rim",
        "Tyre and rim",
        "rim",
        "tyre",
        "inner_width hookless",
        "width",
        _tyre_on_rim,
        stop=True,
        source="ISO 5775-1; the rim's own marking wins",
    ),
    _rule(
        "tyre-room",
        "Tyre and frame or fork",
        "clearance",
        "tyre",
        "width",
        "measured",
        _clearance,
        stop=True,
        source="4 mm each side: ISO 4210-2 for racing bicycles, from memory",
    ),
    _rule("valve", "Valve and rim", "rim", "valve", "depth", "length", _valve),
    _rule("hose", "Hose or wire and its route", "hose", "route", "length", "length slack", _hose),
    _rule("ports", "Ports and plugs", "ports", "plugs", "count used", "count", _ports),
    _rule("pedal", "Crank and pedal", "pedal-eye", "pedal", "thread", "thread", _same_text("thread", "thread")),
    _rule(
        "front-mech",
        "Front mech and frame",
        "front-mech-seat",
        "front-mech",
        "mount",
        "mount",
        _same_text("mount", "mount"),
        may_be_empty=True,
    ),
]
