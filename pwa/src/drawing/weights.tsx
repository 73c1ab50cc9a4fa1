/** Weights laid end to end on a ruled scale against the goal. */

import { show } from "../units";
import type { FigureProps } from "./catalogue";
import { Drawing, round } from "./plan";
import { LINE, lines, type Pointer, placed } from "./pointer-places";
import { num, rows, said } from "./reading";
import { Pointers, Ruled, rule, Whisker } from "./scale";
import { drawingWords as say } from "./words";

interface Piece {
  name: string;
  mass: number;
  /** Drawn with an open end: nobody has had it on the scale. */
  guessed: boolean;
}

const BAR = 34;
/** How far the scale reaches while nothing lies on it, g. */
const EMPTY = 9000;

interface LaidProps {
  says: string;
  pieces: Piece[];
  goal: number | null;
  total: number | null;
  sd: number | null;
  note: string | null;
}

function Laid({ says, pieces, goal, total, sd, note }: LaidProps) {
  const sum = pieces.reduce((all, piece) => all + piece.mass, 0);
  const most = Math.max(sum, goal ?? 0, total ?? 0);
  const high = most > 0 ? most * 1.06 : EMPTY;
  const of = rule(0, high, "g");
  const over = total !== null && goal !== null && total > goal;
  const pointers: Pointer[] = [];
  if (goal !== null) pointers.push({ value: goal, text: `${say.goal} ${show(goal, "g", 0)}`, dashed: true });
  if (total !== null)
    pointers.push({ value: total, text: `${say.total} ${show(total, "g", 0)}`, tone: over ? "stop" : "blue" });
  const all = placed(of.at, pointers);
  const labels = Math.max(1, lines(all)) * LINE + 4;
  const line = labels + BAR + 4;
  let from = 0;
  const laid = pieces.map((piece) => {
    const start = from;
    from += piece.mass;
    return { ...piece, x: of.at(start), width: of.at(from) - of.at(start) };
  });
  // Only what fits into its piece is written there; every piece is in the list of parts below.
  const fits = (name: string, width: number) => name.length * 6.6 + 8 <= width;
  const height = line + 30 + (note === null ? 0 : 20);
  const sheet = { width: 360, height, scale: 1, at: (x: number, y: number) => ({ x, y: -y }) };
  return (
    <Drawing plan={sheet} says={says}>
      {laid.map((piece, i) => (
        <g key={i}>
          <rect
            class={piece.guessed ? "piece piece-guessed" : "piece"}
            x={round(piece.x)}
            y={round(line - BAR)}
            width={round(Math.max(0, piece.width))}
            height={BAR - 1}
          />
          {fits(piece.name, piece.width) ? (
            <text class="words" x={round(piece.x + piece.width / 2)} y={round(line - BAR / 2 + 4)} text-anchor="middle">
              {piece.name}
            </text>
          ) : null}
        </g>
      ))}
      <Ruled of={of} y={line} />
      <Pointers all={all} y={labels} foot={line} />
      {total !== null && sd !== null && sd > 0 ? (
        <Whisker of={of} y={line - BAR / 2} from={total - 2 * sd} to={total + 2 * sd} />
      ) : null}
      {note === null ? null : (
        <text class="words" x="16" y={height - 4}>
          {note}
        </text>
      )}
    </Drawing>
  );
}

function spare(headroom: number | null): string | null {
  if (headroom === null) return null;
  return headroom < 0 ? say.over(show(-headroom, "g", 0)) : say.toSpare(show(headroom, "g", 0));
}

export function WeightBudgetDrawing({ inputs, outputs }: FigureProps) {
  const pieces = rows(inputs, "parts").flatMap((row): Piece[] => {
    const [weighed, claimed] = [num(row, "weighed"), num(row, "claimed")];
    const mass = weighed ?? claimed;
    return mass === null || mass <= 0
      ? []
      : [
          {
            name: said(row, "slot") ?? said(row, "name") ?? "",
            mass: mass * (num(row, "count") ?? 1),
            guessed: weighed === null,
          },
        ];
  });
  const [total, sd, goal] = [num(outputs, "total"), num(outputs, "sd"), num(inputs, "target")];
  const missing = rows(outputs, "missing_slots").flatMap((row) => said(row, "slot") ?? []);
  const note =
    missing.length > 0
      ? say.missing(missing.join(", "))
      : pieces.some((piece) => piece.guessed)
        ? say.dashedClaimed
        : spare(num(outputs, "headroom"));
  const shown = (value: number | null) => (value === null ? null : show(value, "g", 0));
  return (
    <Laid
      says={say.weight(shown(total), shown(goal), shown(sd))}
      pieces={pieces}
      goal={goal}
      total={total}
      sd={sd}
      note={note}
    />
  );
}

export function WeightSwapsDrawing({ inputs, outputs }: FigureProps) {
  const [base, goal, total, cost] = [num(inputs, "base"), num(inputs, "target"), num(outputs, "total"), num(outputs, "cost")];
  const chosen = rows(outputs, "choice").flatMap((row): Piece[] => {
    const mass = num(row, "mass");
    return mass === null || mass <= 0 ? [] : [{ name: said(row, "slot") ?? "", mass, guessed: false }];
  });
  const pieces = base === null || base <= 0 ? chosen : [{ name: say.base, mass: base, guessed: false }, ...chosen];
  const shown = (value: number | null) => (value === null ? null : show(value, "g", 0));
  return (
    <Laid
      says={say.swaps(shown(total), shown(goal), cost === null ? null : show(cost, "", 0))}
      pieces={pieces}
      goal={goal}
      total={total}
      sd={null}
      note={spare(num(outputs, "headroom"))}
    />
  );
}
