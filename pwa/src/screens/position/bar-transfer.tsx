/** Where the bar goes on this frame: the stems and spacers at hand, the combinations that come nearest, one of them chosen. */

import { useState } from "preact/hooks";
import { Finding } from "../../controls/finding";
import { NumbersField } from "../../controls/numbers-field";
import { Problem } from "../../controls/problem";
import { PositionTransferDrawing } from "../../drawing/position-transfer";
import { InputProblems, kernel } from "../../kernel/client";
import type { Answer, BikeState, Quantity } from "../../kernel/types";
import { small } from "../../languages/chosen";
import { keep } from "../../store/drafts";
import { formatNumber } from "../../units";
import { words } from "../../words";
import { useAsked } from "../build/asked";
import { w } from "../build/words";
import { useNames } from "../names";
import { useWriting } from "../writing";
import "../../controls/choice.css";

const CALCULATION = "position-transfer";
const FROM_RECORD = ["target_bar_x", "target_bar_y", "stack", "reach", "head_angle"];
const SHOWN = 5;

interface Option {
  headset_cover: number;
  spacers: number;
  stem_length: number;
  stem_angle: number;
  error_x: number;
  error_y: number;
  error: number;
}

/** What lies in the drawer, kept on this phone: the same for every bike. */
const atHand = keep.kept<Record<string, number[] | string>>("stems-at-hand", {
  headset_covers: [5, 15],
  stem_lengths: [70, 80, 90, 100, 110, 120],
  stem_angles: [6, 17],
});

/** Null while what was typed is not all numbers. */
function inDrawer(name: string): number[] | null {
  const kept = atHand.value[name];
  return Array.isArray(kept) ? kept : null;
}

export function BarTransfer({ state }: { state: BikeState }) {
  const names = useNames();
  const declared = useAsked(async () => (await kernel.declarations()).find((one) => one.id === CALCULATION));
  const missing = FROM_RECORD.filter((name) => state.measures[name] === undefined);
  const inputs: Record<string, unknown> = { ...atHand.value };
  for (const name of FROM_RECORD) inputs[name] = state.measures[name]?.value;
  const stem = state.measures.stem_height?.value;
  if (stem !== undefined) inputs.stem_height = stem;
  const limits = state.parts.map((part) => part.markings?.spacer_limit).filter((one): one is number => typeof one === "number");
  if (limits.length > 0) inputs.spacer_limit = Math.min(...limits);
  const key = JSON.stringify(inputs);
  const found = useAsked<Answer | string | null>(async () => {
    if (missing.length > 0) return null;
    try {
      return await kernel.run(CALCULATION, inputs);
    } catch (error) {
      if (error instanceof InputProblems) return error.message;
      throw error;
    }
  }, key);
  const { write, busy, problem } = useWriting();
  const [chosen, setChosen] = useState(0);
  const now = chosenNow(state);
  if (declared === undefined) return null;
  const answer = typeof found === "object" ? found : null;
  const options = ((answer?.outputs.options as Option[] | undefined) ?? []).slice(0, SHOWN);
  const option = options[Math.min(chosen, options.length - 1)];
  const take = async () => {
    if (option === undefined || answer === null) return;
    const { subject } = state;
    const method = w.position.byTransfer;
    const measure = (what: string, value: number, unit: string) => ({
      subject,
      kind: "measure",
      body: { what, value, unit, method },
    });
    await write(
      [
        { subject, kind: "calculate", body: { calculation: CALCULATION, inputs, outputs: { chosen: option } } },
        measure("stem_length", option.stem_length, "mm"),
        measure("stem_angle", option.stem_angle, "°"),
        measure("spacers_below", option.spacers, "mm"),
        measure("headset_cover", option.headset_cover, "mm"),
      ],
      w.position.taken(told(option)),
    );
  };
  return (
    <section class="part">
      <h2>{w.position.bar}</h2>
      {missing.length > 0 ? (
        <p>{w.position.needs(missing.map((name) => small(w.position.names[name] ?? names.of(name).label)))}</p>
      ) : (
        <>
          <details class="drawer">
            <summary>
              <strong>{w.position.atHand}</strong>
              <span class="quiet">
                {inDrawer("stem_lengths")
                  ?.map((one) => formatNumber(one, 0))
                  .join(" ") ?? "–"}{" "}
                mm
              </span>
            </summary>
            <div class="form">
              {declared.inputs
                .filter((one: Quantity) => one.name in atHand.value)
                .map((one: Quantity) => (
                  <NumbersField
                    key={one.name}
                    quantity={one}
                    value={inDrawer(one.name)}
                    unread={typeof atHand.value[one.name] === "string" ? String(atHand.value[one.name]) : null}
                    onChange={(next) => {
                      if (next !== null) atHand.value = { ...atHand.value, [one.name]: next };
                    }}
                  />
                ))}
            </div>
          </details>
          {typeof found === "string" ? <p class="problem">{found}</p> : null}
          {answer === null ? null : (
            <>
              <PositionTransferDrawing inputs={inputs} outputs={answer.outputs} />
              {answer.findings.map((one) => (
                <Finding key={one.text} level={one.level} text={one.text} />
              ))}
              <fieldset class="options">
                <legend class="unseen">{w.position.options}</legend>
                {options.map((one, at) => (
                  <label key={told(one)} class="option">
                    <input type="radio" name="bar-option" checked={one === option} onChange={() => setChosen(at)} />
                    <span class="option-inside">
                      <strong>{w.position.stem(formatNumber(one.stem_length, 0), angle(one.stem_angle))}</strong>
                      <span>{w.position.spacers(formatNumber(one.spacers, 1), formatNumber(one.headset_cover, 1))}</span>
                      <span class="figure option-error">{w.position.misses(formatNumber(one.error, 1))}</span>
                      {now === told(one) ? <span class="option-now">{w.position.chosenNow}</span> : null}
                    </span>
                  </label>
                ))}
              </fieldset>
              <Problem text={problem} />
              <button
                type="button"
                class="button main wide"
                disabled={busy || option === undefined}
                onClick={() => void take()}
              >
                {w.position.take}
              </button>
            </>
          )}
        </>
      )}
      {answer === undefined && missing.length === 0 ? <p class="quiet">{words.reading}</p> : null}
    </section>
  );
}

function angle(value: number): string {
  return `${value > 0 ? "+" : ""}${formatNumber(value, 1)}°`;
}

function told(option: Option): string {
  const figure = (value: number) => formatNumber(value, 1);
  return `${figure(option.stem_length)} mm ${angle(option.stem_angle)}, ${figure(option.spacers)} + ${figure(option.headset_cover)} mm`;
}

/** The combination on the record, told the same way; null until one was chosen. */
function chosenNow(state: BikeState): string | null {
  const of = (name: string) => state.measures[name]?.value;
  const [stem_length, stem_angle, spacers, headset_cover] = [
    of("stem_length"),
    of("stem_angle"),
    of("spacers_below"),
    of("headset_cover"),
  ];
  if (stem_length === undefined || stem_angle === undefined || spacers === undefined || headset_cover === undefined)
    return null;
  return told({ stem_length, stem_angle, spacers, headset_cover, error_x: 0, error_y: 0, error: 0 });
}
