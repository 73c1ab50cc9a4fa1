"""The reference of calculations, one page each, made from the declarations and their worked examples.

`python -m pinchbolt.reference FOLDER` writes the pages; a test keeps the committed ones equal to what this makes.
"""

import sys
from pathlib import Path
from typing import Any

from pinchbolt.kernel.catalogue import Calculation, all_calculations
from pinchbolt.kernel.quantities import Quantity
from pinchbolt.kernel.working import shown


def figure(value: Any, digits: int | None = None, rounds: str = "") -> str:
    """A value as it is read on a page."""
    if value is None:
        return "—"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return shown(float(value), digits, rounds)
    if isinstance(value, list):
        return "; ".join(figure(one, digits) for one in value) or "none"  # pyright: ignore[reportUnknownVariableType]
    if isinstance(value, dict):
        return ", ".join(f"{k} {figure(v)}" for k, v in value.items())  # pyright: ignore[reportUnknownVariableType]
    return str(value)


def _cell(text: str) -> str:
    return text.replace("|", "\\|").replace("\n", " ")


def _span(span: tuple[float, float] | None) -> str:
    return f"{shown(span[0])} to {shown(span[1])}" if span else ""


def _quantity_rows(quantities: list[Quantity], prefix: str = "") -> list[str]:
    rows: list[str] = []
    for q in quantities:
        wanted = "optional" if q.optional else (f"default {figure(q.default)}" if q.default is not None else "")
        cells = [f"`{prefix}{q.name}`", q.label, q.unit or q.kind, _span(q.plausible), _span(q.possible), wanted, q.help]
        rows.append("| " + " | ".join(_cell(c) for c in cells) + " |")
        rows += _quantity_rows(q.fields, f"{prefix}{q.name}[].")
    return rows


def page(calculation: Calculation) -> str:
    """One calculation's page in Markdown."""
    answer: Any = calculation.run(calculation.example)
    lines = [f"# {calculation.title}", "", f"`{calculation.id}` — {calculation.question}", ""]
    lines += [
        "## Inputs",
        "",
        "| name | label | unit | usual | possible | | how to measure |",
        "| --- | --- | --- | --- | --- | --- | --- |",
    ]
    lines += _quantity_rows(calculation.inputs)
    lines += ["", "## Outputs", "", "| name | label | unit | note |", "| --- | --- | --- | --- |"]
    for q in calculation.outputs:
        lines.append("| " + " | ".join(_cell(c) for c in (f"`{q.name}`", q.label, q.unit or q.kind, q.help)) + " |")
        lines += [f"| `{q.name}[].{f.name}` | {_cell(f.label)} | {f.unit or f.kind} | {_cell(f.help)} |" for f in q.fields]
    if calculation.cautions:
        lines += ["", "## Cautions", "", *[f"- {c}" for c in calculation.cautions]]
    lines += ["", "## Source", "", calculation.source, "", "## Worked example", ""]
    lines += ["| input | value |", "| --- | --- |"]
    lines += [f"| `{k}` | {_cell(figure(v))} |" for k, v in calculation.example.items()]
    lines += ["", "| step | formula | numbers | result |", "| --- | --- | --- | --- |"]
    for step in answer["working"]:
        result = "" if step["result"] is None else f"{figure(step['result'])} {step['unit']}".strip()
        lines.append("| " + " | ".join(_cell(c) for c in (step["symbol"], step["formula"], step["numbers"], result)) + " |")
    lines += ["", "| output | value |", "| --- | --- |"]
    lines += [f"| {_cell(q.label)} | {_cell(_output(q, answer['outputs'][q.name]))} |" for q in calculation.outputs]
    lines += [f"\n**{f['level']}** ({f['field']}): {f['text']}" for f in answer["findings"]]
    return "\n".join(lines) + "\n"


def _output(q: Quantity, value: Any) -> str:
    return f"{figure(value, q.digits, q.rounds)} {q.unit}".strip() if value is not None else "—"


def index(calculations: list[Calculation]) -> str:
    """The list of all pages, by family."""
    lines = ["# Calculations", "", "Made from the declarations by `python -m pinchbolt.reference docs/reference`."]
    family = ""
    for c in calculations:
        if c.family != family:
            family = c.family
            lines += ["", f"## {family}", ""]
        lines.append(f"- [{c.title}]({c.id}.md) — {c.question}")
    return "\n".join(lines) + "\n"


def pages() -> dict[str, str]:
    """File name -> text of every page."""
    calculations = all_calculations()
    return {"index.md": index(calculations)} | {f"{c.id}.md": page(c) for c in calculations}


def main(folder: str) -> None:
    """Write every page into `folder`, and take away pages of calculations that are no more."""
    target = Path(folder)
    target.mkdir(parents=True, exist_ok=True)
    made = pages()
    for stale in set(p.name for p in target.glob("*.md")) - set(made):
        (target / stale).unlink()
    for name, text in made.items():
        (target / name).write_text(text, encoding="utf-8")


if __name__ == "__main__":
    main(sys.argv[1])
