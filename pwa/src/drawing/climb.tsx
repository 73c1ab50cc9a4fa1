/** The slope to scale with a wheel on it, and beneath it the cadence that the lowest gear leaves, on a ruled scale. */

import { formatNumber, show } from "../units";
import type { FigureProps } from "./catalogue";
import { Dimension } from "./dimension";
import { turned } from "./fit";
import { Drawing, round, through } from "./plan";
import { type Pointer, placed } from "./pointer-places";
import { num, or } from "./reading";
import { Band, Pointers, Ruled, rule } from "./scale";
import { drawingWords as say } from "./words";

const BASE = 262;
const SCALE = 100;

export function ClimbDrawing({ inputs, outputs }: FigureProps) {
  const gradient = num(inputs, "gradient");
  const rise = Math.max(-0.4, Math.min(0.5, or(gradient, 8) / 100));
  const speed = num(outputs, "speed");
  const cadence = num(outputs, "cadence");
  const least = num(inputs, "cadence_min");
  const slow = cadence !== null && least !== null && cadence < least;
  const top = Math.max(110, 110 + rise * BASE * 0.4);
  const line = top + SCALE;
  const sheet = { width: 360, height: line + 54, scale: 1, at: (x: number, y: number) => ({ x, y: -y }) };
  const degrees = (Math.atan(rise) * 180) / Math.PI;
  // The corner the road climbs from, the sheet's y running down.
  const foot = { x: 24, y: top + 8 + Math.max(0, rise) * 100 };
  const head = { x: foot.x + BASE, y: foot.y - rise * BASE };
  const on = (x: number, up: number) => {
    const p = turned({ x, y: up }, degrees);
    return { x: foot.x + p.x, y: foot.y - p.y };
  };
  const of = rule(30, Math.max(110, (cadence ?? 0) + 10), "rpm");
  const pointers: Pointer[] = [];
  if (least !== null) pointers.push({ value: least, text: say.least(formatNumber(least, 0)), dashed: true });
  if (cadence !== null) pointers.push({ value: cadence, text: formatNumber(cadence, 0), tone: slow ? "stop" : "blue" });
  const all = placed(of.at, pointers);
  const [rear, front, saddle, bb, bar] = [on(96, 26), on(172, 26), on(118, 82), on(128, 22), on(160, 80)];
  const shown = (value: number | null, unit: string, digits: number) => (value === null ? null : show(value, unit, digits));
  const [ring, cog, wanted] = [num(inputs, "ring_min"), num(inputs, "cog_max"), num(outputs, "cog_wanted")];
  return (
    <Drawing
      plan={sheet}
      says={say.climb(shown(gradient, "%", 1), shown(speed, "km/h", 1), shown(cadence, "rpm", 0), shown(least, "rpm", 0))}
    >
      <path class="ground" d={through(foot, head)} />
      <path
        class="extension"
        d={`${through(foot, { x: head.x + 12, y: foot.y })} ${through(head, { x: head.x + 24, y: head.y })} ${through({ x: head.x, y: foot.y }, { x: head.x + 24, y: foot.y })}`}
      />
      <Dimension from={{ x: head.x + 18, y: foot.y }} to={{ x: head.x + 18, y: head.y }} text="" />
      <text x={head.x + 28} y={round((head.y + foot.y) / 2 + 5)}>
        {gradient === null ? "?" : show(gradient, "%", 1)}
      </text>
      {[rear, front].map((axle) => (
        <circle
          key={axle.x}
          class={gradient === null ? "member member-guess" : "member member-ink"}
          cx={round(axle.x)}
          cy={round(axle.y)}
          r="25"
        />
      ))}
      <path
        class={gradient === null ? "member member-guess" : "member member-ink"}
        d={`${through(rear, bb, saddle)} ${through(on(112, 84), on(126, 83))} ${through(bb, on(159, 66), on(121, 66), rear)} ${through(bar, front)}`}
      />
      {speed === null ? null : (
        <>
          <path class="member member-blue" d={through(on(186, 62), on(186 + Math.min(70, 12 + speed * 2), 62))} />
          <path
            class="tip-blue"
            d={`M${through(on(194 + Math.min(70, 12 + speed * 2), 62), on(184 + Math.min(70, 12 + speed * 2), 66), on(184 + Math.min(70, 12 + speed * 2), 58)).slice(1)}Z`}
          />
          <text class="blue" x={round(on(190, 74).x)} y={round(on(190, 74).y)}>
            {show(speed, "km/h", 1)}
          </text>
        </>
      )}
      {least !== null && <Band of={of} y={line} height={24} band={{ from: of.low, to: least, kind: "care" }} />}
      <Ruled of={of} y={line} />
      <Pointers all={all} y={line - 26} foot={line} />
      <text class="words" x="180" y={line + 44} text-anchor="middle">
        {ring === null || cog === null ? "" : say.lowestGear(formatNumber(ring, 0), formatNumber(cog, 0))}
        {wanted === null ? "" : ` · ${say.wantedCog(formatNumber(wanted, 0))}`}
      </text>
    </Drawing>
  );
}
