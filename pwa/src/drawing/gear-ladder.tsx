/** Gears as rungs of a ruled ladder, one line a ring, on a logarithmic scale: equal steps stand equally far apart. */

import { formatNumber } from "../units";
import type { FigureProps } from "./catalogue";
import { Drawing, round } from "./plan";
import { num, rows } from "./reading";
import { drawingWords as say } from "./words";
import "./scale.css";

interface Rung {
  ring: number;
  cog: number;
  development: number;
}

const LEFT = 18;
const RIGHT = 344;
const RING = 62;

export function GearLadderDrawing({ outputs }: FigureProps) {
  const gears = rows(outputs, "gears").flatMap((row): Rung[] => {
    const [ring, cog, development] = [num(row, "ring"), num(row, "cog"), num(row, "development")];
    return ring !== null && cog !== null && development !== null && development > 0 ? [{ ring, cog, development }] : [];
  });
  const rings = [...new Set(gears.map((gear) => gear.ring))].sort((a, b) => b - a);
  const all = gears.map((gear) => gear.development);
  const low = all.length === 0 ? 2 : Math.min(...all) * 0.96;
  const high = all.length === 0 ? 10 : Math.max(...all) * 1.04;
  const at = (metres: number) => LEFT + (Math.log(metres / low) / Math.log(high / low)) * (RIGHT - LEFT);
  const top = 8;
  const foot = top + Math.max(1, rings.length) * RING + 8;
  const sheet = { width: 360, height: foot + 44, scale: 1, at: (x: number, y: number) => ({ x, y: -y }) };
  const metres = [0.5, 1, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 9, 10, 12, 14, 16].filter((value) => value >= low && value <= high);
  const short = (value: number) => `${formatNumber(value, 1)} m`;
  return (
    <Drawing
      plan={sheet}
      says={
        all.length === 0 ? say.ladderNothing : say.ladder(rings.join(", "), short(Math.min(...all)), short(Math.max(...all)))
      }
    >
      <path class="ladder-rule" d={metres.map((value) => `M${round(at(value))} ${top} V${foot}`).join(" ")} />
      {rings.map((ring, i) => (
        <Ring
          key={ring}
          ring={ring}
          y={top + i * RING + RING - 16}
          gears={gears.filter((gear) => gear.ring === ring)}
          at={at}
        />
      ))}
      <path class="scale-tick" d={metres.map((value) => `M${round(at(value))} ${foot} v8`).join(" ")} />
      <path class="scale-line" d={`M${LEFT} ${foot} H${RIGHT}`} />
      {metres.map((value) => (
        <text key={value} class="scale-figure" x={round(at(value))} y={foot + 21} text-anchor="middle">
          {formatNumber(value, 1)}
        </text>
      ))}
      <text class="words" x={RIGHT} y={foot + 39} text-anchor="end">
        {say.aTurn}
      </text>
    </Drawing>
  );
}

function Ring({ ring, y, gears, at }: { ring: number; y: number; gears: Rung[]; at: (metres: number) => number }) {
  const sorted = [...gears].sort((a, b) => a.development - b.development);
  let before = Number.NEGATIVE_INFINITY;
  let high = false;
  const rungs = sorted.map((gear) => {
    const x = at(gear.development);
    // Cogs close together take turns between two heights.
    high = x - before < 19 ? !high : false;
    before = x;
    return { ...gear, x, high };
  });
  return (
    <g>
      <text class="words blue" x={LEFT} y={y - 30}>
        {say.teeth(ring)}
      </text>
      <path class="member member-thin" d={`M${LEFT} ${y} H${RIGHT}`} />
      {rungs.map((rung) => (
        <path key={rung.cog} class="pointer pointer-blue" d={`M${round(rung.x)} ${rung.high ? y - 20 : y - 8} V${y + 4}`} />
      ))}
      {rungs.map((rung) => (
        <text key={rung.cog} class="rung" x={round(rung.x)} y={rung.high ? y - 24 : y - 12} text-anchor="middle">
          {rung.cog}
        </text>
      ))}
    </g>
  );
}
