/** Hub flange and rim from the side, to scale: one side's spokes thin, the one that is measured blue. */

import { formatNumber, show } from "../units";
import type { FigureProps } from "./catalogue";
import { Dimension } from "./dimension";
import { fitted, way } from "./fit";
import { Datum, Drawing, type Point, round, through } from "./plan";
import { num, or } from "./reading";
import { drawingWords as say } from "./words";

export function SpokeDrawing({ inputs, outputs }: FigureProps) {
  const given = (name: string) => num(inputs, name);
  const rim = Math.max(20, or(given("erd"), 600) / 2);
  const flange = Math.max(5, or(given("pitch_circle"), 45) / 2);
  const spokes = Math.max(2, Math.min(72, Math.round(or(given("spokes"), 28))));
  const crosses = given("crosses") ?? 0;
  const known = given("erd") !== null && given("pitch_circle") !== null && given("spokes") !== null;
  const length = num(outputs, "length");
  const bracing = num(outputs, "bracing_angle");
  const sheet = fitted(
    { left: -rim - 12, right: rim + 12, bottom: -rim - 4, top: rim + 12 },
    { left: 26, right: 26, bottom: 34, top: 12 },
    370,
  );
  const at = (point: Point) => sheet.at(point.x, point.y);
  const on = (degrees: number, radius: number): Point => ({ x: way(degrees).x * radius, y: way(degrees).y * radius });
  const half = Math.max(1, Math.floor(spokes / 2));
  const swing = (720 * crosses) / spokes;
  const lines = Array.from({ length: half }, (_, i) => {
    const hole = 90 + (360 * i) / half;
    return { hole: on(hole + (i % 2 === 0 ? -swing : swing), flange), nipple: on(hole, rim), key: i };
  });
  const first = lines[0];
  const centre = at({ x: 0, y: 0 });
  const foot = sheet.height - 16;
  return (
    <Drawing
      plan={sheet}
      says={say.spoke(
        length === null ? null : show(length, "mm", 1),
        given("crosses") === null ? null : formatNumber(crosses, 0),
      )}
    >
      <circle
        class={known ? "member member-ink" : "member member-guess"}
        cx={round(centre.x)}
        cy={round(centre.y)}
        r={round((rim + 9) * sheet.scale)}
      />
      <circle class="member member-thin" cx={round(centre.x)} cy={round(centre.y)} r={round(rim * sheet.scale)} />
      {lines.map((line) => (
        <path
          key={line.key}
          class={line.key === 0 && length !== null ? "member member-blue" : "spoke-other"}
          d={through(at(line.hole), at(line.nipple))}
        />
      ))}
      <circle class="member member-thin" cx={round(centre.x)} cy={round(centre.y)} r={round((flange + 4) * sheet.scale)} />
      <circle class="axis" cx={round(centre.x)} cy={round(centre.y)} r={round(flange * sheet.scale)} />
      <Datum at={centre} size={7} />
      {first === undefined ? null : (
        <text
          class="blue"
          x={round((at(first.hole).x + at(first.nipple).x) / 2 + 10)}
          y={round((at(first.hole).y + at(first.nipple).y) / 2)}
        >
          {length === null ? "?" : show(length, "mm", 1)}
        </text>
      )}
      <path
        class="extension"
        d={`M${round(at({ x: -rim, y: 0 }).x)} ${round(centre.y)} V${foot + 5} M${round(at({ x: rim, y: 0 }).x)} ${round(centre.y)} V${foot + 5}`}
      />
      <Dimension
        from={{ x: at({ x: -rim, y: 0 }).x, y: foot }}
        to={{ x: at({ x: rim, y: 0 }).x, y: foot }}
        text={given("erd") === null ? "?" : formatNumber(rim * 2, 1)}
      />
      {bracing === null ? null : (
        <text class="words" x={sheet.width - 8} y="20" text-anchor="end">
          {say.bracing(show(bracing, "°", 1))}
        </text>
      )}
    </Drawing>
  );
}
