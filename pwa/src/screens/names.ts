/** What measured and set things are called, their units and steps: from the declarations, so each is said once. */

import { useEffect, useState } from "preact/hooks";
import { kernel } from "../kernel/client";
import type { Quantity, Setting } from "../kernel/types";
import { said } from "../languages/spoken";

export interface Named {
  label: string;
  unit: string;
  step?: number | undefined;
  digits?: number | undefined;
  possible?: [number, number] | undefined;
  help?: string | undefined;
  start?: number | undefined;
}

export interface Names {
  of: (name: string) => Named;
  /** Everything with a number and a unit that can be measured, by label. */
  measurable: { name: string; label: string }[];
  settings: Setting[];
}

const bare: Names = { of: (name) => ({ label: spaced(name), unit: "" }), measurable: [], settings: [] };
let known: Names | null = null;

export function useNames(): Names {
  const [names, setNames] = useState(known ?? bare);
  useEffect(() => {
    let over = false;
    void load().then((loaded) => {
      if (!over) setNames(loaded);
    });
    return () => {
      over = true;
    };
  }, []);
  return names;
}

async function load(): Promise<Names> {
  if (known !== null) return known;
  const [calculations, settings] = await Promise.all([kernel.declarations(), kernel.settings()]);
  const found = new Map<string, Named>();
  const keep = (quantity: Quantity) => {
    if (quantity.kind !== "number") return;
    const known = found.get(quantity.name);
    if (known !== undefined) {
      // What one calculation cannot take may still be measured where another can.
      if (known.unit === quantity.unit) known.possible = wider(known.possible, quantity.possible);
      return;
    }
    const { label, unit, step, digits, possible, plausible, help } = quantity;
    const start = plausible === undefined ? undefined : Math.round((plausible[0] + plausible[1]) / 2);
    found.set(quantity.name, { label, unit, step, digits, possible, help, start });
  };
  for (const calculation of calculations) calculation.inputs.forEach(keep);
  // A setting's own name is the one on the bike; a calculation may call it after its purpose there.
  for (const { setting, label, unit, step, possible } of settings) {
    found.set(setting, { digits: step < 1 ? 2 : 1, ...found.get(setting), label, unit, step, possible });
  }
  const measurable = [...found].filter(([, one]) => one.unit !== "").map(([name, one]) => ({ name, label: one.label }));
  measurable.sort((a, b) => a.label.localeCompare(b.label));
  known = { of: (name) => found.get(name) ?? { label: spaced(name), unit: "" }, measurable, settings };
  return known;
}

type Span = [number, number] | undefined;

function wider(one: Span, other: Span): Span {
  return one && other && [Math.min(one[0], other[0]), Math.max(one[1], other[1])];
}

/** An id as words, in the person's language: `wheel-front` is "Wheel front". */
export function spaced(name: string): string {
  const text = name.replaceAll(/[_-]/g, " ");
  return said(text.charAt(0).toUpperCase() + text.slice(1));
}
