"""The kernel keeps to what the phone's engine has: MicroPython, asked what it knows (dir of its own modules and types)."""

import ast
import builtins
from collections.abc import Iterator
from pathlib import Path

import pytest

import pinchbolt.kernel

FILES = sorted(Path(pinchbolt.kernel.__file__).parent.glob("*.py"))

MODULES = {"math", "json"}

MATH_NAMES = """
acos acosh asin asinh atan atan2 atanh ceil copysign cos cosh degrees e erf erfc exp expm1 fabs factorial floor fmod
frexp gamma inf isclose isfinite isinf isnan ldexp lgamma log log10 log2 modf nan pi pow radians sin sinh sqrt tan
tanh tau trunc
"""
METHODS_NAMES = """
count endswith find format index isalpha isdigit islower isspace isupper join lower lstrip replace rfind rindex rsplit
rstrip split startswith strip upper center encode partition rpartition splitlines append clear copy extend insert pop
remove reverse sort get items keys popitem setdefault update values fromkeys add discard difference union intersection
issubset issuperset isdisjoint
"""
BUILTINS_NAMES = """
ArithmeticError AssertionError AttributeError BaseException Exception ImportError IndexError KeyError LookupError
MemoryError NameError NotImplementedError OverflowError RuntimeError StopIteration SyntaxError TypeError ValueError
ZeroDivisionError abs all any bool bytearray bytes callable chr classmethod dict divmod enumerate filter float
frozenset getattr hasattr hash id int isinstance issubclass iter len list map max min next object ord pow property
range repr reversed round set setattr slice sorted staticmethod str sum super tuple type zip
"""
MATH = set(MATH_NAMES.split())
METHODS = set(METHODS_NAMES.split())
BUILTINS = set(BUILTINS_NAMES.split())
ABSENT_METHODS = {name for kind in (str, list, dict, set, int, float) for name in dir(kind) if name[0] != "_"} - METHODS
ABSENT_BUILTINS = set(dir(builtins)) - BUILTINS - {"__name__", "__file__", "__doc__"}
GENERIC = {"list", "dict", "tuple", "set", "frozenset", "type"}


def _is_type_checking(node: ast.AST) -> bool:
    return isinstance(node, ast.If) and isinstance(node.test, ast.Name) and node.test.id == "TYPE_CHECKING"


def _executed(node: ast.AST) -> Iterator[ast.AST]:
    """Every node that the engine runs: annotations and what stands under TYPE_CHECKING are not."""
    yield node
    for name, child in ast.iter_fields(node):
        if name in ("annotation", "returns"):
            continue
        for part in child if isinstance(child, list) else [child]:
            if isinstance(part, ast.AST) and not _is_type_checking(part):
                yield from _executed(part)


def _import_problem(node: ast.AST) -> str | None:
    if isinstance(node, ast.Import) and any(alias.name not in MODULES for alias in node.names):
        return "import of " + ", ".join(alias.name for alias in node.names)
    if isinstance(node, ast.ImportFrom) and node.level != 1 and node.module not in MODULES:
        return "import from " + str(node.module)
    return None


def _syntax_problem(node: ast.AST) -> str | None:
    if isinstance(node, ast.Match):
        return "match"
    if isinstance(node, ast.arguments) and node.posonlyargs:
        return "positional-only arguments"
    if isinstance(node, ast.Dict) and any(key is None for key in node.keys):
        return "{**a}"
    if isinstance(node, ast.List | ast.Tuple | ast.Set) and any(isinstance(item, ast.Starred) for item in node.elts):
        return "a starred item in a display or an assignment"
    if isinstance(node, ast.Slice) and node.step is not None:
        return "a slice with a step"
    if isinstance(node, ast.TryStar | ast.AsyncFunctionDef | ast.Await):
        return type(node).__name__
    if getattr(node, "type_params", None):
        return "type parameters"
    return None


def _name_problem(node: ast.AST) -> str | None:
    if (
        isinstance(node, ast.Attribute)
        and isinstance(node.value, ast.Name)
        and node.value.id == "math"
        and node.attr not in MATH
    ):
        return "math." + node.attr
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Attribute) and node.func.attr in ABSENT_METHODS:
        return "." + node.func.attr + "()"
    if isinstance(node, ast.Call) and isinstance(node.func, ast.Name) and node.func.id == "round" and len(node.args) > 1:
        return "round to digits"
    if isinstance(node, ast.Subscript) and isinstance(node.value, ast.Name) and node.value.id in GENERIC:
        return "a subscripted type that is run"
    return None


def problems(source: str) -> list[str]:
    """What in `source` the phone's engine would stumble over, each with its line."""
    found: list[str] = []
    tree = ast.parse(source)
    own = {node.arg for node in ast.walk(tree) if isinstance(node, ast.arg)}
    own |= {node.id for node in ast.walk(tree) if isinstance(node, ast.Name) and isinstance(node.ctx, ast.Store)}
    for node in _executed(tree):
        if isinstance(node, ast.Name) and node.id in ABSENT_BUILTINS - own:
            found.append(f"line {node.lineno}: {node.id}")
        for check in (_import_problem, _syntax_problem, _name_problem):
            problem = check(node)
            if problem is not None:
                found.append(f"line {getattr(node, 'lineno', '?')}: {problem}")
    return found


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.name)
def test_the_file_keeps_to_what_the_phone_has(path: Path) -> None:
    assert problems(path.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize(
    "source",
    [
        "from typing import Any",
        "from __future__ import annotations",
        "import dataclasses",
        "import itertools",
        "from functools import cache",
        "from pinchbolt.kernel import errors",
        "match a:\n    case 1:\n        pass",
        "def f(a, /): pass",
        "b = {**a}",
        "a, *b = c",
        "b = [*a]",
        "b = a[::-1]",
        "b = math.hypot(3, 4)",
        "b = math.fsum(a)",
        "b = 'a'.zfill(3)",
        "b = a.title()",
        "b = a.ljust(3)",
        "b = a.removeprefix('x')",
        "b = round(a, 2)",
        "b = a.bit_length()",
        "Range = tuple[float, float]",
        "def f():\n    return list[int]()",
        "print(ascii(a))",
    ],
)
def test_what_the_phone_lacks_is_caught(source: str) -> None:
    assert problems(source)


@pytest.mark.parametrize(
    "source",
    [
        "import math\nimport json\nfrom .errors import refuse",
        "TYPE_CHECKING = False\nif TYPE_CHECKING:\n    from typing import Any\n    Range = tuple[float, float]",
        "def f(a: list[float]) -> dict[str, object]: return {}",
        "b: list[int] = []",
        "b = f(*a, **c)",
        "b = a[1:]",
        "b = self.title",
        "b = round(a)",
    ],
)
def test_what_the_phone_has_is_let_through(source: str) -> None:
    assert problems(source) == []
