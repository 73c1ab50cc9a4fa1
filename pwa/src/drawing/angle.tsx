/** An angle between two lines: an arc and its figure. */

import { way } from "./fit";
import { type Point, round } from "./plan";

interface Props {
  /** Where the lines meet, on the sheet. */
  at: Point;
  /** Degrees from level, counter-clockwise as seen on the sheet; `to` larger than `from`. */
  from: number;
  to: number;
  radius: number;
  text: string;
  tone?: "ink" | "blue" | "stop";
}

export function Angle({ at, from, to, radius, text, tone = "ink" }: Props) {
  const on = (degrees: number, r: number) => ({ x: at.x + way(degrees).x * r, y: at.y - way(degrees).y * r });
  const a = on(from, radius);
  const b = on(to, radius);
  const label = on((from + to) / 2, radius + 10);
  const side = way((from + to) / 2).x;
  return (
    <g class={`dimension dimension-${tone}`}>
      <path
        class="dimension-line"
        d={`M${round(a.x)} ${round(a.y)} A${radius} ${radius} 0 ${to - from > 180 ? 1 : 0} 0 ${round(b.x)} ${round(b.y)}`}
      />
      <text x={round(label.x)} y={round(label.y + 5)} text-anchor={side > 0.4 ? "start" : side < -0.4 ? "end" : "middle"}>
        {text}
      </text>
    </g>
  );
}
