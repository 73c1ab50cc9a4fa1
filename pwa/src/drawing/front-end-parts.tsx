/** The front end from the drive side: head tube, spacers, stem and bar as outlines, from the same numbers as the kernel's. */

import { along, slab, way } from "./fit";
import { Member, type Plan, type Point, round, through } from "./plan";

/** Widths for the drawing only, mm. */
const HALF = { head: 20, spacer: 17, stem: 20, body: 14, bar: 15.9, tube: 20 };
const HEAD_TUBE = 130;

export interface FrontNumbers {
  stack: number;
  reach: number;
  headAngle: number;
  cover: number;
  spacers: number;
  stemHeight: number;
  stemLength: number;
  stemAngle: number;
}

export interface FrontPoints {
  headTop: Point;
  headBottom: Point;
  stemFoot: Point;
  stemCentre: Point;
  stemTop: Point;
  bar: Point;
  /** Up along the steering axis. */
  up: Point;
}

export function frontPoints(n: FrontNumbers): FrontPoints {
  const up = { x: -way(n.headAngle).x, y: way(n.headAngle).y };
  const ahead = { x: up.y, y: -up.x };
  const headTop = { x: n.reach, y: n.stack };
  const stemFoot = along(headTop, up, n.cover + n.spacers);
  const stemCentre = along(stemFoot, up, n.stemHeight / 2);
  const angle = way(n.stemAngle);
  return {
    up,
    headTop,
    headBottom: along(headTop, up, -HEAD_TUBE),
    stemFoot,
    stemCentre,
    stemTop: along(stemFoot, up, n.stemHeight),
    bar: along(along(stemCentre, ahead, n.stemLength * angle.x), up, n.stemLength * angle.y),
  };
}

interface Props {
  sheet: Plan;
  n: FrontNumbers;
  p: FrontPoints;
  known: { frame: boolean; stem: boolean };
}

export function FrontEnd({ sheet, n, p, known }: Props) {
  const bb = { x: 0, y: 0 };
  const at = (point: Point) => sheet.at(point.x, point.y);
  const bar = at(p.bar);
  const tone = known.stem ? "member member-filled" : "member member-guess";
  const pieces = spacerPieces(n);
  const tube = along(p.headBottom, p.up, 34);
  return (
    <g>
      <Member
        tone="thin"
        known={known.frame}
        d={slab(sheet, along(bb, unit(tube), 30), along(tube, unit(tube), -10), HALF.tube)}
      />
      <path
        class={known.frame ? "member member-filled" : "member member-guess"}
        d={slab(sheet, p.headBottom, p.headTop, HALF.head)}
      />
      {n.cover > 0 && (
        <path
          class="member member-thin member-filled"
          d={slab(sheet, p.headTop, along(p.headTop, p.up, n.cover), HALF.head, HALF.spacer)}
        />
      )}
      {pieces.map(([from, to]) => (
        <path
          key={from}
          class={`member member-thin ${known.stem ? "member-filled" : "member-guess"}`}
          d={slab(sheet, along(p.headTop, p.up, from), along(p.headTop, p.up, to), HALF.spacer)}
        />
      ))}
      <path class={tone} d={slab(sheet, p.stemCentre, p.bar, HALF.body)} />
      <path class={tone} d={slab(sheet, p.stemFoot, p.stemTop, HALF.stem)} />
      <circle class={tone} cx={round(bar.x)} cy={round(bar.y)} r={round((HALF.bar + 4) * sheet.scale)} />
      <circle class="member member-thin" cx={round(bar.x)} cy={round(bar.y)} r={round(HALF.bar * sheet.scale)} />
      <path class="datum" d={`M${round(bar.x - 5)} ${round(bar.y)} h10 M${round(bar.x)} ${round(bar.y - 5)} v10`} />
      <path class="axis" d={through(at(along(p.headBottom, p.up, -40)), at(along(p.stemTop, p.up, 30)))} />
    </g>
  );
}

/** Spacers as they are bought: tens, then a five, then what is left. */
function spacerPieces(n: FrontNumbers): [number, number][] {
  const pieces: [number, number][] = [];
  let from = n.cover;
  let left = Math.max(0, n.spacers);
  while (left > 0.01 && pieces.length < 20) {
    const size = left >= 10 ? 10 : Math.min(left, 5);
    pieces.push([from, from + size]);
    from += size;
    left -= size;
  }
  return pieces;
}

function unit(point: Point): Point {
  const length = Math.hypot(point.x, point.y) || 1;
  return { x: point.x / length, y: point.y / length };
}
