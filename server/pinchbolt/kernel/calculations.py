"""The registry: a calculation is a pure function with a declaration, and everything else is made from the two."""

from .errors import InputError, refuse
from .plain import is_mapping, mapping
from .quantities import CHOICE, FLAG, NUMBER, Quantity, Reading, finite, read_fields
from .working import Work

TYPE_CHECKING = False
if TYPE_CHECKING:
    from collections.abc import Callable

    Compute = Callable[..., dict[str, object]]
    Values = dict[str, object]
    Answer = dict[str, object]

DOUBTFUL = "Within the \u00b1 the answer may be another."


class Calculation:
    """A declared calculation. `run` takes inputs in base units and answers outputs, findings and working."""

    def __init__(
        self,
        id: str,
        family: str,
        title: str,
        question: str,
        inputs: list[Quantity],
        outputs: list[Quantity],
        cautions: list[str],
        source: str,
        example: "Values",
        compute: "Compute",
    ) -> None:
        self.id = id
        self.family = family
        self.title = title
        self.question = question
        self.inputs = inputs
        self.outputs = outputs
        self.cautions = cautions
        self.source = source
        self.example = example
        self.compute = compute

    def describe(self) -> dict[str, object]:
        """The declaration as plain data."""
        return {
            "id": self.id,
            "family": self.family,
            "title": self.title,
            "question": self.question,
            "inputs": [q.describe() for q in self.inputs],
            "outputs": [q.describe() for q in self.outputs],
            "cautions": self.cautions,
            "source": self.source,
            "example": self.example,
        }

    def run(self, given: object) -> "Answer":
        """Read `given`, compute, and answer `{"outputs", "findings", "working"}`.

        When an input came with a ±, `uncertainty` gives for each number that depends on it the worst case (`worst`, the sum of
        the single effects) and the likely one (`likely`, the root of the sum of their squares).

        Raises InputError naming every field that cannot be taken.
        """
        seen = Reading()
        if not is_mapping(given):
            raise refuse("inputs", given, "an object of inputs by name")
        values = read_fields(self.inputs, mapping(given), seen)
        if seen.problems:
            raise InputError(seen.problems)
        work = Work()
        for path, text in seen.unusual:
            work.care(path, text)
        outputs = self.compute(work, **values)
        spread = self._spread(values, seen.spreads, outputs, work) if seen.spreads else None
        answer: "Answer" = {
            "outputs": {q.name: outputs[q.name] for q in self.outputs},
            "findings": work.findings,
            "working": work.lines,
        }
        if spread is not None:
            answer["uncertainty"] = spread
        return answer

    def _spread(self, values: "Values", spreads: list[tuple[str, float]], outputs: "Values", work: Work) -> "Values":
        """How far each output moves when each spread input goes to its ends, one at a time.

        The method is the law of propagation of uncertainty with finite differences at the ends of the interval
        (JCGM 100:2008, 5.1.3 note 2, from memory), beside the plain worst case. What an end finds that is worse than what the
        middle found is told too, and then nothing is called fine: a verdict is not surer than what was measured.
        """
        worst: dict[str, float] = {}
        squares: dict[str, float] = {}
        for path, spread in spreads:
            moved: dict[str, float] = {}
            for sign in (-1.0, 1.0):
                shifted = dict(values)
                base = finite(shifted.get(path))
                if base is None:
                    raise refuse(path, "\u00b1", "\u00b1 on a plain number only, not inside a list")
                # Spacers of 0 ± 0.5 mm cannot be −0.5 mm: what is not possible is not reached.
                shifted[path] = self._kept_possible(path, base + sign * spread)
                end = Work()
                try:
                    ends = self.compute(end, **shifted)
                except InputError:
                    raise refuse(path, "\u00b1 " + repr(spread), "a \u00b1 that keeps the calculation possible at both ends")
                here = work.gravest()
                if end.gravest() > here or (here == 0 and self._differ(outputs, ends)):
                    work.doubt(path, DOUBTFUL, end)
                for q in self.outputs:
                    middle, there = finite(outputs[q.name]), finite(ends[q.name])
                    if q.kind == NUMBER and middle is not None and there is not None:
                        moved[q.name] = max(moved.get(q.name, 0.0), abs(there - middle))
            for name in moved:
                worst[name] = worst.get(name, 0.0) + moved[name]
                squares[name] = squares.get(name, 0.0) + moved[name] ** 2
        return {name: {"worst": worst[name], "likely": squares[name] ** 0.5} for name in worst if worst[name] > 0}

    def _differ(self, here: "Values", there: "Values") -> bool:
        """Whether two answers say different things: another choice, or a number that one of them does not give."""
        for q in self.outputs:
            one, other = here[q.name], there[q.name]
            if (one is None) != (other is None) or (q.kind in (CHOICE, FLAG) and one != other):
                return True
        return False

    def _kept_possible(self, name: str, value: float) -> float:
        for q in self.inputs:
            if q.name == name and q.possible is not None:
                return min(max(value, q.possible[0]), q.possible[1])
        return value


_registry: dict[str, Calculation] = {}
_order: list[str] = []


def calculation(
    *,
    id: str,
    family: str,
    title: str,
    question: str,
    inputs: list[Quantity],
    outputs: list[Quantity],
    source: str,
    example: "Values",
    cautions: "list[str] | None" = None,
) -> "Callable[[Compute], Compute]":
    """Declare the decorated function `compute(work, **inputs) -> outputs` as the calculation `id`."""

    def register(compute: "Compute") -> "Compute":
        _registry[id] = Calculation(id, family, title, question, inputs, outputs, cautions or [], source, example, compute)
        if id not in _order:
            _order.append(id)
        return compute

    return register


def all_calculations() -> list[Calculation]:
    """Every declared calculation, in the order of declaration."""
    return [_registry[id] for id in _order]


def find(id: str) -> Calculation:
    """The calculation `id`. Raises InputError naming the known ones."""
    found = _registry.get(id)
    if found is None:
        raise refuse("calculation", id, "one of " + ", ".join(_order))
    return found
