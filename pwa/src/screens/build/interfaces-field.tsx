/** What a part joins to: kinds of interface with their dimensions. Kinds that its slot usually carries come first. */

import { useState } from "preact/hooks";
import { Choice, Flag } from "../../controls/choice";
import { NumberField } from "../../controls/number-field";
import { DIMENSION } from "../../controls/ranges";
import { TextField } from "../../controls/text-field";
import type { Interface } from "../../kernel/build-types";
import { said } from "../../languages/spoken";
import { w } from "./words";
import "./parts.css";

export type Carried = Record<string, unknown> & { kind: string };

/** What a part in a slot usually carries. */
const USUAL: Record<string, string[]> = {
  frame: ["shell", "head-tube", "seat-tube", "axle-seat", "caliper-seat", "clearance", "front-mech-seat", "load-limit"],
  fork: ["steerer", "axle-seat", "caliper-seat", "clearance"],
  headset: ["headset"],
  stem: ["stem-bore", "bar-clamp"],
  bar: ["bar"],
  seatpost: ["seatpost", "rail-clamp"],
  saddle: ["rails"],
  "wheel-front": ["hub", "rim", "rotor-mount"],
  "wheel-rear": ["hub", "rim", "rotor-mount", "freehub"],
  "tyre-front": ["tyre"],
  "tyre-rear": ["tyre"],
  valves: ["valve"],
  axles: ["axle"],
  "bottom-bracket": ["shell-fit", "spindle-seat"],
  crank: ["spindle", "crank-rings", "ring-mount", "pedal-eye"],
  chainring: ["ring-pattern"],
  cassette: ["cassette"],
  chain: ["chain"],
  "rear-mech": ["rear-mech"],
  "front-mech": ["front-mech"],
  shifters: ["shifter", "brake-lever"],
  "brake-front": ["caliper"],
  "brake-rear": ["caliper"],
  "rotor-front": ["rotor"],
  "rotor-rear": ["rotor"],
  hoses: ["hose", "route"],
  pedals: ["pedal"],
  battery: ["post-insert", "ports", "plugs"],
};

interface Props {
  slot: string;
  kinds: Interface[];
  /** The workshop's own kinds: nobody but the workshop knows how far their dimensions go. */
  own: Interface[];
  value: Carried[];
  onChange: (value: Carried[]) => void;
}

export function InterfacesField({ slot, kinds: shipped, own, value, onChange }: Props) {
  const kinds = [...shipped, ...own];
  const [other, setOther] = useState<string | null>(null);
  const usual = (USUAL[slot] ?? []).filter((kind) => !value.some((one) => one.kind === kind));
  const label = (kind: string) => kinds.find((one) => one.kind === kind)?.label ?? kind;
  const add = (kind: string) => onChange([...value, { kind }]);
  return (
    <fieldset class="rows">
      <legend>{w.interfaces.title}</legend>
      <p class="quiet">{w.interfaces.help}</p>
      {value.map((carried, at) => {
        const kind = kinds.find((one) => one.kind === carried.kind);
        return (
          <div class="rows-row" key={`${carried.kind}${at}`}>
            <div class="rows-head">
              <strong class="rows-title">{label(carried.kind)}</strong>
              <button type="button" class="plain" onClick={() => onChange(value.filter((_, i) => i !== at))}>
                {w.interfaces.takeAway}
                <span class="unseen"> {label(carried.kind)}</span>
              </button>
            </div>
            {(kind?.fields ?? []).map((field) => (
              <Dimension
                key={field.name}
                field={field}
                possible={own.some((one) => one.kind === carried.kind) ? undefined : DIMENSION}
                value={carried[field.name]}
                onChange={(next) =>
                  onChange(value.map((one, i) => (i === at ? { ...one, [field.name]: next ?? undefined } : one)))
                }
              />
            ))}
          </div>
        );
      })}
      {usual.length > 0 && (
        <fieldset class="buttons">
          <legend class="unseen">{w.interfaces.usual}</legend>
          {usual.map((kind) => (
            <button type="button" key={kind} class="button small" onClick={() => add(kind)}>
              + {label(kind)}
            </button>
          ))}
        </fieldset>
      )}
      <Choice
        label={w.interfaces.other}
        options={[...kinds]
          .sort((a, b) => a.label.localeCompare(b.label))
          .map((one) => ({ value: one.kind, label: one.label }))}
        value={other}
        onChange={(kind) => {
          if (kind !== null) add(kind);
          setOther(null);
        }}
        optional
      />
    </fieldset>
  );
}

interface DimensionProps {
  possible: [number, number] | undefined;
  field: Interface["fields"][number];
  value: unknown;
  onChange: (value: unknown) => void;
}

function Dimension({ field, possible, value, onChange }: DimensionProps) {
  if (field.known !== undefined) {
    // One that somebody wrote in words of their own stays to choose.
    const own = typeof value === "string" && !field.known.includes(value) ? [value] : [];
    return (
      <Choice
        label={field.label}
        options={[...field.known, ...own].map((word) => ({ value: word, label: said(word) }))}
        value={typeof value === "string" ? value : null}
        onChange={onChange}
        optional
      />
    );
  }
  if (field.unit === "text") {
    return (
      <TextField
        label={field.label}
        value={typeof value === "string" ? value : ""}
        onChange={(next) => onChange(next === "" ? null : next)}
        optional
      />
    );
  }
  if (field.unit === "flag") {
    return <Flag label={field.label} value={typeof value === "boolean" ? value : null} onChange={onChange} optional />;
  }
  return (
    <NumberField
      label={field.label}
      unit={field.unit}
      value={typeof value === "number" ? value : null}
      onChange={onChange}
      step={field.unit === "mm" ? 0.1 : 1}
      digits={field.unit === "mm" ? 2 : 0}
      possible={possible}
      optional
    />
  );
}
