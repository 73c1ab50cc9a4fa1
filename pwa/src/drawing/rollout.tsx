/** The wheel at both ends of one turn on the ground: what it rolls is what lies between the valve's two marks. */

import { formatNumber, show } from "../units";
import type { FigureProps } from "./catalogue";
import { Dimension } from "./dimension";
import { fitted } from "./fit";
import { Drawing, type Point, round } from "./plan";
import { num, or } from "./reading";
import { drawingWords as say } from "./words";

export function RolloutDrawing({ inputs, outputs }: FigureProps) {
  const rolled = num(outputs, "circumference");
  const diameter =
    num(outputs, "diameter") ??
    or(num(inputs, "bead_seat"), 622) + 2 * or(num(inputs, "tyre_height") ?? num(inputs, "tyre_width"), 28);
  const measured = num(inputs, "measured");
  const bead = num(inputs, "bead_seat");
  const length = rolled ?? Math.PI * diameter;
  const radius = diameter / 2;
  const known = rolled !== null;
  const sheet = fitted(
    { left: -radius - 60, right: Math.max(length, measured ?? 0) + radius + 20, bottom: 0, top: diameter },
    { left: 44, right: 6, bottom: measured === null ? 36 : 64, top: 30 },
    260,
  );
  const ground = sheet.at(0, 0).y;
  const [first, last] = [sheet.at(0, radius), sheet.at(length, radius)];
  const shown = (value: number | null) => (value === null ? null : show(value, "mm", 0));
  const line = ground + 22;
  const left = sheet.at(-radius, 0).x - 16;
  return (
    <Drawing plan={sheet} says={say.rollout(shown(num(outputs, "diameter")), shown(rolled), shown(measured))}>
      <path class="ground" d={`M0 ${round(ground)} H${sheet.width}`} />
      <Wheel
        at={first}
        radius={radius * sheet.scale}
        rim={bead === null ? null : (bead / 2) * sheet.scale}
        style={known ? "member-ink" : "member-guess"}
      />
      <Wheel
        at={last}
        radius={radius * sheet.scale}
        rim={bead === null ? null : (bead / 2) * sheet.scale}
        style="member-thin"
      />
      <path
        class="extension"
        d={`M${round(first.x)} ${round(ground + 3)} V${round(line + 5)} M${round(last.x)} ${round(ground + 3)} V${round(line + 5)}`}
      />
      <Dimension
        from={{ x: first.x, y: line }}
        to={{ x: last.x, y: line }}
        text={rolled === null ? "?" : show(rolled, "mm", 0)}
        tone="blue"
      />
      {measured === null ? null : (
        <>
          <path
            class="extension"
            d={`M${round(first.x)} ${round(line)} v33 M${round(sheet.at(measured, 0).x)} ${round(ground + 3)} V${round(line + 33)}`}
          />
          <Dimension
            from={{ x: first.x, y: line + 28 }}
            to={{ x: sheet.at(measured, 0).x, y: line + 28 }}
            text={`${say.measured} ${formatNumber(measured, 0)}`}
          />
        </>
      )}
      <path class="extension" d={`M${round(first.x)} ${round(first.y - radius * sheet.scale)} H${round(left - 4)}`} />
      <Dimension
        from={{ x: left, y: ground }}
        to={{ x: left, y: first.y - radius * sheet.scale }}
        text={known ? formatNumber(diameter, 0) : "?"}
      />
    </Drawing>
  );
}

/** Tyre, rim and the valve at the bottom, where the mark on the ground is made. */
function Wheel({ at, radius, rim, style }: { at: Point; radius: number; rim: number | null; style: string }) {
  const inner = rim ?? radius * 0.92;
  return (
    <g>
      <circle class={`member ${style}`} cx={round(at.x)} cy={round(at.y)} r={round(radius)} />
      <circle class="member member-thin" cx={round(at.x)} cy={round(at.y)} r={round(inner)} />
      <circle class="member member-thin" cx={round(at.x)} cy={round(at.y)} r="3" />
      <path class="member member-blue" d={`M${round(at.x)} ${round(at.y + inner - 12)} V${round(at.y + radius)}`} />
    </g>
  );
}
