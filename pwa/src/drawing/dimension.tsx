/** Dimension lines: extension lines, arrows, and the figure upright in the line. */

import { type Point, round, through } from "./plan";

interface Props {
  from: Point;
  to: Point;
  /** How far the line stands off, square to from-to; to the left of the way when positive. */
  off?: number;
  text: string;
  tone?: "ink" | "blue" | "stop";
  /** Where the figure stands when it does not fit into the line. */
  aside?: "start" | "end";
}

const ARROW = 8;
const CLEAR = 3;
/** About the width of one figure in the drawing's type. */
const FIGURE = 8.4;

export function Dimension({ from, to, off = 0, text, tone = "ink", aside = "end" }: Props) {
  const length = Math.hypot(to.x - from.x, to.y - from.y);
  if (length < 0.5) return null;
  const along = { x: (to.x - from.x) / length, y: (to.y - from.y) / length };
  const square = { x: along.y, y: -along.x };
  const a = shift(from, square, off);
  const b = shift(to, square, off);
  const wide = text.length * FIGURE + 6;
  const level = Math.abs(along.x);
  const room = level > 0.5 ? wide : 20;
  const inside = length > room + 2 * ARROW + 2;
  const arrowsInside = length > 2 * ARROW + 4;
  const middle = { x: (a.x + b.x) / 2, y: (a.y + b.y) / 2 };
  const outer = aside === "end" ? shift(b, along, ARROW + 6) : shift(a, along, -(ARROW + 6));
  const reach = ARROW + 5;
  // The line stops short of its figure: a point or a blank in it would else be struck through.
  const half = inside && text !== "" ? (level > 0.5 ? text.length * FIGURE + 4 : 18) / 2 : 0;
  const line = inside ? `${through(a, shift(middle, along, -half))} ${through(shift(middle, along, half), b)}` : through(a, b);
  return (
    <g class={`dimension dimension-${tone}`}>
      {off !== 0 && (
        <path
          class="extension"
          d={`${through(shift(from, square, Math.sign(off) * CLEAR), shift(a, square, Math.sign(off) * 4))} ${through(
            shift(to, square, Math.sign(off) * CLEAR),
            shift(b, square, Math.sign(off) * 4),
          )}`}
        />
      )}
      <path
        class="dimension-line"
        d={arrowsInside ? line : `${through(shift(a, along, -reach), a)} ${through(b, shift(b, along, reach))}`}
      />
      <path class="arrow" d={arrowsInside ? arrow(a, along, 1) : arrow(a, along, -1)} />
      <path class="arrow" d={arrowsInside ? arrow(b, along, -1) : arrow(b, along, 1)} />
      <text
        x={round(inside ? middle.x : outer.x)}
        y={round((inside ? middle.y : outer.y) + 5)}
        text-anchor={inside || level < 0.5 ? "middle" : (aside === "end") === along.x > 0 ? "start" : "end"}
      >
        {text}
      </text>
    </g>
  );
}

function shift(point: Point, way: Point, by: number): Point {
  return { x: point.x + way.x * by, y: point.y + way.y * by };
}

/** An arrowhead with its tip at `tip`, its body along `way` times `side`. */
function arrow(tip: Point, way: Point, side: 1 | -1): string {
  const base = shift(tip, way, ARROW * side);
  const square = { x: way.y * 2.4, y: -way.x * 2.4 };
  return `${through(tip, { x: base.x + square.x, y: base.y + square.y }, { x: base.x - square.x, y: base.y - square.y })}Z`;
}

interface MovedProps {
  from: Point;
  way: Point;
  text: string;
  /** On which side of an upright arrow the figure stands. */
  side?: "start" | "end";
  align?: "start" | "middle" | "end";
}

/** A single arrow with its figure: what moved, and which way. */
export function Moved({ from, way, text, side = "start", align }: MovedProps) {
  const tip = shift(from, way, 26);
  const level = Math.abs(way.x) > 0.5;
  // Beside an upright arrow, beyond the tip of a level one.
  const label = level ? shift(from, way, 34) : shift(shift(from, way, 14), { x: side === "start" ? -1 : 1, y: 0 }, 9);
  const anchor = level ? (way.x > 0 ? "start" : "end") : side === "start" ? "end" : "start";
  return (
    <g class="dimension dimension-blue">
      <path class="dimension-line" d={through(from, tip)} />
      <path class="arrow" d={arrow(tip, way, -1)} />
      <text x={round(label.x)} y={round(label.y + 5)} text-anchor={align ?? anchor}>
        {text}
      </text>
    </g>
  );
}
