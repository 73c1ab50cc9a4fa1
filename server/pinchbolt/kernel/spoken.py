"""An adjustment as one says it at the trackside: "saddle up 2", "front pressure 2.2", "left lever out half a turn".

The words say which setting, which way, how much, and after "because" why. What is not understood is told, never guessed.
"""

from .adjustable import SETTINGS, stands, tidy
from .plain import mapping
from .quantities import finite

TYPE_CHECKING = False
if TYPE_CHECKING:
    from typing import Any

    Body = dict[str, Any]

# What a setting may be called. Each inner list is one way to call it: all its words must be there.
CALLED: "dict[str, list[list[str]]]" = {
    "saddle_height": [["saddle"], ["seat"], ["post"]],
    "saddle_setback": [["saddle"], ["seat"], ["setback"]],
    "saddle_tilt": [["saddle"], ["seat"], ["nose"]],
    "bar_height": [["bar"], ["bars"], ["stem"]],
    "bar_reach": [["bar"], ["bars"]],
    "bar_tilt": [["bar"], ["bars"]],
    "spacers_below": [["spacers"], ["spacer"]],
    "lever_reach": [["lever"], ["brake", "lever"], ["reach"]],
    "lever_height": [["lever"], ["hood"]],
    "lever_angle": [["lever"], ["hood"]],
    "pressure": [["pressure"], ["tyre"], ["air"]],
    "pad_contact": [["pad"], ["pads"], ["contact"]],
    "index": [["index"], ["indexing"], ["barrel"], ["adjuster"]],
    "trim": [["trim"], ["micro"]],
    "gap": [["gap"], ["pulley"]],
    "cage_height": [["cage"]],
    "limit_high": [["limit"]],
    "limit_low": [["limit"]],
}

# Words that settle which of several settings of one name is meant.
ASPECTS: "dict[str, list[str]]" = {
    "saddle_height": ["height"],
    "bar_height": ["height"],
    "lever_height": ["height"],
    "lever_reach": ["reach"],
    "lever_angle": ["angle", "tilt"],
    "saddle_setback": ["setback"],
    "saddle_tilt": ["tilt", "nose", "angle"],
    "bar_tilt": ["tilt", "angle", "rotate", "rotated"],
    "bar_reach": ["reach"],
    "limit_high_rear": ["high", "smallest", "small", "outer"],
    "limit_low_rear": ["low", "largest", "large", "big", "inner"],
    "limit_high_front": ["high", "largest", "large", "big", "outer"],
    "limit_low_front": ["low", "smallest", "small", "inner"],
}

SIDES: "dict[str, list[str]]" = {
    "left": ["left"],
    "right": ["right"],
    "front": ["front"],
    "rear": ["rear", "back"],
}

WAYS: "dict[str, list[str]]" = {
    "up": ["up", "raise", "raised", "higher"],
    "down": ["down", "lower", "lowered", "drop", "dropped"],
    "back": ["back", "rearward", "backward", "backwards"],
    "forward": ["forward", "forwards"],
    "out": ["out", "outward", "outwards", "further"],
    "in": ["in", "inward", "inwards", "closer"],
    "more": ["more", "add", "plus", "up", "harder"],
    "less": ["less", "minus", "down", "softer"],
    "closer": ["closer", "in"],
    "wider": ["wider", "out"],
    "nose up": ["up", "raise", "raised", "higher"],
    "nose down": ["down", "lower", "lowered", "drop", "dropped"],
}

UNITS: "dict[str, tuple[str, float]]" = {
    "mm": ("mm", 1.0),
    "millimetre": ("mm", 1.0),
    "millimetres": ("mm", 1.0),
    "millimeter": ("mm", 1.0),
    "millimeters": ("mm", 1.0),
    "mil": ("mm", 1.0),
    "cm": ("mm", 10.0),
    "centimetre": ("mm", 10.0),
    "centimetres": ("mm", 10.0),
    "inch": ("mm", 25.4),
    "inches": ("mm", 25.4),
    '"': ("mm", 25.4),
    "\u2033": ("mm", 25.4),
    "bar": ("bar", 1.0),
    "bars": ("bar", 1.0),
    "psi": ("bar", 0.0689475729),
    "kpa": ("bar", 0.01),
    "degree": ("\u00b0", 1.0),
    "degrees": ("\u00b0", 1.0),
    "\u00b0": ("\u00b0", 1.0),
    "turn": ("turns", 1.0),
    "turns": ("turns", 1.0),
    "step": ("steps", 1.0),
    "steps": ("steps", 1.0),
    "click": ("steps", 1.0),
    "clicks": ("steps", 1.0),
}

NUMBERS: "dict[str, float]" = {
    "nought": 0,
    "zero": 0,
    "one": 1,
    "two": 2,
    "three": 3,
    "four": 4,
    "five": 5,
    "six": 6,
    "seven": 7,
    "eight": 8,
    "nine": 9,
    "ten": 10,
    "eleven": 11,
    "twelve": 12,
    "fifteen": 15,
    "twenty": 20,
    "half": 0.5,
    "quarter": 0.25,
    "\u00bd": 0.5,
    "\u00bc": 0.25,
    "\u00be": 0.75,
}

# A figure that a microphone may hear as another word; only where a figure is still wanted.
MISHEARD: "dict[str, float]" = {"to": 2, "too": 2, "for": 4, "won": 1, "free": 3, "tree": 3}

PASSED_OVER = (
    "the",
    "a",
    "an",
    "by",
    "and",
    "of",
    "at",
    "please",
    "set",
    "move",
    "moved",
    "put",
    "it",
    "on",
    "cog",
    "ring",
    "cable",
)
WHY = ("because", "reason", "since", "as", "so")


# After a figure it is this unit, unless the setting goes that way: "saddle 29 in", but "left lever 2 in".
INCH = "in"


def spoken(text: str, state: "Body", units: "dict[str, float] | None" = None) -> "Body":
    """What was said about the bike of `state`: `{"found", "choices", "unknown", "reason", "wanted"}`.

    `found` is `{"setting", "label", "unit", "from", "to", "by", "way"}` or None; `choices` are settings among which it cannot
    be told; `wanted` says in words what is missing, empty when nothing is. `to` is in the setting's unit.

    `units` says what one of a bare figure is in a setting's unit, where who says it reads another: `{"bar": 0.0689}` for psi.
    """
    words, reason = _split(text)
    answer: "Body" = {"found": None, "choices": [], "unknown": [], "reason": reason, "wanted": ""}
    read, meant = _understood(_spelled(words))
    answer["unknown"] = read.unknown
    if read.unknown:
        answer["wanted"] = "not understood: " + ", ".join(read.unknown)
        return answer
    if not meant:
        answer["wanted"] = "which setting, such as: saddle, bar, left lever, front pressure"
        return answer
    if len(meant) > 1:
        answer["choices"] = [s["setting"] for s in meant]
        answer["wanted"] = "which one: " + ", ".join([str(s["label"]) for s in meant])
        return answer
    setting = meant[0]
    if read.amount is None:
        answer["wanted"] = "how much, such as: 2"
        return answer
    return _move(answer, setting, read, state, finite(mapping(units).get(str(setting["unit"]))) or 1.0)


def _understood(words: list[str]) -> "tuple[_Reading, list[Body]]":
    """The words sorted, and the settings that they may mean."""
    read, meant = _reading(words, False)
    if read.figure_in and (not meant or read.absolute or len(read.ways()) > 1):
        inches, also = _reading(words, True)
        if also and (not meant or all([s["unit"] == "mm" for s in also])):
            return inches, also
    return read, meant


def _reading(words: list[str], inches: bool) -> "tuple[_Reading, list[Body]]":
    setting, rest = _labelled(words)
    if setting is not None:
        read = _Reading(rest, inches)
        if not read.unknown and read.goes_with(setting):
            return read, [setting]
    read = _Reading(words, inches)
    meant = [s for s in SETTINGS if read.may_mean(s)]
    aimed = [s for s in meant if read.aims_at(s)]
    meant = aimed or meant
    if len(meant) > 1 and read.unit is not None:
        meant = [s for s in meant if s["unit"] == read.unit[0]] or meant
    if len(meant) > 1:
        # "saddle up" is its height: a tilt or an angle is only meant where it was said.
        meant = [s for s in meant if s["unit"] != "\u00b0"] or meant
    return read, meant


def _label(setting: "Body") -> list[str]:
    return str(setting["label"]).lower().replace(",", "").split()


def _labelled(words: list[str]) -> "tuple[Body | None, list[str]]":
    """The setting called by its own label, the longest that was said, and the words beside it."""
    found: "Body | None" = None
    rest, most = words, 0
    for setting in SETTINGS:
        label = _label(setting)
        size = len(label)
        for at in range(len(words) - size + 1):
            if size > most and words[at : at + size] == label:
                found, rest, most = setting, words[:at] + words[at + size :], size
    return found, rest


def _spelled(words: list[str]) -> list[str]:
    """A setting's name on the record, by which other languages say its label, as the words of that label."""
    labels = {str(s["setting"]): _label(s) for s in SETTINGS}
    spelled: list[str] = []
    for word in words:
        spelled += labels.get(word, [word])
    return spelled


def _move(answer: "Body", setting: "Body", read: "_Reading", state: "Body", bare: float) -> "Body":
    unit = str(setting["unit"])
    amount = read.amount or 0.0
    if read.unit is not None:
        said, factor = read.unit
        if said != unit:
            answer["wanted"] = str(setting["label"]) + " in " + unit
            return answer
        amount = amount * factor
    else:
        amount = amount * bare
    name = str(setting["setting"])
    now = stands(state, setting)
    sign = read.sign(setting)
    if sign is None or read.absolute:
        to = amount
    elif now is None:
        answer["wanted"] = "how it stands now: " + str(setting["label"]) + " is not on record"
        return answer
    else:
        to = now + sign * amount
    to = tidy(to)
    by = None if now is None else tidy(to - now)
    way = "" if by is None or by == 0 else str(setting["more"] if by > 0 else setting["less"])
    answer["found"] = {
        "setting": name,
        "label": setting["label"],
        "unit": unit,
        "from": now,
        "to": to,
        "by": by,
        "way": way,
    }
    return answer


def _split(text: str) -> "tuple[list[str], str]":
    """The words in lower case, and the reason after "because" as it was said."""
    pieces = text.replace("\u2212", "-").replace("\u00b0", " \u00b0 ").split()
    words: list[str] = []
    for i, piece in enumerate(pieces):
        word = piece.lower().strip(".,;:!?")
        if word in WHY:
            return words, " ".join(pieces[i + 1 :]).strip()
        words += _apart(word)
    return words, ""


def _apart(word: str) -> list[str]:
    """`2mm` as `2` and `mm`, `-2` and `+2` with their sign as a word, `nose-up` as two."""
    if word[:1] in ("+", "-") and len(word) > 1:
        return ["minus" if word[0] == "-" else "plus"] + _apart(word[1:])
    for i, sign in enumerate(word):
        if sign not in "0123456789.,":
            if i > 0:
                return [word[:i]] + _apart(word[i:])
            break
    return [w for w in word.split("-") if w]


def _number(word: str) -> "float | None":
    if word in NUMBERS:
        return float(NUMBERS[word])
    plain = word.replace(",", ".")
    bare = plain.replace(".", "", 1)
    if bare and all([c in "0123456789" for c in bare]):
        return float(plain)
    return None


def _bare(name: str) -> str:
    """A setting's name without its side."""
    for side in SIDES:
        if name.endswith("_" + side):
            return name[: -len(side) - 1]
    return name


class _Reading:
    """The words sorted: figure, unit, and what may name a setting, a side or a way."""

    def __init__(self, words: list[str], inches: bool) -> None:
        # "in" stood behind a figure.
        self.figure_in = False
        self.amount: "float | None" = None
        self.unit: "tuple[str, float] | None" = None
        self.absolute = False
        self.words: list[str] = []
        self.unknown: list[str] = []
        known = _vocabulary()
        has_figure = any([_number(w) is not None for w in words])
        i = 0
        while i < len(words):
            word = words[i]
            value = _number(word)
            if value is None and not has_figure and word in MISHEARD and i == len(words) - 1:
                value = MISHEARD[word]
            if value is not None:
                value, i = _sum(words, i, value)
                self.amount = value if self.amount is None else self.amount + value
                # "bar" after a figure is the unit of pressure, before it the handlebar.
                if i < len(words) and words[i] in UNITS:
                    self.unit = UNITS[words[i]]
                    i += 1
                elif i < len(words) and words[i] == INCH:
                    self.figure_in = True
                    if inches:
                        self.unit = UNITS["inch"]
                        i += 1
                continue
            if word in ("to", "is", "now"):
                self.absolute = True
            elif word in known:
                self.words.append(word)
            elif word in UNITS and self.amount is not None:
                self.unit = UNITS[word]
            elif word not in PASSED_OVER:
                self.unknown.append(word)
            i += 1

    def may_mean(self, setting: "Body") -> bool:
        """Whether everything said goes with this setting: its name, its side, its aspect and a way that it can go."""
        name = str(setting["setting"])
        bare = _bare(name)
        if not any([all([w in self.words for w in call]) for call in CALLED.get(bare, [])]):
            # "front 2.2 bar" needs no more, where nothing else is named.
            if bare != "pressure" or self.unit is None or self.unit[0] != "bar" or self._names_another():
                return False
        side = name[len(bare) + 1 :]
        said = [s for s in ("left", "right", "front", "rear") if any([w in self.words for w in SIDES[s]])]
        if "rear" in said and "rear" not in self.words and not side:
            said.remove("rear")  # "saddle back" is a way to go, not a side
        if said and side and side not in said:
            return False
        ways = self.ways()
        return not ways or self.sign(setting) is not None or (side == "rear" and ways == ["back"])

    def _names_another(self) -> bool:
        named: list[str] = []
        for name in CALLED:
            for call in CALLED[name]:
                named += call
        return any([w in named for w in self.words])

    def aims_at(self, setting: "Body") -> bool:
        """Whether an aspect was said that this setting alone has."""
        name = str(setting["setting"])
        return any([w in self.words for w in ASPECTS.get(name, ASPECTS.get(_bare(name), []))])

    def sign(self, setting: "Body") -> "float | None":
        """1 towards more, \u22121 towards less, None when no way of this setting was said."""
        for way, sign in ((str(setting["more"]), 1.0), (str(setting["less"]), -1.0)):
            if any([w in self.words for w in WAYS.get(way, [way])]):
                return sign
        if "plus" in self.words or "more" in self.words:
            return 1.0
        if "minus" in self.words or "less" in self.words:
            return -1.0
        return None

    def goes_with(self, setting: "Body") -> bool:
        """Whether nothing was said beside the label that is not of this setting."""
        name = str(setting["setting"])
        known = ["plus", "minus", "more", "less"] + ASPECTS.get(name, ASPECTS.get(_bare(name), []))
        for way in (str(setting["more"]), str(setting["less"])):
            known = known + WAYS.get(way, [way])
        return all([w in known for w in self.words])

    def ways(self) -> list[str]:
        every: list[str] = []
        for way in WAYS:
            every += WAYS[way]
        return [w for w in self.words if w in every]


def _sum(words: list[str], i: int, value: float) -> "tuple[float, int]":
    """A spoken figure from word `i`: "two and a half", "two point five", "half a", "three quarters". With where it ends."""
    i += 1
    if i + 1 < len(words) and words[i] == "point":
        after = _number(words[i + 1])
        if after is not None and after == int(after) and after < 10:
            return value + after / 10, i + 2
    if i < len(words) and words[i] == "quarters":
        return value * 0.25, i + 1
    rest = i
    while rest < len(words) and words[rest] in ("and", "a"):
        rest += 1
    if rest > i and rest < len(words) and words[rest] in ("half", "quarter") and value >= 1:
        return value + NUMBERS[words[rest]], rest + 1
    if i < len(words) and words[i] in ("half", "quarter", "\u00bd", "\u00bc", "\u00be") and value >= 1:
        return value + NUMBERS[words[i]], i + 1
    return value, i


def _vocabulary() -> list[str]:
    known: list[str] = ["plus", "minus", "more", "less"]
    for table in (WAYS, SIDES, ASPECTS):
        for name in table:
            known += table[name]
    for name in CALLED:
        for call in CALLED[name]:
            known += call
    return known
