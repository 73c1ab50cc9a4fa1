/** A ruled scale: the workshop's steel rule, in the person's own unit, with bands, pointers and a tool's error on it. */

import { formatNumber, fromBase, toBase, unitOf } from "../units";
import { round } from "./plan";
import "./scale.css";

export interface Rule {
  low: number;
  high: number;
  base: string;
  left: number;
  right: number;
  /** From a value in base units to its place across the sheet. */
  at: (value: number) => number;
}

export function rule(low: number, high: number, base: string, left = 16, right = 344): Rule {
  const span = high - low || 1;
  const at = (value: number) => left + Math.min(1, Math.max(0, (value - low) / span)) * (right - left);
  return { low, high, base, left, right, at };
}

/** 1, 2 or 5 times a power of ten, so that about `most` of them cover `span`. */
export function evenStep(span: number, most: number): number {
  if (!(span > 0)) return 1;
  const raw = span / most;
  const power = 10 ** Math.floor(Math.log10(raw));
  return (raw <= power ? 1 : raw <= 2 * power ? 2 : raw <= 5 * power ? 5 : 10) * power;
}

/** Even figures in the person's unit, and where they stand in base units. */
export function ticks(low: number, high: number, base: string, most = 6): { value: number; text: string }[] {
  const unit = unitOf(base);
  const [a, b] = [fromBase(low, unit, base), fromBase(high, unit, base)].sort((x, y) => x - y) as [number, number];
  const step = evenStep(b - a, most);
  const digits = Math.max(0, -Math.floor(Math.log10(step) + 1e-9));
  const first = Math.ceil(a / step - 1e-9);
  const count = Math.min(60, Math.floor(b / step + 1e-9) - first + 1);
  return Array.from({ length: Math.max(0, count) }, (_, i) => {
    const shown = (first + i) * step;
    return { value: toBase(shown, unit, base), text: formatNumber(shown, digits) };
  });
}

/** The ruled line with its figures beneath and the unit at its end. */
export function Ruled({ of, y, figures = true }: { of: Rule; y: number; figures?: boolean }) {
  const unit = unitOf(of.base);
  const long = ticks(of.low, of.high, of.base);
  const short = ticks(of.low, of.high, of.base, 30);
  const edge = of.right - (unit === "" ? 0 : unit.length * 7 + 16);
  return (
    <g>
      <path class="scale-tick" d={short.map((tick) => `M${round(of.at(tick.value))} ${y} v5`).join(" ")} />
      <path class="scale-tick" d={long.map((tick) => `M${round(of.at(tick.value))} ${y} v10`).join(" ")} />
      <path class="scale-line" d={`M${of.left} ${y} H${of.right}`} />
      {figures &&
        long.map((tick) =>
          of.at(tick.value) > edge ? null : (
            <text key={tick.text} class="scale-figure" x={round(of.at(tick.value))} y={y + 23} text-anchor="middle">
              {tick.text}
            </text>
          ),
        )}
      {figures && unit !== "" && (
        <text class="scale-figure" x={of.right + 8} y={y + 23} text-anchor="end">
          {unit}
        </text>
      )}
    </g>
  );
}

export interface BandOn {
  from: number;
  to: number;
  kind: "plain" | "fine" | "care" | "stop" | "blue";
}

/** Stop is hatched as well as coloured: it has to be read on paper and in the sun. */
export function Band({ of, y, height, band }: { of: Rule; y: number; height: number; band: BandOn }) {
  const x = of.at(band.from);
  const width = of.at(band.to) - x;
  if (!(width > 0)) return null;
  const box = { x: round(x), y: round(y - height), width: round(width), height };
  return (
    <g>
      <rect class={`band-${band.kind}`} {...box} />
      {band.kind === "stop" && <rect fill="url(#hatch)" opacity="0.45" {...box} />}
    </g>
  );
}

export interface Pointer {
  value: number;
  text: string;
  tone?: "ink" | "blue" | "stop";
  dashed?: boolean;
}

/** The height of one line of pointers' figures. */
export const LINE = 19;
const FIGURE = 8.4;
/** The sheet's edges. */
const [SHEET_LEFT, SHEET_RIGHT] = [3, 357];

interface Placed extends Pointer {
  x: number;
  /** Where the text begins and ends across the sheet. */
  from: number;
  to: number;
  level: number;
}

/**
 * Where every pointer's text stands so that none runs into another and no pointer crosses a text: over its pointer where there
 * is room; two that are close turn away from each other; more are stacked like flags, each pole clear of the flags below.
 */
export function placed(of: Rule, pointers: Pointer[]): Placed[] {
  const all = [...pointers]
    .sort((a, b) => a.value - b.value)
    .map((pointer): Placed => {
      const x = of.at(pointer.value);
      const width = pointer.text.length * FIGURE;
      const from = Math.max(SHEET_LEFT, Math.min(SHEET_RIGHT - width, x - width / 2));
      return { ...pointer, x, from, to: from + width, level: 0 };
    });
  const groups: Placed[][] = [];
  for (const one of all) {
    const last = groups.at(-1);
    const before = last?.at(-1);
    if (last !== undefined && before !== undefined && one.from < before.to + FIGURE) last.push(one);
    else groups.push([one]);
  }
  return groups.flatMap(spread);
}

const OFF = 5;

function toLeft(one: Placed): Placed {
  const width = one.to - one.from;
  return { ...one, from: one.x - OFF - width, to: one.x - OFF };
}

function toRight(one: Placed): Placed {
  const width = one.to - one.from;
  return { ...one, from: one.x + OFF, to: one.x + OFF + width };
}

function spread(group: Placed[]): Placed[] {
  const [first, last] = [group[0], group.at(-1)];
  if (group.length < 2 || first === undefined || last === undefined) return group;
  const [left, right] = [toLeft(first), toRight(last)];
  const middle = group.slice(1, -1);
  if (left.from >= SHEET_LEFT && right.to <= SHEET_RIGHT && middle.length <= 1) {
    const clear = middle.every((one) => one.from > left.to + OFF && one.to < right.from - OFF);
    return [left, ...middle.map((one) => (clear ? one : { ...one, level: 1 })), right];
  }
  const flags = group.map(toLeft);
  if (flags.every((one) => one.from >= SHEET_LEFT)) return flags.map((one, i) => ({ ...one, level: i }));
  return group.map(toRight).map((one, i) => ({ ...one, level: group.length - 1 - i }));
}

export function lines(all: Placed[]): number {
  return all.reduce((most, one) => Math.max(most, one.level + 1), 0);
}

/** Pointers down onto the scale: their texts above `y`, their feet at `foot`. */
export function Pointers({ all, y, foot }: { all: Placed[]; y: number; foot: number }) {
  return (
    <g>
      {all.map((one) => (
        <path
          key={`${one.text} line`}
          class={`pointer pointer-${one.tone ?? "ink"}${one.dashed ? " pointer-dashed" : ""}`}
          d={`M${round(one.x)} ${round(y - one.level * LINE - (one.x < one.from || one.x > one.to ? 18 : 4))} V${foot}`}
        />
      ))}
      {all.map((one) =>
        one.dashed ? null : (
          <path key={`${one.text} tip`} class={`tip tip-${one.tone ?? "ink"}`} d={`M${round(one.x)} ${foot} l-4 -9 h8 Z`} />
        ),
      )}
      {all.map((one) => (
        <text
          key={one.text}
          class={one.tone === "blue" ? "blue" : one.tone === "stop" ? "stop" : undefined}
          x={round((one.from + one.to) / 2)}
          y={round(y - one.level * LINE - 8)}
          text-anchor="middle"
        >
          {one.text}
        </text>
      ))}
    </g>
  );
}

/** How far a value may be off: a line with an end stop at each side. */
export function Whisker({ of, y, from, to }: { of: Rule; y: number; from: number; to: number }) {
  const [a, b] = [round(of.at(from)), round(of.at(to))];
  return <path class="whisker" d={`M${a} ${y - 6} v12 M${a} ${y} H${b} M${b} ${y - 6} v12`} />;
}
