/** One measurement, taken where the work asks for it. */

import { useState } from "preact/hooks";
import { NumberField } from "../../controls/number-field";
import { Problem } from "../../controls/problem";
import { Sheet } from "../../controls/sheet";
import { TextField } from "../../controls/text-field";
import { HowTo } from "../../drawing/how/how-to";
import { kernel } from "../../kernel/client";
import type { BikeState } from "../../kernel/types";
import { entry } from "../../sensors/enter";
import { PhoneButton } from "../../sensors/phone-button";
import { show } from "../../units";
import { words } from "../../words";
import { useDoubts } from "../bike/doubts";
import { useNames } from "../names";
import { nameOf, whenOf } from "../when";
import { useWriting } from "../writing";

export interface MeasureProps {
  state: BikeState;
  /** The measurement's name on the record. */
  what: string;
  label?: string;
  unit?: string;
  help?: string;
  /** For what no calculation declares. */
  possible?: [number, number];
  /** Written as a setting (`adjust`) rather than a measurement: how the bike stands, what a baseline freezes. */
  setting?: boolean;
  onClose: () => void;
}

export function MeasureSheet({ state, what, label, unit, help, possible, setting = false, onClose }: MeasureProps) {
  const names = useNames();
  const named = names.of(what);
  const title = label ?? named.label;
  const last = setting ? state.settings[what] : state.measures[what];
  const base = unit ?? last?.unit ?? (named.unit || "mm");
  const [value, setValue] = useState<number | null>(null);
  const [span, setSpan] = useState<number | null>(null);
  const [method, setMethod] = useState("");
  const { write, busy, problem } = useWriting();
  const { sure, question } = useDoubts(state.subject);
  const record = async () => {
    if (value === null) return;
    const body = setting
      ? { setting: what, unit: base, to: value, from: last?.value, reason: method.trim() || undefined }
      : { what, value, unit: base, plus_minus: span ?? undefined, method: method.trim() || undefined };
    if (!(await sure(() => kernel.doubts(state, what, value, span)))) return;
    const draft = { subject: state.subject, kind: setting ? "adjust" : "measure", body };
    if ((await write([draft], `${title}: ${show(value, base)}`)) !== null) onClose();
  };
  return (
    <Sheet title={title} onClose={onClose}>
      <HowTo what={what} label={title} help={help ?? named.help} open={last === undefined} />
      {last === undefined ? null : (
        <p class="quiet">
          {words.lastValue} <span class="figure">{show(last.value, last.unit ?? base)}</span>, {whenOf(last.at)},{" "}
          {nameOf(last.by)}
        </p>
      )}
      <NumberField
        label={title}
        unit={base}
        value={value}
        onChange={(next) => {
          setValue(next);
          // The phone's ± was for the phone's figure.
          setSpan(null);
        }}
        step={named.step ?? (base === "mm" ? 0.5 : undefined)}
        digits={named.digits ?? 1}
        possible={possible ?? (base === named.unit ? named.possible : undefined)}
        start={last?.value ?? named.start}
        big
      />
      {base === "°" ? (
        <PhoneButton
          field={what}
          onTake={({ [what]: taken }) => {
            if (taken === undefined) return;
            setValue(taken.value);
            setSpan(taken.plusMinus);
            setMethod(entry.byPhone(show(taken.plusMinus, base, 1)));
          }}
        />
      ) : null}
      <TextField label={words.measure.how} value={method} onChange={setMethod} optional />
      {question}
      <Problem text={problem} />
      <button type="button" class="button main wide" disabled={busy || value === null} onClick={() => void record()}>
        {words.record}
      </button>
    </Sheet>
  );
}
