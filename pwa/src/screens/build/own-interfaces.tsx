/** The workshop's own interface kinds, described by dimension, and what each meets. */

import { useState } from "preact/hooks";
import { Choice } from "../../controls/choice";
import { Problem } from "../../controls/problem";
import { TextField } from "../../controls/text-field";
import { kernel } from "../../kernel/client";
import { words } from "../../words";
import { useBikeId } from "../bike/frame";
import { useWriting } from "../writing";
import { useAsked } from "./asked";
import { SheetPage } from "./sheet-page";
import { w } from "./words";
import "./parts.css";

interface Field {
  label: string;
  unit: string;
}

const UNITS = ["mm", "text", ""] as const;

export function OwnInterfaces() {
  const id = useBikeId();
  const shipped = useAsked(() => kernel.interfaces());
  const [label, setLabel] = useState("");
  const [meets, setMeets] = useState<string | null>(null);
  const [fields, setFields] = useState<Field[]>([{ label: "", unit: "mm" }]);
  const { write, busy, problem } = useWriting();
  const named = fields.filter((field) => field.label.trim() !== "");
  const record = async () => {
    const body = {
      kind: plain(label),
      label: label.trim(),
      fields: named.map((field) => ({
        name: plain(field.label).replaceAll("-", "_"),
        unit: field.unit,
        label: field.label.trim(),
      })),
      meets: meets || undefined,
    };
    if ((await write([{ subject: "workshop", kind: "interface-define", body }], w.ownKinds.made(label.trim()))) === null)
      return;
    setLabel("");
    setFields([{ label: "", unit: "mm" }]);
    setMeets(null);
  };
  return (
    <SheetPage title={w.parts.ownKinds} under={{ href: `/bike/${id}/parts`, text: w.parts.title }}>
      {(_, shop) => (
        <>
          <p class="quiet">{w.ownKinds.help}</p>
          {shop.interfaces.length > 0 && (
            <ul class="ruled">
              {shop.interfaces.map((one) => (
                <li key={one.kind} class="own-kind">
                  <strong>{one.label}</strong>
                  <span class="quiet">
                    {one.fields.map((field) => field.label).join(", ")}
                    {one.meets ? ` · ${w.ownKinds.meets} ${one.meets.replaceAll("-", " ")}` : ""}
                  </span>
                </li>
              ))}
            </ul>
          )}
          <div class="form">
            <TextField label={w.ownKinds.label} value={label} onChange={setLabel} help={w.ownKinds.labelHelp} />
            {fields.map((field, at) => (
              <div class="rows-row" key={at}>
                <TextField
                  label={w.ownKinds.dimension(at + 1)}
                  value={field.label}
                  onChange={(next) => setFields(fields.map((one, i) => (i === at ? { ...one, label: next } : one)))}
                />
                <Choice
                  label={words.unit}
                  options={UNITS.map((unit) => ({ value: unit as string, label: w.ownKinds.units[unit] ?? unit }))}
                  value={field.unit}
                  onChange={(next) => setFields(fields.map((one, i) => (i === at ? { ...one, unit: next } : one)))}
                />
              </div>
            ))}
            <button type="button" class="button small" onClick={() => setFields([...fields, { label: "", unit: "mm" }])}>
              {w.ownKinds.oneMore}
            </button>
            <Choice
              label={w.ownKinds.meets}
              options={[
                { value: "", label: w.ownKinds.nothing },
                { value: plain(label) || "-", label: w.ownKinds.itself },
                ...[...shop.interfaces, ...(shipped ?? [])].map((one) => ({ value: one.kind, label: one.label })),
              ]}
              value={meets}
              onChange={setMeets}
              optional
            />
            <Problem text={problem} />
            <button
              type="button"
              class="button main wide"
              disabled={busy || plain(label) === "" || named.length === 0}
              onClick={() => void record()}
            >
              {words.record}
            </button>
          </div>
        </>
      )}
    </SheetPage>
  );
}

function plain(text: string): string {
  return text
    .trim()
    .toLowerCase()
    .replaceAll(/[^\p{L}\p{N}]+/gu, "-")
    .replaceAll(/^-|-$/g, "");
}
