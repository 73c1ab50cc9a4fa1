"""Doing the sums of a working line again, as a mechanic would: from the text alone."""

import ast
import math
from collections.abc import Callable

FUNCTIONS: dict[str, Callable[..., float]] = {
    "sin": lambda degrees: math.sin(math.radians(degrees)),
    "cos": lambda degrees: math.cos(math.radians(degrees)),
    "tan": lambda degrees: math.tan(math.radians(degrees)),
    "asin": lambda x: math.degrees(math.asin(x)),
    "acos": lambda x: math.degrees(math.acos(x)),
    "atan": lambda x: math.degrees(math.atan(x)),
    "sqrt": math.sqrt,
    "ln": math.log,
    "exp": math.exp,
    "min": min,
    "max": max,
    "abs": abs,
    "floor": math.floor,
    "ceil": math.ceil,
}

OPERATORS: dict[type[ast.operator], Callable[[float, float], float]] = {
    ast.Add: lambda a, b: a + b,
    ast.Sub: lambda a, b: a - b,
    ast.Mult: lambda a, b: a * b,
    ast.Div: lambda a, b: a / b,
}

SIGNS = {"×": "*", "−": "-", "^": "**", "√": "sqrt", "π": "(pi)"}
FIGURES = 6


class Unreadable(Exception):
    """The text is not in the notation of a working line."""


def parse(numbers: str) -> ast.expr:
    """The sum written in `numbers`."""
    text = numbers
    for sign, python in SIGNS.items():
        text = text.replace(sign, python)
    try:
        return ast.parse(text, mode="eval").body
    except SyntaxError as error:
        raise Unreadable(numbers) from error


def constants(node: ast.expr) -> list[ast.Constant]:
    return [part for part in ast.walk(node) if isinstance(part, ast.Constant)]


def value(node: ast.expr, moved: ast.Constant | None = None, by: float = 0.0) -> float:
    """What the sum comes to, with the constant `moved` shifted `by`."""
    if isinstance(node, ast.Constant) and isinstance(node.value, int | float):
        return float(node.value) + (by if node is moved else 0.0)
    if isinstance(node, ast.Name) and node.id == "pi":
        return math.pi
    if isinstance(node, ast.UnaryOp) and isinstance(node.op, ast.USub):
        return -value(node.operand, moved, by)
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Pow):
        # A power is written in the formula, not put in: it is exact.
        return value(node.left, moved, by) ** value(node.right)
    if isinstance(node, ast.BinOp) and type(node.op) in OPERATORS:
        return OPERATORS[type(node.op)](value(node.left, moved, by), value(node.right, moved, by))
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id in FUNCTIONS:
        return FUNCTIONS[node.func.id](*[value(argument, moved, by) for argument in node.args])
    raise Unreadable(ast.unparse(node))


def half_a_figure(number: float) -> float:
    """How far a number shown with six figures may be from the number meant."""
    if number == 0:
        return 0.0
    return 0.5 * 10.0 ** (math.floor(math.log10(abs(number))) - FIGURES + 1)


def done_again(numbers: str) -> tuple[float, float]:
    """The value of `numbers`, and how far the rounding of the figures shown may have moved it."""
    node = parse(numbers)
    middle = value(node)
    slack = 0.0
    for constant in constants(node):
        assert isinstance(constant.value, int | float)
        step = half_a_figure(float(constant.value))
        moves = [0.0]
        for by in (-step, step):
            try:
                moves.append(abs(value(node, constant, by) - middle))
            except ValueError:
                # asin(1 + a little): the number meant cannot have been there.
                continue
        slack += max(moves)
    return middle, slack
