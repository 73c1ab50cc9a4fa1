/** Largest ring and largest cog with the chain round both, link by link, to scale. */

import { formatNumber, show } from "../units";
import type { FigureProps } from "./catalogue";
import { Dimension } from "./dimension";
import { fitted } from "./fit";
import { Datum, Drawing, type Point, round } from "./plan";
import { num, or } from "./reading";
import { drawingWords as say } from "./words";

/** mm, ISO 606. */
const PITCH = 12.7;

const pitchRadius = (teeth: number) => PITCH / (2 * Math.sin(Math.PI / Math.max(3, teeth)));

export function ChainLineDrawing({ inputs, outputs }: FigureProps) {
  const given = (name: string) => num(inputs, name);
  const centres = or(given("chainstay"), 420);
  const ring = pitchRadius(or(given("ring_max"), 48));
  const cog = pitchRadius(or(given("cog_max"), 30));
  const known = given("chainstay") !== null && given("ring_max") !== null && given("cog_max") !== null;
  const pitches = num(outputs, "pitches");
  const length = num(outputs, "length_mm");
  const bb = { x: 0, y: 0 };
  const axle = { x: -centres, y: 0 };
  const widest = Math.max(ring, cog);
  const sheet = fitted(
    { left: -centres - cog - 8, right: ring + 8, bottom: -widest - 6, top: widest + 6 },
    { left: 8, right: 8, bottom: 56, top: 26 },
    300,
  );
  const at = (point: Point) => sheet.at(point.x, point.y);
  // Where the straight runs leave the circles.
  const lean = Math.asin(Math.max(-1, Math.min(1, (ring - cog) / centres)));
  const touch = (centre: Point, radius: number, side: 1 | -1) =>
    at({ x: centre.x - radius * Math.sin(lean), y: centre.y + side * radius * Math.cos(lean) });
  const [a, b, c, d] = [touch(axle, cog, 1), touch(bb, ring, 1), touch(bb, ring, -1), touch(axle, cog, -1)];
  const arc = (radius: number, end: Point, large: boolean) =>
    `A${round(radius * sheet.scale)} ${round(radius * sheet.scale)} 0 ${large ? 1 : 0} 1 ${round(end.x)} ${round(end.y)}`;
  const run = `M${round(a.x)} ${round(a.y)} L${round(b.x)} ${round(b.y)} ${arc(ring, c, ring >= cog)} L${round(d.x)} ${round(d.y)} ${arc(cog, a, cog > ring)}`;
  const small = (name: string, centre: Point) => {
    const teeth = given(name);
    return teeth === null ? null : (
      <circle
        class="member member-thin"
        cx={round(at(centre).x)}
        cy={round(at(centre).y)}
        r={round(pitchRadius(teeth) * sheet.scale)}
      />
    );
  };
  const line = sheet.height - 34;
  const link = round(PITCH * sheet.scale);
  return (
    <Drawing
      plan={sheet}
      says={say.chainLine(pitches === null ? null : formatNumber(pitches, 0), length === null ? null : show(length, "mm", 0))}
    >
      {small("ring_min", bb)}
      {small("cog_min", axle)}
      {known && <path class="chain-strand" d={run} stroke-dasharray={`${link} ${link}`} />}
      <path class={`member ${known ? "member-thin" : "member-guess"}`} d={run} />
      <Datum at={at(bb)} />
      <Datum at={at(axle)} />
      <text x={round(at(bb).x)} y={round(at(bb).y - 16)} text-anchor="middle">
        {given("ring_max") ?? "?"}
      </text>
      <text x={round(at(axle).x)} y={round(at(axle).y - 16)} text-anchor="middle">
        {given("cog_max") ?? "?"}
      </text>
      <path
        class="extension"
        d={`M${round(at(bb).x)} ${round(at(bb).y + 12)} V${line + 4} M${round(at(axle).x)} ${round(at(axle).y + 12)} V${line + 4}`}
      />
      <Dimension
        from={{ x: at(axle).x, y: line }}
        to={{ x: at(bb).x, y: line }}
        text={given("chainstay") === null ? "?" : formatNumber(centres, 1)}
      />
      <text class="blue" x={sheet.width / 2} y={round(sheet.height - 8)} text-anchor="middle">
        {pitches === null
          ? "?"
          : `${say.pitches(formatNumber(pitches, 0))}${length === null ? "" : ` · ${show(length, "mm", 0)}`}`}
      </text>
    </Drawing>
  );
}
