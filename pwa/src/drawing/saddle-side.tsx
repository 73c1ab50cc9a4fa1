/** Saddle and post from the drive side: how it stands on the old bike thin, on the new one in blue. */

import { formatNumber, show } from "../units";
import type { FigureProps } from "./catalogue";
import { Dimension } from "./dimension";
import { along, fitted, slab, way } from "./fit";
import { Axis, Datum, Drawing, type Plan, type Point, round, through } from "./plan";
import { num, or } from "./reading";
import { drawingWords as say } from "./words";

/** The saddle's outline from its reference point, mm: nose forward. For the drawing only. */
const OUTLINE: [number, number][] = [
  [-135, 8],
  [-60, 0],
  [60, 0],
  [135, -4],
  [128, -14],
  [40, -18],
  [-70, -34],
  [-130, -20],
];

export function SaddleDrawing({ inputs, outputs }: FigureProps) {
  const given = (name: string) => num(inputs, name);
  const result = (name: string) => num(outputs, name);
  const oldHeight = or(given("saddle_height"), 720);
  const newHeight = result("saddle_height_new");
  const setback = or(given("saddle_setback"), 190);
  const line = { x: -way(or(given("seat_angle"), 73.5)).x, y: way(or(given("seat_angle"), 73.5)).y };
  const known = given("saddle_height") !== null && given("saddle_setback") !== null && given("seat_angle") !== null;
  const origin = { x: 0, y: 0 };
  const onLine = (length: number) => along(origin, line, length);
  const old = { x: -setback, y: oldHeight * line.y };
  const now = { x: or(result("saddle_x"), old.x), y: result("saddle_y") ?? old.y };
  const tube = or(given("seat_tube"), 500);
  const rail = or(given("rail_to_top"), 45);
  const exposed = result("post_exposed");
  const inserted = result("post_inserted");
  const head = onLine(exposed === null ? (newHeight ?? oldHeight) - rail / line.y : tube + exposed);
  const top = Math.max(old.y, now.y);
  const sheet = fitted(
    { left: Math.min(old.x, now.x) - 140, right: Math.max(90, now.x + 150), bottom: -30, top: top + 10 },
    { left: 20, right: 20, bottom: 6, top: 60 },
    430,
  );
  const at = (point: Point) => sheet.at(point.x, point.y);
  const bb = at(origin);
  const clamp = { x: head.x - or(given("post_offset"), 0) * line.y * 0.9, y: now.y - rail };
  const shift = result("rail_shift");
  const height = newHeight ?? given("saddle_height");
  return (
    <Drawing
      plan={sheet}
      says={say.saddle(newHeight === null ? null : show(newHeight, "mm", 1), shift === null ? null : show(shift, "mm", 1))}
    >
      <Axis from={bb} to={at(onLine(oldHeight + 30))} />
      <path
        class={given("seat_tube") === null ? "member member-guess" : "member member-filled"}
        d={slab(sheet, onLine(24), onLine(tube), 16)}
      />
      <circle class="member member-filled" cx={round(bb.x)} cy={round(bb.y)} r={round(22 * sheet.scale)} />
      <Datum at={bb} size={7} />
      {inserted !== null && inserted > 0 && (
        <path class="member member-guess" d={slab(sheet, onLine(Math.max(0, tube - inserted)), onLine(tube), 12)} />
      )}
      <path class={exposed === null ? "member member-guess" : "member member-filled"} d={slab(sheet, onLine(tube), head, 13)} />
      <path class="member member-thin" d={through(at(head), at(clamp))} />
      <path
        class="member member-thin"
        d={`M${through(at({ x: now.x - 80, y: now.y - rail })).slice(1)} L${through(at({ x: now.x + 70, y: now.y - rail })).slice(1)}`}
      />
      {newHeight === null ? null : <path class="member member-blue" d={outline(sheet, now)} />}
      <path class={known ? "member member-thin" : "member member-guess"} d={outline(sheet, old)} />
      <path class="extension" d={`M${round(bb.x)} ${round(bb.y - 10)} V12 M${round(at(now).x)} ${round(at(now).y - 4)} V12`} />
      <Dimension
        from={{ x: at(now).x, y: 17 }}
        to={{ x: bb.x, y: 17 }}
        text={given("saddle_setback") === null ? "?" : formatNumber(setback, 1)}
      />
      <Dimension
        from={at(onLine(newHeight ?? oldHeight))}
        to={bb}
        off={54}
        text={height === null ? "?" : formatNumber(height, 1)}
        tone={newHeight === null ? "ink" : "blue"}
      />
      {exposed !== null && <Dimension from={at(head)} to={at(onLine(tube))} off={-34} text={formatNumber(exposed, 0)} />}
      {inserted !== null && inserted > 0 && (
        <Dimension
          from={at(onLine(tube))}
          to={at(onLine(Math.max(0, tube - inserted)))}
          off={-34}
          text={formatNumber(inserted, 0)}
          tone={inserted < or(given("min_insertion"), 0) ? "stop" : "ink"}
        />
      )}
    </Drawing>
  );
}

function outline(sheet: Plan, at: Point): string {
  return `${through(...OUTLINE.map(([x, y]) => sheet.at(at.x + x, at.y + y)))}Z`;
}
