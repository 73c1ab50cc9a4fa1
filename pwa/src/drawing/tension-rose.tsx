/** Tensions round the wheel as a rose, left and right: every spoke a ray, the mean a circle, the band round it hatched. */

import { formatNumber, show } from "../units";
import type { FigureProps } from "./catalogue";
import { way } from "./fit";
import { Datum, Drawing, round } from "./plan";
import { num, nums } from "./reading";
import "./scale.css";
import { drawingWords as say } from "./words";

/** What a spoke may be off the mean, share. Common practice. */
const BAND = 0.2;
/** Each side by its own mean: what counts is how far a spoke is off its fellows. */
const MEAN = 56;

export function TensionRoseDrawing({ inputs, outputs }: FigureProps) {
  const sides = (["left", "right"] as const).map((side) => {
    const tensions = nums(inputs, `tensions_${side}`);
    return { side, tensions, mean: num(outputs, `mean_${side}`), spread: num(outputs, `spread_${side}`) };
  });
  const isOff = (tension: number, mean: number | null) => mean !== null && mean > 0 && Math.abs(tension / mean - 1) > BAND;
  const off = sides.reduce((sum, side) => sum + side.tensions.filter((one) => isOff(one, side.mean)).length, 0);
  const shown = (value: number | null | undefined) => (value === null || value === undefined ? null : show(value, "N", 0));
  const sheet = { width: 360, height: 214, scale: 1, at: (x: number, y: number) => ({ x, y: -y }) };
  return (
    <Drawing plan={sheet} says={say.rose(shown(sides[0]?.mean), shown(sides[1]?.mean), off)}>
      {sides.map(({ side, tensions, mean, spread }, i) => {
        const centre = { x: 92 + i * 176, y: 104 };
        const own = mean ?? Math.max(1, ...tensions);
        const ring = (value: number) => Math.min(1.35, Math.max(0, value / own)) * MEAN;
        const low = mean === null ? 0 : ring(mean * (1 - BAND));
        const high = mean === null ? 0 : ring(mean * (1 + BAND));
        return (
          <g key={side}>
            <text class="words" x={centre.x} y="14" text-anchor="middle">
              {say[side]}
            </text>
            {mean === null ? (
              <circle class="member member-guess" cx={centre.x} cy={centre.y} r={MEAN} />
            ) : (
              <>
                <path class="rose-band" fill-rule="evenodd" d={`${circle(centre, high)} ${circle(centre, low)}`} />
                <circle class="pointer" cx={centre.x} cy={centre.y} r={round(ring(mean))} />
              </>
            )}
            {tensions.map((tension, n) => {
              const ray = way(90 - (360 * n) / tensions.length);
              const tip = { x: centre.x + ray.x * ring(tension), y: centre.y - ray.y * ring(tension) };
              const tone = isOff(tension, mean) ? "stop" : "ink";
              return (
                <g key={n}>
                  <path class={`pointer pointer-${tone}`} d={`M${centre.x} ${centre.y} L${round(tip.x)} ${round(tip.y)}`} />
                  <circle class={`tip tip-${tone}`} cx={round(tip.x)} cy={round(tip.y)} r={tone === "stop" ? 5 : 3.2} />
                </g>
              );
            })}
            <Datum at={centre} size={6} />
            <text class="blue" x={centre.x} y="198" text-anchor="middle">
              {mean === null ? "?" : `${say.mean} ${show(mean, "N", 0)}`}
            </text>
            {spread === null ? null : (
              <text class="scale-figure" x={centre.x} y="213" text-anchor="middle">
                ± {formatNumber(spread, 0)} %
              </text>
            )}
          </g>
        );
      })}
    </Drawing>
  );
}

function circle(at: { x: number; y: number }, r: number): string {
  return `M${round(at.x - r)} ${at.y} a${round(r)} ${round(r)} 0 1 0 ${round(2 * r)} 0 a${round(r)} ${round(r)} 0 1 0 ${round(-2 * r)} 0 Z`;
}
