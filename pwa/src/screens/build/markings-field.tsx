/** What is marked on a part: torque limits, least insertion, least rotor, weight and pressure limits. The mark always wins. */

import { useState } from "preact/hooks";
import { Choice } from "../../controls/choice";
import { NumberField } from "../../controls/number-field";
import { MARKING } from "../../controls/ranges";
import { kernel } from "../../kernel/client";
import { spaced } from "../names";
import { useAsked } from "./asked";
import { w } from "./words";

export type Markings = Record<string, number | string | boolean>;

/** The unit of a marking by its name. */
export function markingUnit(name: string): string {
  if (/pressure/.test(name)) return "bar";
  if (/insertion|spacer|rotor|plug/.test(name)) return "mm";
  if (/mass|weight|load/.test(name)) return "kg";
  if (/chain_limit/.test(name)) return "%";
  if (/cog|capacity|speeds|ring_/.test(name)) return "";
  if (/( limit| min|_limit|bolt)$/.test(name)) return "N·m";
  return "";
}

/** What parts in a slot are marked with, beside the torques of their joints. */
const USUAL: Record<string, string[]> = {
  frame: ["seat_clamp_limit", "max_bottle_bolt"],
  fork: ["spacer_limit", "stem_clamp_limit"],
  stem: ["face_plate_limit", "steerer_clamp_limit"],
  bar: ["stem_clamp_limit", "lever_clamp_limit"],
  seatpost: ["min_insertion", "clamp_limit", "rail_clamp_limit"],
  saddle: ["rail_clamp_limit"],
  chain: ["chain_limit"],
  "wheel-front": ["max_pressure_front"],
  "wheel-rear": ["max_pressure_rear"],
  "tyre-front": ["max_pressure_front"],
  "tyre-rear": ["max_pressure_rear"],
  "rotor-front": ["rotor_min_front"],
  "rotor-rear": ["rotor_min_rear"],
};

export function markingLabel(name: string): string {
  return w.markings.names[name] ?? spaced(name);
}

export function MarkingsField({
  slot,
  value,
  onChange,
}: {
  slot: string;
  value: Markings;
  onChange: (value: Markings) => void;
}) {
  // In the order they were opened in, with a value or still without.
  const [opened, setOpened] = useState<string[]>(() => Object.keys(value));
  const [other, setOther] = useState<string | null>(null);
  const joints = useAsked(() => kernel.torques({ parts: [], joints: {} }), 0) ?? [];
  const shown = [...new Set([...opened, ...Object.keys(value)])];
  const usual = (USUAL[slot] ?? []).filter((name) => !shown.includes(name));
  const others = joints
    .filter((one) => !one.by_feel)
    .flatMap((one) => [`${one.joint} limit`, `${one.joint} min`])
    .concat(Object.values(USUAL).flat())
    .filter((name, i, all) => all.indexOf(name) === i && !shown.includes(name) && !usual.includes(name));
  const put = (name: string, next: number | null) => {
    const { [name]: _old, ...rest } = value;
    // Emptied, or not to be taken as it is being typed: its field stays.
    if (next === null) open(name);
    onChange(next === null ? rest : { ...rest, [name]: next });
  };
  const open = (name: string) => setOpened((all) => (all.includes(name) ? all : [...all, name]));
  return (
    <fieldset class="rows">
      <legend>{w.markings.title}</legend>
      <p class="quiet">{w.markings.help}</p>
      {shown.map((name) => {
        const marked = value[name];
        if (typeof marked === "string" || typeof marked === "boolean") {
          return (
            <p key={name}>
              {markingLabel(name)}: <strong>{String(marked)}</strong>
            </p>
          );
        }
        const unit = markingUnit(name);
        return (
          <NumberField
            key={name}
            label={markingLabel(name)}
            unit={unit}
            value={marked ?? null}
            onChange={(next) => put(name, next)}
            step={unit === "N·m" ? 0.5 : unit === "bar" ? 0.1 : 1}
            digits={2}
            possible={MARKING}
            start={unit === "N·m" ? 5 : undefined}
            optional
          />
        );
      })}
      {usual.length > 0 && (
        <fieldset class="buttons">
          <legend class="unseen">{w.markings.usual}</legend>
          {usual.map((name) => (
            <button type="button" key={name} class="button small" onClick={() => open(name)}>
              + {markingLabel(name)}
            </button>
          ))}
        </fieldset>
      )}
      <Choice
        label={w.markings.other}
        options={others.map((name) => ({ value: name, label: markingLabel(name) }))}
        value={other}
        onChange={(name) => {
          if (name !== null) open(name);
          setOther(null);
        }}
        optional
      />
    </fieldset>
  );
}
