/** How it is worked out, step by step, so that it can be followed with a pencil. */

import type { Calculation, WorkingLine } from "../../kernel/types";
import { small } from "../../languages/chosen";
import { said } from "../../languages/spoken";
import { formatNumber } from "../../units";
import { words } from "../../words";

export function WorkingSteps({ calculation, working }: { calculation: Calculation; working: WorkingLine[] }) {
  if (working.length === 0) return null;
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
                = {formatNumber(line.result, 4)} {said(line.unit)}
              </p>
            )}
          </li>
        ))}
      </ol>
    </section>
  );
}
