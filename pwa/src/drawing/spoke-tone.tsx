/** The spoke as a string: sounding between its two ends, its free length beneath. */

import { show } from "../units";
import type { FigureProps } from "./catalogue";
import { Dimension } from "./dimension";
import { Drawing } from "./plan";
import { num } from "./reading";
import { drawingWords as say } from "./words";

const [LEFT, RIGHT, MIDDLE] = [30, 330, 62];

export function SpokeToneDrawing({ inputs, outputs }: FigureProps) {
  const tone = num(inputs, "tone");
  const length = num(inputs, "free_length");
  const tension = num(outputs, "tension");
  const sheet = { width: 360, height: 138, scale: 1, at: (x: number, y: number) => ({ x, y: -y }) };
  const shown = (value: number | null, unit: string, digits: number) => (value === null ? null : show(value, unit, digits));
  // A half wave, the whole string swinging one way.
  const belly = (swing: number) =>
    `M${LEFT} ${MIDDLE} C${LEFT + 105} ${MIDDLE - swing * 1.34} ${RIGHT - 105} ${MIDDLE - swing * 1.34} ${RIGHT} ${MIDDLE}`;
  return (
    <Drawing plan={sheet} says={say.string(shown(length, "mm", 0), shown(tone, "Hz", 0), shown(tension, "N", 0))}>
      <path class="axis" d={`M${LEFT - 18} ${MIDDLE} H${RIGHT + 18}`} />
      {[28, 20, 12].map((swing) => (
        <path key={swing} class="spoke-other" d={`${belly(swing)} ${belly(-swing)}`} />
      ))}
      <path class={tension === null ? "member member-guess" : "member member-blue"} d={belly(28)} />
      {/* nipple in the rim, and the elbow in the flange */}
      <path class="member member-filled" d={`M${LEFT - 14} ${MIDDLE - 6} h14 v12 h-14 z`} />
      <path
        class="member"
        d={`M${LEFT - 14} ${MIDDLE - 26} V${MIDDLE + 26} M${RIGHT} ${MIDDLE - 26} V${MIDDLE + 26} M${RIGHT} ${MIDDLE} h8 v10`}
      />
      <text x="180" y="16" text-anchor="middle">
        {tone === null ? "?" : show(tone, "Hz", 0)}
      </text>
      <text class="blue" x="180" y={MIDDLE + 5} text-anchor="middle">
        {tension === null ? "?" : show(tension, "N", 0)}
      </text>
      <path class="extension" d={`M${LEFT} ${MIDDLE + 30} V128 M${RIGHT} ${MIDDLE + 30} V128`} />
      <Dimension from={{ x: LEFT, y: 122 }} to={{ x: RIGHT, y: 122 }} text={length === null ? "?" : show(length, "mm", 0)} />
    </Drawing>
  );
}
