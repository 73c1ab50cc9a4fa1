/** One row of a table, its cells open for mending. */

import { useState } from "preact/hooks";
import { Sheet } from "../../controls/sheet";
import { TextField } from "../../controls/text-field";
import { words } from "../../words";
import type { BadRow } from "./csv-rows";
import { w } from "./words";

interface MendProps {
  row: BadRow;
  headings: string[];
  onClose: () => void;
  onDone: (cells: string[] | null) => void;
}

export function Mend({ row, headings, onClose, onDone }: MendProps) {
  const [cells, setCells] = useState(row.cells);
  return (
    <Sheet title={w.csv.line(row.line)} onClose={onClose}>
      {row.problems.map((one) => (
        <p key={one} class="number-problem">
          {one}
        </p>
      ))}
      {headings.map((heading, at) => (
        <TextField
          key={at}
          label={heading}
          value={cells[at] ?? ""}
          onChange={(next) => setCells(headings.map((_, i) => (i === at ? next : (cells[i] ?? ""))))}
        />
      ))}
      <button type="button" class="button main wide" onClick={() => onDone(headings.map((_, i) => (cells[i] ?? "").trim()))}>
        {words.done}
      </button>
      <button type="button" class="button small wide" onClick={() => onDone(null)}>
        {w.csv.leaveOut}
      </button>
    </Sheet>
  );
}
