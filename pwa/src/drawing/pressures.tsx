/** Pressures on a ruled scale: what to pump to, and the caps never to be passed. */

import { show } from "../units";
import type { FigureProps } from "./catalogue";
import type { Pointer } from "./pointer-places";
import { num } from "./reading";
import { type Row, RuledDrawing } from "./ruled";
import { drawingWords as say } from "./words";

const bar = (value: number) => show(value, "bar", 2);

/** Room on the scale round what stands on it. */
function span(values: (number | null)[]): { low: number; high: number } {
  const all = values.filter((value) => value !== null);
  if (all.length === 0 || Math.max(...all) === 0) return { low: 0, high: 8 };
  return { low: Math.max(0, Math.min(...all) * 0.6 - 0.2), high: Math.max(...all) * 1.12 + 0.2 };
}

function row(name: string, pressure: number | null, cap: number | null, high: number): Row {
  const pointers: Pointer[] = [];
  if (pressure !== null)
    pointers.push({ value: pressure, text: bar(pressure), tone: cap !== null && pressure > cap ? "stop" : "blue" });
  if (cap !== null) pointers.push({ value: cap, text: `${say.cap} ${bar(cap)}`, tone: "stop", dashed: true });
  return { name, pointers, bands: cap === null ? [] : [{ from: cap, to: high, kind: "stop" }] };
}

export function TyrePressureDrawing({ outputs }: FigureProps) {
  const [front, rear, frontCap, rearCap] = ["front", "rear", "front_cap", "rear_cap"].map((name) => num(outputs, name)) as [
    number | null,
    number | null,
    number | null,
    number | null,
  ];
  const { low, high } = span([front, rear, frontCap, rearCap]);
  const told = [
    front === null ? null : `${say.front} ${bar(front)}${frontCap === null ? "" : `, ${say.cap} ${bar(frontCap)}`}.`,
    rear === null ? null : `${say.rear} ${bar(rear)}${rearCap === null ? "" : `, ${say.cap} ${bar(rearCap)}`}.`,
  ].filter((part) => part !== null);
  return (
    <RuledDrawing
      says={say.pressures(told.length === 0 ? say.nothingYet : told.join(" "))}
      low={low}
      high={high}
      base="bar"
      rows={[row(say.front, front, frontCap, high), row(say.rear, rear, rearCap, high)]}
    />
  );
}

interface Step {
  name: string;
  value: number | null;
  tone?: "ink" | "blue";
}

function Steps({ steps, limit }: { steps: Step[]; limit: number | null }) {
  const { low, high } = span([...steps.map((step) => step.value), limit]);
  const pointers: Pointer[] = steps.flatMap(({ name, value, tone }) =>
    value === null
      ? []
      : [{ value, text: `${name} ${bar(value)}`, tone: limit !== null && value > limit ? ("stop" as const) : (tone ?? "ink") }],
  );
  if (limit !== null) pointers.push({ value: limit, text: `${say.limit} ${bar(limit)}`, tone: "stop", dashed: true });
  const told = pointers.map((pointer) => `${pointer.text}.`).join(" ");
  return (
    <RuledDrawing
      says={say.pressures(told === "" ? say.nothingYet : told)}
      low={low}
      high={high}
      base="bar"
      rows={[{ pointers, bands: limit === null ? [] : [{ from: limit, to: high, kind: "stop" }] }]}
    />
  );
}

export function PressureChangeDrawing({ inputs, outputs }: FigureProps) {
  return (
    <Steps
      limit={num(inputs, "limit")}
      steps={[
        { name: say.before, value: num(inputs, "pressure") },
        { name: say.onTheDay, value: num(outputs, "pressure_new") },
        { name: say.toSet, value: num(outputs, "pressure_to_set"), tone: "blue" },
      ]}
    />
  );
}

export function InflateDrawing({ inputs, outputs }: FigureProps) {
  return (
    <Steps
      limit={num(inputs, "limit") ?? num(inputs, "max_tyre")}
      steps={[
        { name: say.start, value: num(inputs, "pressure_start") },
        { name: say.wanted, value: num(inputs, "pressure_target") },
        { name: say.after, value: num(outputs, "pressure_after"), tone: "blue" },
      ]}
    />
  );
}
