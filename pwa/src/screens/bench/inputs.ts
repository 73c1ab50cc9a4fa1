/** A calculation's inputs as they stand on the sheet, and what still has to be given. */

import { isSpread } from "../../controls/quantity-field";
import type { BikeState, Calculation, Quantity } from "../../kernel/types";

export type Inputs = Record<string, unknown>;

/** What goes to the kernel: empty fields left out. */
export function given(inputs: Inputs): Inputs {
  return Object.fromEntries(Object.entries(inputs).filter(([, value]) => value !== null && value !== undefined));
}

export function missing(calculation: Calculation, inputs: Inputs): string[] {
  return calculation.inputs
    .filter((one) => !one.optional && one.default === null && (inputs[one.name] === null || inputs[one.name] === undefined))
    .map((one) => one.label);
}

/** Plain numbers for the drawing: defaults filled in, a ± taken off. */
export function drawn(calculation: Calculation, inputs: Inputs): Inputs {
  return Object.fromEntries(
    calculation.inputs.map((one) => {
      const value = inputs[one.name] ?? one.default;
      if (one.kind === "rows" && Array.isArray(value)) return [one.name, value.map((row) => drawnRow(one, row))];
      return [one.name, figure(one, value)];
    }),
  );
}

function drawnRow(rows: Quantity, row: Inputs): Inputs {
  const fields = (rows.fields ?? []).map((field) => [field.name, figure(field, row[field.name]) ?? undefined]);
  return { ...row, ...Object.fromEntries(fields) };
}

/** What was typed and is no number is for the calculation to refuse; a drawing goes without. */
function figure({ kind }: Quantity, value: unknown): unknown {
  if (typeof value === "string" && ["number", "whole", "numbers"].includes(kind)) return null;
  return isSpread(value) ? value.value : value;
}

/** What a bike's record knows of a calculation's inputs: measures, settings and markings of the same names and units. */
export function fromBike(calculation: Calculation, state: BikeState): Inputs {
  const markings: Record<string, unknown> = {};
  for (const part of state.parts) Object.assign(markings, part.markings ?? {});
  const found: Inputs = {};
  for (const { name, kind, unit } of calculation.inputs) {
    const measured = state.measures[name];
    const set = state.settings[name];
    const newer = set !== undefined && (measured === undefined || set.at >= measured.at) ? set : measured;
    const marked = markings[name];
    if (newer !== undefined && (newer.unit ?? unit) === unit && (kind === "number" || kind === "whole")) {
      const span = "plus_minus" in newer ? newer.plus_minus : null;
      found[name] = span && kind === "number" ? { value: newer.value, plus_minus: span } : newer.value;
    } else if (
      marked !== undefined &&
      typeof marked === (kind === "flag" ? "boolean" : kind === "choice" ? "string" : "number")
    ) {
      found[name] = marked;
    }
  }
  return found;
}
