/** Which column of a table is what: guessed from its headings, said once by a person. */

import { useState } from "preact/hooks";
import { Choice } from "../../controls/choice";
import type { Table } from "../../files/csv-reading";
import type { Interface } from "../../kernel/build-types";
import { BASIC, guessColumns, type Meaning } from "./csv-columns";
import { w } from "./words";

const LEFT_OUT = "-";

export function Columns({ table, kinds, onDone }: { table: Table; kinds: Interface[]; onDone: (meanings: Meaning[]) => void }) {
  const [meanings, setMeanings] = useState(() => guessColumns(table.headings, kinds));
  const options = [
    { value: LEFT_OUT, label: w.csv.leftOut },
    ...BASIC.map((one) => ({ value: one as string, label: w.csv.meanings[one] })),
    { value: "marking", label: w.csv.asMarking },
    ...kinds.flatMap((kind) =>
      kind.fields.map((field) => ({ value: `${kind.kind}.${field.name}`, label: `${kind.label}: ${field.label}` })),
    ),
  ];
  const whole = meanings.includes("slot") && meanings.includes("name");
  const twice = BASIC.find((one) => meanings.filter((meaning) => meaning === one).length > 1);
  return (
    <section class="part">
      <h2>{w.csv.columns}</h2>
      <p class="quiet">{w.csv.columnsHelp}</p>
      <div class="form">
        {table.headings.map((heading, at) => (
          <div key={at}>
            <Choice
              label={heading === "" ? w.csv.column(at + 1) : heading}
              options={options}
              value={meanings[at] === "" ? LEFT_OUT : (meanings[at] ?? LEFT_OUT)}
              onChange={(next) => setMeanings(meanings.map((one, i) => (i === at ? (next === LEFT_OUT ? "" : next) : one)))}
            />
            <p class="quiet">
              {w.csv.such(
                table.rows
                  .slice(0, 3)
                  .map((row) => row.cells[at] ?? "")
                  .filter(Boolean)
                  .join(" · "),
              )}
            </p>
          </div>
        ))}
      </div>
      {whole ? null : <p class="problem">{w.csv.needs}</p>}
      {twice === undefined ? null : <p class="problem">{w.csv.meantTwice(w.csv.meanings[twice])}</p>}
      <button type="button" class="button main wide" disabled={!whole || twice !== undefined} onClick={() => onDone(meanings)}>
        {w.csv.keepColumns}
      </button>
    </section>
  );
}
