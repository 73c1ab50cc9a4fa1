/** A drawing that is one or more ruled scales beneath each other, all to the same rule. */

import { Drawing } from "./plan";
import { LINE, lines, type Pointer, placed } from "./pointer-places";
import { Band, type BandOn, Pointers, Ruled, rule, Whisker } from "./scale";

export interface Row {
  name?: string;
  bands?: BandOn[];
  pointers: Pointer[];
  /** How far the blue pointer's value may be off. */
  whisker?: { from: number; to: number } | null;
}

interface Props {
  says: string;
  low: number;
  high: number;
  base: string;
  rows: Row[];
  /** A line of words under the scale. */
  note?: string | null;
}

const BAND = 24;
const FIGURES = 30;

export function RuledDrawing({ says, low, high, base, rows, note }: Props) {
  const of = rule(low, high, base);
  let y = 6;
  const laid = rows.map((row) => {
    const all = placed(of.at, row.pointers);
    const top = y + (row.name === undefined ? 0 : 18);
    const labels = top + Math.max(1, lines(all)) * LINE;
    const line = labels + BAND + 4;
    y = line + FIGURES;
    return { ...row, all, nameAt: top - 4, labels, line };
  });
  const height = y + (note ? 20 : 0);
  const sheet = { width: 360, height, scale: 1, at: (x: number, up: number) => ({ x, y: -up }) };
  return (
    <Drawing plan={sheet} says={says}>
      {laid.map((row) => (
        <g key={row.name ?? ""}>
          {row.name === undefined ? null : (
            <text class="words" x="16" y={row.nameAt}>
              {row.name}
            </text>
          )}
          {row.bands?.map((band) => (
            <Band key={`${band.kind} ${band.from}`} of={of} y={row.line} height={BAND} band={band} />
          ))}
          <Ruled of={of} y={row.line} />
          {row.whisker ? <Whisker of={of} y={row.line - BAND / 2} {...row.whisker} /> : null}
          <Pointers all={row.all} y={row.labels} foot={row.line} />
        </g>
      ))}
      {note ? (
        <text class="words" x="180" y={height - 6} text-anchor="middle">
          {note}
        </text>
      ) : null}
    </Drawing>
  );
}
