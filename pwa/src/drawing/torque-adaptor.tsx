/** Wrench and adaptor from above, to scale: the drive, the joint that stands off it, and where the hand pulls. */

import { formatNumber, show } from "../units";
import { Angle } from "./angle";
import type { FigureProps } from "./catalogue";
import { Dimension } from "./dimension";
import { along, fitted, slab, way } from "./fit";
import { Axis, Datum, Drawing, type Point, round } from "./plan";
import { num, or } from "./reading";
import { drawingWords as say } from "./words";

export function TorqueAdaptorDrawing({ inputs, outputs }: FigureProps) {
  const given = (name: string) => num(inputs, name);
  const wrench = Math.max(20, or(given("wrench_length"), 180));
  const adaptor = Math.max(1, or(given("adaptor_length"), 45));
  const angle = or(given("adaptor_angle"), 0);
  const known = given("wrench_length") !== null && given("adaptor_length") !== null;
  const setting = num(outputs, "setting");
  const target = given("target");
  const drive = { x: 0, y: 0 };
  const grip = { x: wrench, y: 0 };
  // Straight out is away from the hand.
  const out = way(180 - angle);
  const joint = along(drive, out, adaptor);
  const sheet = fitted(
    {
      left: Math.min(0, joint.x) - 18,
      right: Math.max(wrench, joint.x) + 34,
      bottom: Math.min(0, joint.y) - 20,
      top: Math.max(0, joint.y) + 20,
    },
    { left: 22, right: 14, bottom: 66, top: 36 },
    330,
  );
  const at = (point: Point) => sheet.at(point.x, point.y);
  const style = known ? "member member-filled" : "member member-guess";
  const lowest = at({ x: 0, y: Math.min(0, joint.y) - 14 }).y;
  const line = lowest + 22;
  const head = round(14 * sheet.scale);
  const shown = (value: number | null) => (value === null ? null : show(value, "N·m", 1));
  return (
    <Drawing plan={sheet} says={say.adaptor(shown(setting), shown(target))}>
      <path class={style} d={slab(sheet, along(drive, { x: 1, y: 0 }, 8), { x: wrench - 45, y: 0 }, 5)} />
      <path class={style} d={slab(sheet, { x: wrench - 45, y: 0 }, { x: wrench + 30, y: 0 }, 9, 8)} />
      <path class={style} d={slab(sheet, drive, joint, 8, 7)} />
      <circle class={style} cx={round(at(drive).x)} cy={round(at(drive).y)} r={head} />
      <circle class={style} cx={round(at(joint).x)} cy={round(at(joint).y)} r={round(12 * sheet.scale)} />
      <path class="member member-blue" d={hexagon(at(joint), 7 * sheet.scale)} />
      <Axis from={at({ x: Math.min(joint.x, 0) - 16, y: 0 })} to={at({ x: wrench + 34, y: 0 })} />
      <Datum at={at(drive)} size={7} />
      <path class="arrow" d={`M${round(at(grip).x)} ${round(at(grip).y + 10)} l-4 14 h8 z`} />
      <path
        class="extension"
        d={`M${round(at(drive).x)} ${round(at(drive).y + 16)} V${round(line + 5)} M${round(at(grip).x)} ${round(at(grip).y + 24)} V${round(line + 5)} M${round(at(joint).x)} ${round(at(joint).y + 16)} V${round(line + 22)}`}
      />
      <Dimension
        from={{ x: at(drive).x, y: line }}
        to={{ x: at(grip).x, y: line }}
        text={given("wrench_length") === null ? "?" : formatNumber(wrench, 0)}
      />
      <Dimension
        from={at(joint)}
        to={at(drive)}
        off={angle < 0 ? -30 : 30}
        text={given("adaptor_length") === null ? "?" : formatNumber(adaptor, 0)}
      />
      {Math.abs(angle) >= 3 && Math.abs(angle) <= 177 && (
        <Angle
          at={at(drive)}
          from={angle > 0 ? 180 - angle : 180}
          to={angle > 0 ? 180 : 180 - angle}
          radius={30}
          text={`${formatNumber(Math.abs(angle), 0)}°`}
        />
      )}
      <text class="blue" x={round(at({ x: wrench + 34, y: 0 }).x)} y={round(at(grip).y - 20)} text-anchor="end">
        {setting === null ? "?" : say.setTo(show(setting, "N·m", 2))}
      </text>
      <text x={round(Math.max(56, at(joint).x))} y={round(line + 38)} text-anchor="middle">
        {target === null ? "?" : `${say.joint} ${show(target, "N·m", 1)}`}
      </text>
    </Drawing>
  );
}

function hexagon(at: Point, r: number): string {
  return `M${[0, 60, 120, 180, 240, 300].map((degrees) => `${round(at.x + way(degrees).x * r)} ${round(at.y + way(degrees).y * r)}`).join(" L")}Z`;
}
