/** What comes out: figures large, their ± beside them, lists as ruled tables. */

import { LevelSign } from "../../controls/finding";
import type { Answer, Calculation, Finding, Quantity } from "../../kernel/types";
import { said } from "../../languages/spoken";
import { digitsIn, formatNumber, fromBase, show, spanFromBase, unitOf, unitSaid } from "../../units";
import { words } from "../../words";

const MOST_ROWS = 12;

export function Results({ calculation, answer }: { calculation: Calculation; answer: Answer }) {
  return (
    <dl class="results">
      {calculation.outputs.map((output) => (
        <Result
          key={output.name}
          output={output}
          value={answer.outputs[output.name]}
          spread={answer.uncertainty?.[output.name]}
        />
      ))}
    </dl>
  );
}

interface ResultProps {
  output: Quantity;
  value: unknown;
  spread: { worst: number; likely: number } | undefined;
}

function Result({ output, value, spread }: ResultProps) {
  if (output.kind === "rows") {
    const rows = Array.isArray(value) ? (value as Record<string, unknown>[]) : [];
    return (
      <div class="result result-rows">
        <dt>{output.label}</dt>
        <dd>
          {rows.length === 0 ? words.bench.none : <Table label={output.label} fields={output.fields ?? []} rows={rows} />}
        </dd>
      </div>
    );
  }
  const unit = unitOf(output.unit);
  const digits = digitsIn(unit, output.unit, output.digits ?? 2);
  return (
    <div class="result">
      <dt>
        {output.label}
        {output.help ? <span class="quiet"> {output.help}</span> : null}
      </dt>
      <dd>
        <span class="figure">{told(output, value)}</span>
        {typeof value === "number" && unit !== "" ? <span class="result-unit"> {unitSaid(unit)}</span> : null}
        {spread === undefined ? null : (
          <span class="result-spread figure">
            ± {formatNumber(spanFromBase(spread.likely, unit, output.unit), digits + 1)}
            <span class="quiet">
              {" "}
              {words.bench.worst(formatNumber(spanFromBase(spread.worst, unit, output.unit), digits + 1))}
            </span>
          </span>
        )}
      </dd>
    </div>
  );
}

/** A value without its unit, with no more digits than are worth showing. */
function told(quantity: Quantity, value: unknown): string {
  if (typeof value === "number") {
    const unit = unitOf(quantity.unit);
    return formatNumber(
      fromBase(value, unit, quantity.unit),
      digitsIn(unit, quantity.unit, quantity.digits ?? 2),
      quantity.rounds,
    );
  }
  if (typeof value === "boolean") return value ? words.yes : words.no;
  if (typeof value === "string") return said(value);
  if (Array.isArray(value))
    return value.map((one) => (typeof one === "number" ? told({ ...quantity, kind: "number" }, one) : String(one))).join("  ");
  return "–";
}

function Table({ label, fields, rows }: { label: string; fields: Quantity[]; rows: Record<string, unknown>[] }) {
  const shown = fields.length > 0 ? fields : Object.keys(rows[0] ?? {}).map(bareField);
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: a table wider than the sheet is scrolled with keys too
    <section class="results-table" tabIndex={0} aria-label={label}>
      <table class="figures">
        <thead>
          <tr>
            {shown.map((field) => (
              <th key={field.name} scope="col">
                {field.label}
                {field.unit === "" ? null : <span class="quiet"> {unitSaid(unitOf(field.unit))}</span>}
              </th>
            ))}
          </tr>
        </thead>
        <tbody>
          {rows.slice(0, MOST_ROWS).map((row, i) => (
            <tr key={i}>
              {shown.map((field) => (
                <td key={field.name} class="figure">
                  {told(field, row[field.name])}
                </td>
              ))}
            </tr>
          ))}
        </tbody>
      </table>
      {rows.length > MOST_ROWS ? <p class="quiet">{words.bench.moreRows(rows.length - MOST_ROWS)}</p> : null}
    </section>
  );
}

function bareField(name: string): Quantity {
  return { name, kind: "number", unit: "", label: said(name.replaceAll("_", " ")), help: "", optional: false, default: null };
}

interface HeadlineProps {
  calculation: Calculation;
  answer: Answer | null;
  needs: string[];
  stale: boolean;
  findings: Finding[];
}

/** The result that matters most, kept in sight at the foot while one works on the inputs. */
export function Headline({ calculation, answer, needs, stale, findings }: HeadlineProps) {
  const stop = findings.find((one) => one.level === "stop");
  const best = bestRow(calculation, answer);
  const output = headlineOf(calculation, answer);
  const value = output === undefined ? null : answer?.outputs[output.name];
  return (
    <button type="button" class={stale ? "headline headline-stale" : "headline"} onClick={toResults}>
      {best !== null ? (
        <>
          <span class="headline-label">
            {stop === undefined ? null : <LevelSign level="stop" />}
            {best.label}
          </span>
          <output class="figure headline-row" aria-live="polite">
            {best.cells.map((cell) => (
              <span key={cell.label}>
                <span class="quiet">{cell.label}</span> <b>{cell.value}</b>
              </span>
            ))}
          </output>
        </>
      ) : output === undefined || value === null || value === undefined ? (
        <span class={stop === undefined ? "" : "headline-stop"} aria-live="polite">
          {stop === undefined ? null : <LevelSign level="stop" />}
          {needs.length > 0 ? words.bench.toGo(needs.length) : (stop?.text ?? words.bench.noResult)}
        </span>
      ) : (
        <>
          <span class="headline-label">
            {stop === undefined ? null : <LevelSign level="stop" />}
            {output.label}
          </span>
          <output class="figure" aria-live="polite">
            {typeof value === "number" ? show(value, output.unit, output.digits ?? 2, output.rounds) : told(output, value)}
          </output>
        </>
      )}
    </button>
  );
}

const MOST_CELLS = 3;

/** Where the answer is a choice among rows, the best row is the headline. */
function bestRow(
  calculation: Calculation,
  answer: Answer | null,
): { label: string; cells: { label: string; value: string }[] } | null {
  const output = calculation.outputs.find((one) => one.kind === "rows" && one.name === "best");
  const row =
    output === undefined ? undefined : (answer?.outputs[output.name] as Record<string, unknown>[] | null | undefined)?.[0];
  if (output === undefined || row === undefined) return null;
  const cells = (output.fields ?? [])
    .slice(0, MOST_CELLS)
    .map((field) => ({ label: field.label, value: told(field, row[field.name]) }));
  return { label: output.label, cells };
}

/** The first of the named results that has a figure; a cut comes before the sums that lead to it. */
function headlineOf(calculation: Calculation, answer: Answer | null): Quantity | undefined {
  const plain = calculation.outputs.filter((one) => one.kind !== "rows");
  const cut = plain.find((one) => one.name === "cut_length");
  if (cut !== undefined) return cut;
  return plain.find((one) => answer === null || (answer.outputs[one.name] !== null && one.kind !== "flag")) ?? plain[0];
}

function toResults(): void {
  document.getElementById("results")?.scrollIntoView({ block: "start" });
}
