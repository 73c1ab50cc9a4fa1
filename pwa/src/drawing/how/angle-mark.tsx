/** An angle in blue: an arc with an arrowhead at its end. Degrees on the sheet, clockwise from the right. */

import { type Point, round } from "../plan";

interface Props {
  at: Point;
  radius: number;
  from: number;
  to: number;
}

export function Angle({ at, radius, from, to }: Props) {
  const on = (degrees: number, r = radius): Point => ({
    x: at.x + r * Math.cos((degrees * Math.PI) / 180),
    y: at.y + r * Math.sin((degrees * Math.PI) / 180),
  });
  const way = Math.sign(to - from);
  // An arrow 9 long covers this much of the arc.
  const head = (9 / radius) * (180 / Math.PI) * way;
  const a = on(from);
  const b = on(to);
  const inner = on(to - head, radius - 3);
  const outer = on(to - head, radius + 3);
  return (
    <g class="dimension dimension-blue">
      <path
        class="dimension-line"
        d={`M${round(a.x)} ${round(a.y)} A${radius} ${radius} 0 0 ${way > 0 ? 1 : 0} ${round(b.x)} ${round(b.y)}`}
      />
      <path
        class="arrow"
        d={`M${round(b.x)} ${round(b.y)} L${round(inner.x)} ${round(inner.y)} L${round(outer.x)} ${round(outer.y)} Z`}
      />
    </g>
  );
}
