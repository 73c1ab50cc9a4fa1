/** Measuring: what, how much, how sure. */

import { useEffect, useState } from "preact/hooks";
import { useLocation } from "preact-iso";
import { Choice } from "../../controls/choice";
import { NumberField } from "../../controls/number-field";
import { TextField } from "../../controls/text-field";
import { HowTo } from "../../drawing/how/how-to";
import { kernel } from "../../kernel/client";
import type { Worn } from "../../kernel/use-types";
import { entry } from "../../sensors/enter";
import { PhoneButton } from "../../sensors/phone-button";
import { show } from "../../units";
import { words } from "../../words";
import { useBike } from "../loading";
import { useNames } from "../names";
import { dateOf, nameOf } from "../when";
import { BikeForm, useBikeId } from "./frame";

export function Measure() {
  const names = useNames();
  const { query } = useLocation();
  const [what, setWhat] = useState<string | null>(query.what ?? null);
  const [value, setValue] = useState<number | null>(null);
  const [span, setSpan] = useState<number | null>(null);
  const [method, setMethod] = useState("");
  const [worn, setWorn] = useState<Worn[]>([]);
  const bike = useBike(useBikeId());
  const state = bike?.state;
  useEffect(() => {
    // What wears is measured on the part that is on now.
    if (state !== undefined) void kernel.worn(state).then(setWorn);
  }, [state]);
  const named = what === null ? null : names.of(what);
  return (
    <BikeForm
      title={words.ways.measure}
      doubts={(now) => (what === null || value === null ? Promise.resolve([]) : kernel.doubts(now.state, what, value, span))}
      said={named === null || value === null ? "" : `${named.label}: ${show(value, named.unit)}`}
      drafts={() =>
        what === null || named === null || value === null
          ? null
          : [
              {
                kind: "measure",
                body: {
                  what,
                  value,
                  unit: worn.find((one) => one.what === what)?.unit ?? named.unit,
                  plus_minus: span ?? undefined,
                  part: worn.find((one) => one.what === what)?.part ?? undefined,
                  method: method.trim() || undefined,
                },
              },
            ]
      }
    >
      {({ state }) => {
        const last = what === null ? undefined : state.measures[what];
        const known = [...new Set([...Object.keys(state.measures), ...worn.map((one) => one.what)])];
        const others = known.filter((name) => !names.measurable.some((one) => one.name === name));
        const options = [
          ...names.measurable.map(({ name, label }) => ({ value: name, label })),
          ...others.map((name) => ({ value: name, label: names.of(name).label })),
        ].sort(
          // What was measured on this bike before comes first.
          (a, b) => Number(known.includes(b.value)) - Number(known.includes(a.value)) || a.label.localeCompare(b.label),
        );
        return (
          <>
            <Choice
              label={words.measure.what}
              options={options}
              value={what}
              onChange={(next) => {
                setWhat(next);
                setValue(null);
                setSpan(null);
              }}
            />
            {named === null ? null : (
              <>
                <NumberField
                  key={what}
                  label={named.label}
                  help={named.help}
                  unit={last?.unit ?? named.unit}
                  value={value}
                  onChange={setValue}
                  step={named.step}
                  digits={named.digits ?? 2}
                  possible={(last?.unit ?? named.unit) === named.unit ? named.possible : undefined}
                  start={last?.value ?? named.start}
                  plusMinus={span}
                  onPlusMinus={setSpan}
                  big
                >
                  {last === undefined ? null : (
                    <p>
                      {words.lastValue} <span class="figure">{show(last.value, last.unit ?? named.unit)}</span>{" "}
                      <span class="quiet">
                        {dateOf(last.at)}, {nameOf(last.by)}
                      </span>
                    </p>
                  )}
                </NumberField>
                <HowTo key={`how ${what}`} what={what ?? ""} label={named.label} help={named.help} open={last === undefined} />
                <PhoneButton
                  key={`phone ${what}`}
                  field={what ?? ""}
                  onTake={({ [what ?? ""]: taken }) => {
                    if (taken === undefined) return;
                    setValue(taken.value);
                    setSpan(taken.plusMinus);
                    setMethod(entry.byPhone(show(taken.plusMinus, named.unit, 1)));
                  }}
                />
                <TextField
                  label={words.measure.how}
                  value={method}
                  onChange={setMethod}
                  help={words.measure.howHelp}
                  optional
                />
              </>
            )}
          </>
        );
      }}
    </BikeForm>
  );
}
