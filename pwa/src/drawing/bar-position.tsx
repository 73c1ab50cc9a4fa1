/** Where the bar sits: the front end with stack and reach, and the bar's own two dimensions in blue. */

import { formatNumber, show } from "../units";
import { Angle } from "./angle";
import type { FigureProps } from "./catalogue";
import { Dimension } from "./dimension";
import { fitted } from "./fit";
import { FrontEnd, frontPoints } from "./front-end-parts";
import { Datum, Drawing, round } from "./plan";
import { num, or } from "./reading";
import { drawingWords as say } from "./words";

export function BarPositionDrawing({ inputs, outputs }: FigureProps) {
  const given = (name: string) => num(inputs, name);
  const n = {
    stack: or(given("stack"), 560),
    reach: or(given("reach"), 385),
    headAngle: or(given("head_angle"), 72),
    cover: or(given("headset_cover"), 10),
    spacers: or(given("spacers"), 15),
    stemHeight: or(given("stem_height"), 40),
    stemLength: or(given("stem_length"), 100),
    stemAngle: or(given("stem_angle"), -6),
  };
  const known = {
    frame: ["stack", "reach", "head_angle"].every((name) => given(name) !== null),
    stem: ["headset_cover", "spacers", "stem_length", "stem_angle"].every((name) => given(name) !== null),
  };
  const p = frontPoints(n);
  const [x, y] = [num(outputs, "bar_x"), num(outputs, "bar_y")];
  const sheet = fitted(
    {
      left: Math.min(-20, p.stemTop.x - 30),
      right: Math.max(p.bar.x, p.headBottom.x) + 24,
      bottom: -14,
      top: Math.max(p.bar.y, p.stemTop.y) + 30,
    },
    { left: 46, right: 52, bottom: 34, top: 34 },
    430,
  );
  const at = (point: { x: number; y: number }) => sheet.at(point.x, point.y);
  const bb = sheet.at(0, 0);
  const [top, bar] = [at(p.headTop), at(p.bar)];
  const floor = sheet.height - 14;
  const edge = sheet.width - 25;
  const number = (value: number | null) => (value === null ? "?" : formatNumber(value, 1));
  return (
    <Drawing plan={sheet} says={say.frontEnd(x === null ? null : show(x, "mm", 1), y === null ? null : show(y, "mm", 1))}>
      <path class="extension" d={`M${round(top.x - 12)} ${round(top.y)} H20 M${round(bb.x - 12)} ${round(bb.y)} H20`} />
      <path
        class="extension"
        d={`M${round(top.x)} ${round(top.y + 8)} V${floor + 4} M${round(bb.x)} ${round(bb.y + 12)} V${floor + 4}`}
      />
      <path
        class="extension"
        d={`M${round(bar.x + 14)} ${round(bar.y)} H${edge + 4} M${round(bb.x + 12)} ${round(bb.y)} H${edge + 4}`}
      />
      <path class="extension" d={`M${round(bar.x)} ${round(bar.y - 14)} V12 M${round(bb.x)} ${round(bb.y - 12)} V12`} />
      <FrontEnd sheet={sheet} n={n} p={p} known={known} />
      <Datum at={bb} />
      <Angle
        at={at(p.headBottom)}
        from={180 - n.headAngle}
        to={180}
        radius={34}
        text={given("head_angle") === null ? "?" : `${formatNumber(n.headAngle, 1)}°`}
      />
      <path class="extension" d={`M${round(at(p.headBottom).x)} ${round(at(p.headBottom).y)} h-44`} />
      <Dimension from={{ x: 25, y: bb.y }} to={{ x: 25, y: top.y }} text={number(given("stack"))} />
      <Dimension from={{ x: bb.x, y: floor }} to={{ x: top.x, y: floor }} text={number(given("reach"))} />
      <Dimension from={{ x: edge, y: bb.y }} to={{ x: edge, y: bar.y }} text={number(y)} tone="blue" />
      <Dimension from={{ x: bb.x, y: 17 }} to={{ x: bar.x, y: 17 }} text={number(x)} tone="blue" />
    </Drawing>
  );
}
