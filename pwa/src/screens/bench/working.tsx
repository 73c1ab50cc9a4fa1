/**
 * How it is worked out, step by step, so that it can be followed with a pencil. The steps keep to the units the formulas are made
 * for; what comes out is said once more in the unit this person reads.
 */

import type { Calculation, WorkingLine } from "../../kernel/types";
import { small } from "../../languages/chosen";
import { said } from "../../languages/spoken";
import { formatNumber, show, unitOf, unitSaid } from "../../units";
import { words } from "../../words";

/** Behind the mark of a step, in the formulas' own unit. */
const DIGITS = 3;

export function WorkingSteps({ calculation, working }: { calculation: Calculation; working: WorkingLine[] }) {
  if (working.length === 0) return null;
  const outputs = new Map(calculation.outputs.map((one) => [one.name, one]));
  const labels = new Map([...calculation.inputs, ...calculation.outputs].map((one) => [one.name, one.label]));
  const inWords = (text: string) =>
    text.replaceAll(/[a-z][a-z_0-9]*/g, (name) => small(labels.get(name) ?? said(name.replaceAll("_", " "))));
  return (
    <section class="part">
      <h2>{words.bench.working}</h2>
      <ol class="working">
        {working.map((line, i) => (
          <li key={i}>
            <strong>{labels.get(line.symbol) ?? said(line.symbol.replaceAll("_", " "))}</strong>
            {line.formula === "" ? null : <p class="quiet">= {inWords(line.formula)}</p>}
            {line.numbers === "" ? null : <p class="figure">= {line.numbers}</p>}
            {line.result === null ? null : (
              <p class="figure working-result">
                = {formatNumber(line.result, 4)} {unitSaid(line.unit)}
                {unitOf(line.unit) === line.unit ? null : (
                  <strong class="working-yours">
                    {" "}
                    = {show(line.result, line.unit, DIGITS, outputs.get(line.symbol)?.rounds)}
                  </strong>
                )}
              </p>
            )}
          </li>
        ))}
      </ol>
    </section>
  );
}
