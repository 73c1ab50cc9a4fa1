"""Every sentence the kernel can say, read from its sources: what the other languages have to translate.

A sentence put together from pieces becomes a template: `"Both " + noun + " " + x + "."` is `Both {0} {1}.`. Pieces that are
words themselves are sentences of their own and are translated in their turn. Left out: ids, units, formulas, documentation.
"""

import ast
import re
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
KERNEL = ROOT / "server" / "pinchbolt" / "kernel"
# The app's list of the places where parts go: ids that the kernel puts into its sentences as words.
SLOTS = ROOT / "pwa" / "src" / "screens" / "build" / "slots.ts"

# Files that say nothing to a person.
SILENT = {"calls", "errors", "order", "plain", "registers", "dates", "distributions", "straight_line", "working"}

# A piece that is put in. Two that touch are one: nobody could tell where the first ends.
HOLE = "\0"

# Arguments that are ids, references to ids, or formulas, though they may look like words.
NO_WORDS: dict[str, set[int | str]] = {
    "_step": {0, 2, 3, "page"},
    "_rule": {0, 2, 3, 4, 5},
    "_kind": {0},
    "line": {0, 1, 2, 3},
    "put": {0},
    "get": {0},
    "replace": {0, 1},
    "split": {0},
    "startswith": {0},
    "endswith": {0},
    "ValueError": {0},
    "KeyError": {0},
    "calculation": {"id", "family", "example"},
}

# Functions whose texts no reading of single expressions can follow, and what they say.
ASSEMBLED = {
    "wanted": [
        "a number",
        "a number {0}",
        "a number from {0} to {1}",
        "a whole number",
        "a whole number {0}",
        "a whole number from {0} to {1}",
        "a list of {0} to {1} numbers",
        "a list of {0} to {1} numbers {2}",
        "a list of {0} to {1} numbers from {2} to {3}",
        "a list of {0} to {1} whole numbers",
        "a list of {0} to {1} whole numbers from {2} to {3}",
        "a list of {0} to {1} rows",
        "a text of 1 to {0} characters",
        "true or false",
        "one of {0}",
    ]
}

# Names whose values are formulas.
FORMULAS = {"formula", "pairs", "__all__"}

# Arguments whose single small words are said to a person as they are; elsewhere a single small word is taken for an id.
WORDS: dict[str, set[int | str]] = {
    "_setting": {5, 6},
    "_same_text": {1},
    "_same_size": {1},
    "_shimmed": {0},
    "item": {1},
    "_joint": {0, 3},
    "_evenness": {1},
    "_gap": {1},
    "_interval": {1, "source", "why"},
    "_with": {0, 1, 2, 3},
    "_carriers": set(),
    "refuse": {1, 2},
    "problem": {1, 2},
    "_fluid": {0},
}

# Names whose values are said, though they may be single small words.
SAID_AS_IS = set(
    "noun way side word words told text given given_in lower where WORDS found CUPS ENDS CALIPER_MOUNTS FLUIDS".split()  # noqa: SIM905
)

# Functions whose tables hold what is said.
SAYING = {"_said"}

# Units that are words.
UNIT_ARGUMENTS: dict[str, set[int | str]] = {
    "number": {1, "unit"},
    "whole": {"unit"},
    "numbers": {1, "unit"},
    "line": {3},
    "item": {"unit"},
    "_setting": {3},
}

# Ids a person reads as words: `wheel-front` is shown as `wheel front`.
ID_ARGUMENTS: dict[str, set[int | str]] = {
    "_joint": {0, "slot"},
    "_kind": {2},
    "_setting": {0},
    "_step": {3},
    "line": {0},
    "choice": {2, "choices"},
}

# Tables whose keys, or members, are such ids: what can be measured, by its name.
ID_TABLES = {"PLACES", "STEERER_SUM"}

# A text without a blank that is an id, a path to a field, a unit, a class of bolt.
NO_WORD = re.compile(rf"_|\[|\w\.\w|^[a-z]+[.~]|^[a-z]+-$|^{HOLE}\.|-{HOLE}|[²³°/]|^[A-Z]\d|\\.{HOLE}|{HOLE}\.[a-z]")
ID_WITH_KIND = re.compile(r"(?:measure|joint|part|cut):\w")
LETTER = re.compile(r"[A-Za-z]")
SMALL_WORD = re.compile(r"[a-z]+(?:[-_][a-z0-9]+)*")
UNITS = frozenset("mm m km ml l g kg N N·m bar h W s Hz MPa kPa km/h rpm K m/s² mm² x".split())  # noqa: SIM905


def kernel_sentences(kernel: Path = KERNEL) -> dict[str, str]:
    """The templates, each once, with the file that says it first. Holes are numbered from left to right: `{0}`, `{1}`."""
    found: dict[str, str] = {}
    for path in sorted(kernel.glob("*.py")):
        if path.stem not in SILENT:
            for sentence in _Reader(ast.parse(path.read_text(encoding="utf-8"))).found:
                found.setdefault(sentence, path.name)
    for slot in re.findall(r'^  "([a-z-]+)",$', SLOTS.read_text(encoding="utf-8"), re.MULTILINE):
        found.setdefault(slot.replace("-", " "), SLOTS.name)
    return found


class _Reader:
    """Reads one file."""

    def __init__(self, tree: ast.Module) -> None:
        # In the order of the file.
        self.found: dict[str, None] = {}
        self.named = _constants(tree)
        # Whether this function says its small words to a person.
        self.small = False
        self._block(tree.body)

    def _block(self, body: list[ast.stmt]) -> None:
        for statement in body:
            self._statement(statement)

    def _statement(self, node: ast.stmt) -> None:
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant):
            return  # documentation
        if isinstance(node, ast.FunctionDef | ast.ClassDef):
            if node.name in ASSEMBLED:
                self.found.update(dict.fromkeys(ASSEMBLED[node.name]))
                return
            if isinstance(node, ast.FunctionDef):
                for default in [*node.args.defaults, *node.args.kw_defaults]:
                    if default is not None:
                        self._read(default)
            for decorator in node.decorator_list:
                self._read(decorator)
            before, self.small = self.small, self.small or node.name in SAYING
            self._block(node.body)
            self.small = before
            return
        if isinstance(node, ast.AugAssign):
            for sentence in _variants(node.value):
                self._keep(HOLE + sentence)
            self._inside(node.value)
            return
        if isinstance(node, ast.AnnAssign | ast.Assign):
            targets = [node.target] if isinstance(node, ast.AnnAssign) else node.targets
            names = {one.id for target in targets for one in ast.walk(target) if isinstance(one, ast.Name)}
            if names & FORMULAS:
                return
            if names & ID_TABLES and node.value is not None:
                for one in node.value.keys if isinstance(node.value, ast.Dict) else [node.value]:
                    if one is not None:
                        self._ids(one)
            if node.value is not None:
                self._read(node.value, small=bool(names & SAID_AS_IS))
            return
        for child in ast.iter_child_nodes(node):
            if isinstance(child, ast.stmt):
                self._statement(child)
            elif isinstance(child, ast.expr):
                self._read(child)
            elif isinstance(child, ast.ExceptHandler):
                self._block(child.body)

    def _read(self, node: ast.expr, *, small: bool = False) -> None:
        """`small`: a single small word is said here, and no id."""
        if isinstance(node, ast.Constant):
            if isinstance(node.value, str):
                self._keep(node.value, small=small)
        elif _is_sum(node):
            for sentence in _variants(node):
                self._keep(sentence, small=small)
            self._inside(node)
        elif isinstance(node, ast.IfExp):
            self._read(node.test)
            self._read(node.body, small=small)
            self._read(node.orelse, small=small)
        elif isinstance(node, ast.Call):
            self._call(node, small=small)
        elif isinstance(node, ast.Compare):
            for one in [node.left, *node.comparators]:
                if not isinstance(one, ast.Constant | ast.Tuple | ast.List):
                    self._read(one)
        elif isinstance(node, ast.Subscript):
            self._read(node.value, small=small)
        elif isinstance(node, ast.Dict):
            for one in node.values:
                self._read(one, small=small or self.small)
        elif isinstance(node, ast.Tuple | ast.List | ast.Set):
            for one in node.elts:
                self._read(one, small=small)
        else:
            for child in ast.iter_child_nodes(node):
                if isinstance(child, ast.expr):
                    self._read(child, small=small)
                elif isinstance(child, ast.comprehension):
                    self._read(child.iter)
                    for condition in child.ifs:
                        self._read(condition)

    def _inside(self, node: ast.expr) -> None:
        """What the pieces of a sum say by themselves."""
        for piece in _pieces(node):
            if isinstance(piece, ast.IfExp):
                self._read(piece.test)
                for branch in (piece.body, piece.orelse):
                    self._inside(branch)
            elif not isinstance(piece, ast.Constant):
                self._read(piece)

    def _call(self, node: ast.Call, *, small: bool) -> None:
        called = (
            node.func.attr if isinstance(node.func, ast.Attribute) else node.func.id if isinstance(node.func, ast.Name) else ""
        )
        if isinstance(node.func, ast.Attribute) and not isinstance(node.func.value, ast.Constant):
            self._read(node.func.value, small=small)
        arguments: list[tuple[int | str, ast.expr]] = [*enumerate(node.args)]
        arguments += [(keyword.arg or "", keyword.value) for keyword in node.keywords]
        for place, value in arguments:
            if place in UNIT_ARGUMENTS.get(called, ()):
                self._units(value)
            if place in ID_ARGUMENTS.get(called, ()):
                self._ids(value)
            if place not in NO_WORDS.get(called, ()):
                self._read(value, small=place in WORDS.get(called, ()))

    def _units(self, node: ast.expr) -> None:
        for one in ast.walk(node):
            if isinstance(one, ast.Constant) and isinstance(one.value, str) and re.fullmatch(r"[a-z]{4,}", one.value):
                self.found[one.value] = None
                if one.value.endswith("s"):
                    self.found[one.value[:-1]] = None  # one of them

    def _ids(self, node: ast.expr) -> None:
        for one in ast.walk(node):
            text = self.named.get(one.id) if isinstance(one, ast.Name) else one.value if isinstance(one, ast.Constant) else None
            if isinstance(text, str):
                name = text.rpartition(":")[2].replace("_", " ").replace("-", " ").strip()
                if re.search(r"[a-z]{2}", name) and name not in UNITS:
                    self.found[name] = None

    def _keep(self, sentence: str, *, small: bool = False) -> None:
        template = tidy(sentence)
        if template is not None and (small or not SMALL_WORD.fullmatch(template)):
            self.found[template] = None


def _constants(tree: ast.Module) -> dict[str, str]:
    """The file's names for texts: `ROAD = "racing"`, `(A, B) = ("a", "b")`, `A, B = "a", "b"`."""
    found: dict[str, str] = {}
    for node in tree.body:
        if isinstance(node, ast.Assign):
            target, value = node.targets[0], node.value
            pairs = (
                zip(target.elts, value.elts, strict=True)
                if isinstance(target, ast.Tuple) and isinstance(value, ast.Tuple)
                else [(target, value)]
            )
            for name, text in pairs:
                if isinstance(name, ast.Name) and isinstance(text, ast.Constant) and isinstance(text.value, str):
                    found[name.id] = text.value
    return found


def tidy(sentence: str) -> str | None:
    """The template of a sentence with holes; None when it says nothing that could be said otherwise."""
    text = re.sub(f"{HOLE}+", HOLE, sentence).strip()
    # What is said behind something has a place for it.
    text = HOLE + text if text.startswith(",") else text
    # A sentence that stands after another one is a sentence of its own.
    text = re.sub(rf"^{HOLE}\.? +(?=[A-Z])", "", text)
    words = [w for w in re.split(rf"[\s{HOLE}(),.;:×−+–/]+", text) if LETTER.search(w) and w not in UNITS]
    if not words or (" " not in text and NO_WORD.search(text)) or " − mean" in text or ID_WITH_KIND.search(text):
        return None
    parts = text.split(HOLE)
    return parts[0] + "".join(f"{{{i}}}{part}" for i, part in enumerate(parts[1:]))


def _is_sum(node: ast.expr) -> bool:
    """Whether it is put together from texts."""
    if isinstance(node, ast.JoinedStr):
        return True
    return isinstance(node, ast.BinOp) and isinstance(node.op, ast.Add) and any(v.strip(HOLE) != "" for v in _variants(node))


def _pieces(node: ast.expr) -> Iterator[ast.expr]:
    if isinstance(node, ast.BinOp) and isinstance(node.op, ast.Add):
        yield from _pieces(node.left)
        yield from _pieces(node.right)
    elif isinstance(node, ast.JoinedStr):
        for value in node.values:
            yield value.value if isinstance(value, ast.FormattedValue) else value
    else:
        yield node


def _variants(node: ast.expr) -> list[str]:
    """Every text it may come to, with holes for what is put in."""
    told = [""]
    for piece in _pieces(node):
        if isinstance(piece, ast.Constant):
            ends = [str(piece.value)] if isinstance(piece.value, str) else [HOLE]
        elif isinstance(piece, ast.IfExp):
            ends = [v for branch in (piece.body, piece.orelse) for v in _variants(branch)]
        else:
            ends = [HOLE]
        told = [start + end for start in told for end in dict.fromkeys(ends)]
    return told
