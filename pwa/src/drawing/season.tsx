/** One setting over the season: a step line through its moves, with the rides, checks and baselines of the same days. */

import { dates } from "../languages/dates";
import { formatNumber, fromBase, unitOf } from "../units";
import { Drawing, round } from "./plan";
import { ticks } from "./scale";
import "./scale.css";
import "./season.css";

export interface Season {
  label: string;
  unit: string;
  /** Oldest first; `at` in milliseconds. */
  moves: { at: number; value: number }[];
  rides: { at: number; km: number }[];
  checks: { at: number; verdict: string }[];
  baselines: { at: number; name: string }[];
  until: number;
}

const FIELD = { left: 46, right: 350, top: 20, bottom: 168 };
const RIDES = 40;
const HEIGHT = FIELD.bottom + RIDES + 26;
const DAY = 86_400_000;

export function SeasonDrawing({ season, says }: { season: Season; says: string }) {
  const { moves, rides, checks, baselines, unit } = season;
  const first = Math.min(...[...moves, ...rides, ...checks, ...baselines].map((one) => one.at));
  const from = Number.isFinite(first) ? first : season.until - DAY;
  const span = Math.max(season.until - from, DAY);
  const x = (at: number) => round(FIELD.left + ((at - from) / span) * (FIELD.right - FIELD.left));
  const values = moves.map((one) => one.value);
  const [least, most] = [Math.min(...values), Math.max(...values)];
  const air = Math.max((most - least) * 0.25, Math.abs(most) * 0.002, 0.5);
  const [low, high] = [least - air, most + air];
  const y = (value: number) => round(FIELD.bottom - ((value - low) / (high - low)) * (FIELD.bottom - FIELD.top));
  const line = moves.map((one, i) => (i === 0 ? `M${x(one.at)} ${y(one.value)}` : `H${x(one.at)} V${y(one.value)}`));
  const longest = Math.max(1, ...rides.map((ride) => ride.km));
  const foot = FIELD.bottom + RIDES;
  const sheet = { width: 360, height: HEIGHT, scale: 1, at: (across: number, up: number) => ({ x: across, y: -up }) };
  const grid = ticks(low, high, unit, 4);
  const months = monthsBetween(from, from + span);
  const last = moves.at(-1);
  return (
    <Drawing plan={sheet} says={says}>
      <path class="season-grid" d={grid.map((tick) => `M${FIELD.left} ${y(tick.value)} H${FIELD.right}`).join(" ")} />
      {grid.map((tick) => (
        <text key={tick.text} class="scale-figure" x={FIELD.left - 6} y={y(tick.value) + 4} text-anchor="end">
          {tick.text}
        </text>
      ))}
      {months.map((month) => (
        <g key={month.at}>
          <path class="scale-tick" d={`M${x(month.at)} ${foot} v6`} />
          {month.told && (
            <text class="scale-figure" x={x(month.at)} y={foot + 20} text-anchor="middle">
              {month.text}
            </text>
          )}
        </g>
      ))}
      {baselines.map((one) => (
        <path key={one.at} class="season-baseline" d={`M${x(one.at)} ${FIELD.top - 8} V${FIELD.bottom}`} />
      ))}
      {rides.map((ride) => (
        <path key={ride.at} class="season-ride" d={`M${x(ride.at)} ${foot} v${round(-((RIDES - 12) * ride.km) / longest)}`} />
      ))}
      <path class="scale-line" d={`M${FIELD.left} ${foot} H${FIELD.right}`} />
      <path class="pointer pointer-blue" d={`${line.join(" ")} H${FIELD.right}`} />
      {moves.map((one) => (
        <circle key={one.at} class="member member-blue member-filled" cx={x(one.at)} cy={y(one.value)} r="4.5" />
      ))}
      {checks.map((one) => (
        <CheckMark key={one.at} at={x(one.at)} verdict={one.verdict} />
      ))}
      {last === undefined ? null : (
        <text class="blue" x={FIELD.right} y={y(last.value) - 9} text-anchor="end">
          {formatNumber(fromBase(last.value, unitOf(unit), unit), 2)} {unitOf(unit)}
        </text>
      )}
    </Drawing>
  );
}

/** The marks of a verdict, small, on the line of the days. */
function CheckMark({ at, verdict }: { at: number; verdict: string }) {
  const y = FIELD.bottom + 6;
  const r = 5;
  if (verdict === "care") return <path class="season-check" d={`M${at + 3} ${y - 4} A${r} ${r} 0 1 1 ${at - 3} ${y - 4}`} />;
  return (
    <g class={`season-check season-${verdict}`}>
      <circle cx={at} cy={y} r={r} />
      {verdict === "not-fit" ? <path d={`M${at - r} ${y} h${2 * r}`} /> : null}
    </g>
  );
}

const monthName = dates({ month: "short" });

/** The first of every month in between; told only as many as there is room for. */
function monthsBetween(from: number, until: number): { at: number; text: string; told: boolean }[] {
  const found: { at: number; text: string; told: boolean }[] = [];
  const day = new Date(from);
  day.setHours(0, 0, 0, 0);
  day.setDate(1);
  for (;;) {
    day.setMonth(day.getMonth() + 1);
    if (day.getTime() > until) break;
    found.push({ at: day.getTime(), text: monthName(day), told: true });
  }
  const each = Math.ceil(found.length / 8);
  return found.map((one, i) => ({ ...one, told: i % each === 0 }));
}
