"""`pinchbolt calc`: the calculations at the command line."""

import json
import sys
from typing import Any

import click
import msgspec
from rich.console import Console
from rich.table import Table

from pinchbolt import units
from pinchbolt.commands.options import DONE, FOUND_WRONG, refuse
from pinchbolt.kernel import quantities as q
from pinchbolt.kernel.calculations import Calculation
from pinchbolt.kernel.catalogue import all_calculations, find
from pinchbolt.kernel.errors import InputError
from pinchbolt.kernel.errors import refuse as refusal
from pinchbolt.kernel.plain import mapping, objects
from pinchbolt.kernel.quantities import finite
from pinchbolt.kernel.working import shown

_YES = {"yes": True, "true": True, "no": False, "false": False}
_MARKS = {"fine": "fine", "care": "[bold]care[/bold]", "stop": "[bold reverse]stop[/bold reverse]"}


@click.command()
@click.argument("id", required=False)
@click.argument("inputs", nargs=-1, metavar="[NAME=VALUE]...")
@click.option("--json", "as_json", is_flag=True, help="Answer in JSON, as the server does.")
@click.option("--help-inputs", is_flag=True, help="Show what this calculation takes and gives.")
@click.option("--batch", is_flag=True, help="JSON Lines in, JSON Lines out; see below.")
def calc(id: str | None, inputs: tuple[str, ...], as_json: bool, help_inputs: bool, batch: bool) -> None:
    """Run a calculation; without an ID, list them all.

    \b
    pinchbolt calc steerer-cut --help-inputs
    pinchbolt calc steerer-cut head_tube=145 lower_stack=1.5 upper_stack="0.9 in" ...

    A value is in the base unit, or carries its unit ("44 lbf·in", "16,1 in", "210 ± 0.5 mm"). Lists have ; between their
    values, or are written as JSON, as rows are.

    With --batch every line of standard input is {"calculation": ID, "inputs": {...}}, and is answered by one line: the
    answer, or {"error": {...}}. Exit code 1 when a line was in error.
    """
    console = Console(highlight=False)
    if batch:
        raise SystemExit(_batch())
    if id is None:
        _list(console)
        return
    try:
        calculation = find(id)
        if help_inputs:
            _describe(console, calculation)
            return
        given = _parse(calculation, inputs)
        answer = calculation.run(units.base_units(calculation.inputs, given))
    except InputError as error:
        refuse(error)
    if as_json:
        click.echo(json.dumps(answer, ensure_ascii=False, indent=2))
    else:
        _show(console, calculation, answer)


def _parse(calculation: Calculation, inputs: tuple[str, ...]) -> dict[str, object]:
    declared = {field.name: field for field in calculation.inputs}
    given: dict[str, object] = {}
    for one in inputs:
        name, equals, value = one.partition("=")
        if not equals:
            raise refusal("argument", one, "NAME=VALUE")
        field = declared.get(name)
        given[name] = value if field is None else _value(field, value.strip())
    return given


def _value(field: q.Quantity, text: str) -> object:
    if field.kind == q.FLAG:
        return _YES.get(text.lower(), text)
    if field.kind in (q.NUMBERS, q.ROWS) and text[:1] in ("[", "{"):
        try:
            return json.loads(text)
        except ValueError:
            raise refusal(field.name, text, "well-formed JSON") from None
    if field.kind == q.NUMBERS:
        # Without a semicolon, commas stand between the values; a decimal comma then needs semicolons.
        return [one.strip() for one in text.split(";" if ";" in text else ",") if one.strip()]
    return text


def _list(console: Console) -> None:
    table = Table(box=None, pad_edge=False, show_header=False)
    family = ""
    for calculation in all_calculations():
        if calculation.family != family:
            family = calculation.family
            table.add_row("", "")
            table.add_row(f"[bold]{family}[/bold]", "")
        table.add_row(calculation.id, calculation.question)
    console.print(table)


def _describe(console: Console, calculation: Calculation) -> None:
    console.print(f"[bold]{calculation.title}[/bold]\n{calculation.question}\n")
    table = Table("input", "unit", "possible", "default", "what it is", box=None, pad_edge=False)
    for field in calculation.inputs:
        _describe_field(table, field, "")
    console.print(table)
    outputs = Table("output", "unit", "what it is", box=None, pad_edge=False)
    for field in calculation.outputs:
        outputs.add_row(field.name, field.unit, field.label)
    console.print()
    console.print(outputs)
    console.print(f"\nSource: {calculation.source}", markup=False)
    console.print("\nExample: " + json.dumps(calculation.example, ensure_ascii=False), markup=False)


def _describe_field(table: Table, field: q.Quantity, within: str) -> None:
    default = "may be left out" if field.optional else "" if field.default is None else _plain(field.default)
    if field.kind == q.CHOICE:
        possible = ", ".join(field.choices)
    elif field.kind == q.FLAG:
        possible = "yes or no"
    elif field.possible is not None:
        possible = f"{shown(field.possible[0])} to {shown(field.possible[1])}"
    else:
        possible = {q.ROWS: "rows of", q.TEXT: "text"}.get(field.kind, "")
    table.add_row(within + field.name, field.unit, possible, default, field.label + (". " + field.help if field.help else ""))
    for one in field.fields:
        _describe_field(table, one, within + "  ")


def _show(console: Console, calculation: Calculation, answer: dict[str, object]) -> None:
    console.print(f"[bold]{calculation.title}[/bold]\n")
    outputs, around = mapping(answer["outputs"]), mapping(answer.get("uncertainty"))
    table = Table(box=None, pad_edge=False, show_header=False)
    for field in calculation.outputs:
        value = outputs.get(field.name)
        if field.kind == q.ROWS:
            continue
        spread = mapping(around.get(field.name)).get("worst")
        beside = f"± {shown(spread)}" if isinstance(spread, float) else ""
        table.add_row(field.label, _output(field, value), field.unit, beside)
    console.print(table)
    for field in calculation.outputs:
        rows = objects(outputs.get(field.name)) if field.kind == q.ROWS else []
        if rows:
            console.print()
            console.print(_rows(field, rows))
    console.print()
    for finding in objects(answer["findings"]):
        console.print(_MARKS[str(finding["level"])] + "  ", end="")
        console.print(str(finding["text"]), markup=False)
    console.print("\n[bold]Working[/bold]")
    working = Table(box=None, pad_edge=False, show_header=False)
    for line in objects(answer["working"]):
        result = finite(line["result"])
        texts = (str(line["symbol"]), "= " + str(line["formula"]), "= " + str(line["numbers"]))
        working.add_row(*texts, "" if result is None else f"= {shown(result)} {line['unit']}")
    console.print(working, markup=False)
    for caution in calculation.cautions:
        console.print("\nCaution: " + caution, markup=False)


def _rows(field: q.Quantity, rows: list[dict[str, Any]]) -> Table:
    columns = [(f.name, f"{f.label} {f.unit}".strip(), f) for f in field.fields]
    table = Table(*[heading for _, heading, _ in columns], title=field.label, title_justify="left", box=None, pad_edge=False)
    for row in rows:
        table.add_row(*[_output(f, row.get(name)) for name, _, f in columns])
    return table


def _output(field: q.Quantity, value: object) -> str:
    number = finite(value)
    if number is not None:
        return shown(number, field.digits, field.rounds)
    return _plain(value)


def _plain(value: object) -> str:
    if value is None:
        return "—"
    if isinstance(value, bool):
        return "yes" if value else "no"
    return value if isinstance(value, str) else json.dumps(value, ensure_ascii=False)


class _Line(msgspec.Struct, forbid_unknown_fields=True):
    calculation: str
    inputs: dict[str, Any]


def _batch() -> int:
    wrong = False
    read = msgspec.json.Decoder(_Line).decode
    for text in sys.stdin.buffer:
        if not text.strip():
            continue
        try:
            line = read(text)
            calculation = find(line.calculation)
            answer: object = calculation.run(units.base_units(calculation.inputs, line.inputs))
        except InputError as error:
            answer, wrong = {"error": {"detail": "Some of what was given cannot be taken.", "errors": error.problems}}, True
        except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError) as error:
            told = {"field": "line", "given": text[:60].decode("utf-8", "replace").strip(), "wanted": "calculation and inputs"}
            answer, wrong = {"error": {"detail": "The line cannot be read: " + str(error)[:120], "errors": [told]}}, True
        sys.stdout.write(json.dumps(answer, ensure_ascii=False) + "\n")
        sys.stdout.flush()
    return FOUND_WRONG if wrong else DONE
