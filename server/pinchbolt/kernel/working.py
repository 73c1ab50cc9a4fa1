"""The working of a calculation: lines a mechanic can follow with a pocket calculator, and findings."""

FINE = "fine"
CARE = "care"
STOP = "stop"

MINUS = "\u2212"

# By how much a number is made a whole one of so many decimals: exact, and quicker than a power.
_TENS = [float(10**digits) for digits in range(16)]


def shown(value: float, digits: "int | None" = None, rounds: str = "") -> str:
    """A number as text, the same on both engines: to `digits` decimals, or to 6 significant figures.

    `rounds` is `up` or `down` where rounding to nearest could take material away.

    >>> shown(1234.5678)
    '1234.57'
    >>> shown(-0.25)
    '\u22120.25'
    >>> shown(2.5, 0)
    '3'
    >>> shown(223.01, 1, "up")
    '223.1'
    """
    size = -value if value < 0 else value
    strip = digits is None
    if digits is None:
        if size >= 1e15 or (0 < size < 1e-9):
            return repr(value).replace("-", MINUS)
        whole = int(size)
        if whole == size:
            return (MINUS if value < 0 else "") + str(whole)
        digits = 5
        if size >= 10:
            bound = 10.0
            while size >= bound and digits > 0:
                digits -= 1
                bound *= 10.0
        elif size < 1:
            bound = 1.0
            while size < bound and digits < 15:
                digits += 1
                bound /= 10.0
    # Rounded by whole numbers: the engines' own formats break ties differently.
    ahead = 0.5
    if rounds:
        # A millionth of a step is the noise of decimal sums, not a length.
        ahead = 1 - 1e-6 if (rounds == "up") == (value >= 0) else 1e-6
    scaled = int(size * _TENS[digits] + ahead)
    text = str(scaled)
    if digits:
        if len(text) <= digits:
            text = "0" * (digits + 1 - len(text)) + text
        behind = text[-digits:]
        text = text[:-digits]
        if strip:
            behind = behind.rstrip("0")
        if behind:
            text = text + "." + behind
    return MINUS + text if value < 0 and scaled else text


# The figures of the calculation at hand: most of them stand in several of its lines.
_figures: dict[float, str] = {}
_MOST_FIGURES = 500


def figure(value: float) -> str:
    """A number as it stands in a line of working: `shown`, in brackets below zero."""
    text = _figures.get(value)
    if text is None:
        text = "(" + shown(value) + ")" if value < 0 else shown(value)
        if len(_figures) < _MOST_FIGURES:
            _figures[value] = text
    return text


# Formulas are texts of the program, put in again at every key somebody types: each is taken apart once.
_taken_apart: dict[str, list[str]] = {}
_MOST_FORMULAS = 500


def _pieces(formula: str) -> list[str]:
    """`formula` in turns of what stands between the names and a name: the odd ones are names."""
    pieces: list[str] = []
    between = ""
    name = ""
    for ch in formula:
        if ch == "_" or "a" <= ch <= "z" or "A" <= ch <= "Z" or (name and "0" <= ch <= "9"):
            name += ch
            continue
        if name:
            pieces.append(between)
            pieces.append(name)
            between = name = ""
        between += ch
    pieces.append(between)
    if name:
        pieces.append(name)
    return pieces


def put_in(formula: str, numbers: dict[str, "float | str"]) -> str:
    """`formula` with each name found in `numbers` replaced by its value.

    >>> put_in("reach + rise × 2", {"reach": 380.0, "rise": -4.0})
    '380 + (\u22124) × 2'
    """
    if not numbers:
        return formula
    pieces = _taken_apart.get(formula)
    if pieces is None:
        if len(_taken_apart) >= _MOST_FORMULAS:
            _taken_apart.clear()
        pieces = _taken_apart[formula] = _pieces(formula)
    out = list(pieces)
    for i in range(1, len(out), 2):
        value = numbers.get(out[i])
        if value is not None:
            out[i] = value if isinstance(value, str) else figure(value)
    return "".join(out)


class Work:
    """Collects what a calculation has to say beside its outputs."""

    def __init__(self) -> None:
        _figures.clear()
        self.lines: list[dict[str, object]] = []
        self.findings: list[dict[str, str]] = []

    def line(self, symbol: str, formula: str, result: "float | None", unit: str = "", **numbers: "float | str") -> None:
        """One step: `symbol = formula = numbers = result unit`.

        `formula` uses + − × / ^ √( ) and sin cos tan asin acos atan in degrees, ln exp, min max abs floor ceil, π.
        Each keyword puts its value in for the name in the formula. A test evaluates the numbers and compares with `result`.
        """
        self.lines.append(
            {"symbol": symbol, "formula": formula, "numbers": put_in(formula, numbers), "result": result, "unit": unit}
        )

    def say(self, text: str) -> None:
        """A step in words, where a formula would not help (a choice, a table looked up)."""
        self.lines.append({"symbol": "", "formula": text, "numbers": "", "result": None, "unit": ""})

    def fine(self, field: str, text: str) -> None:
        self.findings.append({"level": FINE, "field": field, "text": text})

    def care(self, field: str, text: str) -> None:
        self.findings.append({"level": CARE, "field": field, "text": text})

    def stop(self, field: str, text: str) -> None:
        self.findings.append({"level": STOP, "field": field, "text": text})

    def gravest(self) -> int:
        """2 when something stops, 1 when something asks for care, else 0."""
        levels = [f["level"] for f in self.findings]
        return 2 if STOP in levels else (1 if CARE in levels else 0)

    def doubt(self, field: str, text: str, end: "Work") -> None:
        """At an `end` of what `field` may be the answer is another: what is found there counts too, and nothing is fine."""
        self.findings = [f for f in self.findings if f["level"] != FINE]
        say = self.stop if end.gravest() == 2 else self.care
        say(field, text)
        known = [f["text"] for f in self.findings]
        for finding in end.findings:
            if finding["level"] != FINE and finding["text"] not in known:
                self.findings.append(finding)
