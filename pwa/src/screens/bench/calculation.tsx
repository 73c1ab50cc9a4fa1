/** One calculation, made from its declaration: drawing, inputs, results as one types, how it is worked out, its source. */

import { useEffect, useMemo, useRef, useState } from "preact/hooks";
import { useLocation, useRoute } from "preact-iso";
import { Caution } from "../../controls/caution";
import { Finding } from "../../controls/finding";
import { QuantityField } from "../../controls/quantity-field";
import { figureFor } from "../../drawing/catalogue";
import type { Calculation } from "../../kernel/types";
import { said } from "../../languages/spoken";
import { type Measured, PhoneButton } from "../../sensors/phone-button";
import { usualTone } from "../../sensors/usual-tone";
import { keep } from "../../store/drafts";
import { identity } from "../../store/record";
import { words } from "../../words";
import { spaced } from "../names";
import { Page } from "../shell/page";
import { writes } from "../who";
import { useCalculations } from "./bench";
import "./calculation.css";
import { drawn, fromBike, given, type Inputs, missing } from "./inputs";
import { keepInputs, type Last, leftAt, readInputs } from "./last";
import { BikePicker, PutOnBike } from "./on-bike";
import { Headline, Results } from "./results";
import { useRoom } from "./room";
import { useRun } from "./run";
import { WorkingSteps } from "./working";

export function CalculationScreen() {
  const { calculation: id } = useRoute().params;
  const left = useMemo(() => leftAt(id ?? ""), [id]);
  const all = useCalculations();
  const calculation = all === undefined ? left?.calculation : all.find((one) => one.id === id);
  const from = [{ href: "/bench", text: words.places.bench }];
  if (calculation === undefined) {
    return (
      <Page place="bench" title={all === undefined ? words.reading : words.failed.noSuchSheet} from={from}>
        {null}
      </Page>
    );
  }
  return <Worked key={calculation.id} calculation={calculation} last={left?.last ?? null} />;
}

/** Whether it says under each field how to measure it; the number pad says it in any case. */
const hints = keep.kept("hints", true);

function Worked({ calculation, last }: { calculation: Calculation; last: Last | null }) {
  const { query } = useLocation();
  const [inputs, setInputs] = useState<Inputs>(() => (last === null ? {} : (JSON.parse(last.inputs) as Inputs)));
  const [picking, setPicking] = useState<"take" | "put" | null>(null);
  const typed = useRef(false);
  useEffect(() => {
    let over = false;
    void readInputs(calculation.id).then((kept) => {
      // What was typed meanwhile wins over what was kept.
      if (!over && kept !== undefined && !typed.current) setInputs(kept);
    });
    return () => {
      over = true;
    };
  }, [calculation.id]);
  const set = (next: Inputs) => {
    typed.current = true;
    setInputs(next);
    keepInputs(calculation, next);
  };
  const needs = missing(calculation, inputs);
  const { answer, problems, stale, kept } = useRun(calculation, given(inputs), needs.length === 0, last);
  const Figure = figureFor(calculation.id);
  const { around, high } = useRoom(calculation.id);
  const findings = answer?.findings ?? [];
  const names = new Set(calculation.inputs.map((one) => one.name));
  const at = (name: string) => findings.filter((one) => one.field.split(/[.[]/)[0] === name);
  const elsewhere = findings.filter((one) => !names.has(one.field.split(/[.[]/)[0] ?? ""));
  const byField = Object.fromEntries(
    problems.filter((one) => one.given !== "nothing").map((one) => [one.field, words.wanted(said(one.wanted))]),
  );
  return (
    <Page
      place="bench"
      title={calculation.title}
      from={[{ href: "/bench", text: words.places.bench }]}
      under={<p class="quiet question">{calculation.question}</p>}
      foot={<Headline calculation={calculation} answer={answer} needs={needs} stale={stale} findings={findings} />}
    >
      <div class="calc">
        {Figure === null ? null : (
          <div class="calc-figure" ref={around} {...(high === null ? {} : { style: { blockSize: `${high}px` } })}>
            <Figure inputs={drawn(calculation, inputs)} outputs={answer?.outputs ?? null} />
          </div>
        )}
        <div class="calc-in">
          <div class="buttons">
            {identity.value === null ? null : (
              <button type="button" class="button small" onClick={() => setPicking("take")}>
                {words.bench.take}
              </button>
            )}
            <button type="button" class="button small" onClick={() => set({ ...calculation.example })}>
              {words.bench.example}
            </button>
            <button type="button" class="button small" onClick={() => set({})}>
              {words.bench.empty}
            </button>
          </div>
          <button
            type="button"
            class="plain hints"
            aria-expanded={hints.value}
            onClick={() => {
              hints.value = !hints.value;
            }}
          >
            {hints.value ? words.bench.hideHints : words.bench.hints}
          </button>
          <section class={hints.value ? "form" : "form hints-off"} aria-label={words.bench.inputs}>
            {calculation.inputs.map((input) => (
              <QuantityField
                key={input.name}
                quantity={input}
                value={inputs[input.name] ?? null}
                onChange={(next) => set({ ...inputs, [input.name]: next })}
                problems={byField}
                spread
              >
                <PhoneButton
                  field={input.name}
                  calculation={calculation.id}
                  usual={() => usualTone(input, given(inputs))}
                  onTake={(taken) => set({ ...inputs, ...spreads(taken) })}
                />
                {at(input.name).map((one) => (
                  <Finding key={one.text} level={one.level} text={one.text} />
                ))}
              </QuantityField>
            ))}
          </section>
        </div>
        <div class="calc-out">
          <section class="part" id="results" data-from={answer === null ? undefined : kept ? "kept" : "engine"}>
            <h2>{words.bench.results}</h2>
            {answer === null ? (
              <p>{needs.length === 0 ? words.bench.noResult : words.bench.needs(needs)}</p>
            ) : (
              <>
                <Results calculation={calculation} answer={answer} />
                {elsewhere.map((one) => (
                  <Finding key={one.text} level={one.level} text={one.text} />
                ))}
              </>
            )}
          </section>
          <Caution lines={calculation.cautions} />
          {answer === null ? null : <WorkingSteps calculation={calculation} working={answer.working} />}
          <p class="quiet">
            {words.bench.source} {calculation.source}
          </p>
          {writes("calculate") && answer !== null ? (
            <button type="button" class="button wide" onClick={() => setPicking("put")}>
              {words.bench.put}
            </button>
          ) : null}
          <p class="quiet figure calculation-id">
            {words.families[calculation.family] ?? spaced(calculation.family)} · {calculation.id}
          </p>
        </div>
      </div>
      {picking === "take" ? (
        <BikePicker
          title={words.bench.takeTitle}
          first={query.bike}
          onClose={() => setPicking(null)}
          onPick={(bike) => {
            set({ ...inputs, ...fromBike(calculation, bike.state) });
            setPicking(null);
          }}
          knows={{
            count: (bike) => Object.keys(fromBike(calculation, bike.state)).length,
            says: (count) => words.bench.knows(count, calculation.inputs.length),
          }}
        />
      ) : null}
      {picking === "put" && answer !== null ? (
        <PutOnBike
          calculation={calculation}
          inputs={given(inputs)}
          answer={answer}
          first={query.bike}
          onClose={() => setPicking(null)}
        />
      ) : null}
    </Page>
  );
}

function spreads(taken: Record<string, Measured>): Inputs {
  return Object.fromEntries(
    Object.entries(taken).map(([name, { value, plusMinus }]) => [name, { value, plus_minus: plusMinus }]),
  );
}
