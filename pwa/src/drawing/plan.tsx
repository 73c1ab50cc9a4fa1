/** The paper of every drawing: millimetres in, points on the sheet out; strokes and figures keep their size at any scale. */

import type { ComponentChildren } from "preact";
import "./drawing.css";

export interface Point {
  x: number;
  y: number;
}

/** What is drawn, mm, y up. */
export interface Extent {
  left: number;
  right: number;
  bottom: number;
  top: number;
}

/** Room around it for dimensions, sheet units. */
export interface Room {
  left: number;
  right: number;
  bottom: number;
  top: number;
}

export interface Plan {
  width: number;
  height: number;
  /** Sheet units a millimetre. */
  scale: number;
  at: (x: number, y: number) => Point;
}

/** Width of every drawing in sheet units: about the pixels of a phone held upright. */
const WIDTH = 360;

export function plan(extent: Extent, room: Room): Plan {
  const scale = (WIDTH - room.left - room.right) / (extent.right - extent.left);
  return {
    width: WIDTH,
    height: room.top + room.bottom + (extent.top - extent.bottom) * scale,
    scale,
    at: (x, y) => ({ x: room.left + (x - extent.left) * scale, y: room.top + (extent.top - y) * scale }),
  };
}

export function Drawing({ plan, says, children }: { plan: Plan; says: string; children: ComponentChildren }) {
  return (
    <svg class="drawing" viewBox={`0 0 ${plan.width} ${round(plan.height)}`} role="img" aria-label={says}>
      <defs>
        <pattern id="hatch" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <path class="hatch" d="M0 0 V6" />
        </pattern>
      </defs>
      {children}
    </svg>
  );
}

export function round(value: number): number {
  return Math.round(value * 10) / 10;
}

/** A path through points. */
export function through(...points: Point[]): string {
  return points.map((p, i) => `${i === 0 ? "M" : "L"}${round(p.x)} ${round(p.y)}`).join(" ");
}

/** A member: solid where its numbers are known, dashed where they are not. */
export function Member({ d, known = true, tone = "ink" }: { d: string; known?: boolean; tone?: "ink" | "blue" | "thin" }) {
  return <path class={`member member-${tone}${known ? "" : " member-guess"}`} d={d} />;
}

/** The dash-dot line that axes are drawn with. */
export function Axis({ from, to }: { from: Point; to: Point }) {
  return <path class="axis" d={through(from, to)} />;
}

/** The cross of a datum. */
export function Datum({ at, size = 9 }: { at: Point; size?: number }) {
  return (
    <g class="datum">
      <circle cx={round(at.x)} cy={round(at.y)} r={size * 0.45} />
      <path d={`M${round(at.x - size)} ${round(at.y)} h${size * 2} M${round(at.x)} ${round(at.y - size)} v${size * 2}`} />
    </g>
  );
}
