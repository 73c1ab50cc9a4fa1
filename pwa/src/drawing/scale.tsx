/** A ruled scale: the workshop's steel rule, in the person's own unit, with bands, pointers and a tool's error on it. */

import { formatNumber, fromBase, toBase, unitOf, unitSaid } from "../units";
import { round } from "./plan";
import { LINE, type Placed } from "./pointer-places";
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
          {unitSaid(unit)}
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
