/** What wears on a bike: readings of the parts that are on, the limit, and when it is reached. */

import { useEffect, useState } from "preact/hooks";
import { Finding } from "../../controls/finding";
import { WearDrawing } from "../../drawing/wear";
import { kernel } from "../../kernel/client";
import type { Answer, BikeState } from "../../kernel/types";
import type { Worn } from "../../kernel/use-types";
import { formatNumber, show, unitSaid } from "../../units";
import { words } from "../../words";
import { dateOf } from "../when";
import { writes } from "../who";
import { UnderBike } from "./under";
import { w } from "./use-words";
import "./wear.css";

export function Wear() {
  return <UnderBike title={w.wear.title}>{({ state }) => <All state={state} />}</UnderBike>;
}

interface Told {
  worn: Worn;
  inputs: Record<string, unknown>;
  answer: Answer | null;
}

/** The forecast is the bench's own calculation, with this part's readings for its inputs. */
async function forecast(worn: Worn): Promise<Told> {
  const { readings, limit, now, wears } = worn;
  const inputs = { readings: readings.map(({ at, value }) => ({ at, value })), limit, now: now ?? undefined, wears };
  const spread = readings.length > 1 && Math.max(...readings.map((r) => r.at)) > Math.min(...readings.map((r) => r.at));
  if (limit === null || !spread) return { worn, inputs, answer: null };
  return { worn, inputs, answer: await kernel.run("wear-forecast", inputs).catch(() => null) };
}

function All({ state }: { state: BikeState }) {
  const [all, setAll] = useState<Told[] | null>(null);
  useEffect(() => {
    let over = false;
    void kernel
      .worn(state)
      .then((worn) => Promise.all(worn.map(forecast)))
      .then((told) => {
        if (!over) setAll(told);
      });
    return () => {
      over = true;
    };
  }, [state]);
  if (all === null) return <p class="quiet">{words.reading}</p>;
  if (all.length === 0) return <p>{w.wear.none}</p>;
  return (
    <>
      {all.map((told) => (
        <One key={told.worn.what} told={told} state={state} />
      ))}
    </>
  );
}

function One({ told, state }: { told: Told; state: BikeState }) {
  const { worn, inputs, answer } = told;
  const last = worn.readings.at(-1);
  const left = answer?.outputs.remaining;
  const ran = state.parts.find((part) => part.part === worn.part)?.ran_km ?? 0;
  return (
    <section class="part wear">
      <div class="wear-head">
        <h2>{worn.title}</h2>
        <span class="figure wear-value">
          {last === undefined ? "–" : `${formatNumber(last.value, 3)} ${unitSaid(worn.unit)}`}
        </span>
      </div>
      <p>
        {worn.name === null ? w.wear.noPart : w.wear.since(worn.name, words.km(ran))}
        {last === undefined ? "" : `. ${w.wear.readings(worn.readings.length)}, ${dateOf(last.when)}.`}{" "}
        {worn.limit === null
          ? w.wear.noLimit
          : w.wear.limit(`${formatNumber(worn.limit)} ${unitSaid(worn.unit)}`, worn.limit_from)}
      </p>
      {answer !== null ? (
        <>
          {typeof left === "number" && (
            <p class="wear-left">
              {left > 0 ? w.wear.left(worn.by === "km" ? show(left, "km", 0) : `${formatNumber(left, 0)} d`) : w.wear.past}
            </p>
          )}
          {answer.findings.map((one) => (
            <Finding key={one.text} level={one.level} text={one.text} />
          ))}
          <WearDrawing inputs={inputs} outputs={answer.outputs} />
          <p class="quiet">{w.wear.axis[worn.by]}</p>
        </>
      ) : (
        <p class="quiet">{last === undefined ? w.wear.unmeasured : w.wear.one}</p>
      )}
      <div class="buttons">
        {writes("measure") ? (
          <a class="button small" href={`/${state.subject}/measure?what=${worn.what}`}>
            {w.wear.measure}
            <span class="unseen"> {worn.title}</span>
          </a>
        ) : null}
        {worn.part === null || !writes("part-fit") ? null : (
          <a class="button small" href={`/${state.subject}/part/${worn.part}`}>
            {w.wear.change}
            <span class="unseen"> {worn.title}</span>
          </a>
        )}
      </div>
    </section>
  );
}
