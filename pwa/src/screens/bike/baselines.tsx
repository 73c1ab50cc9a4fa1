/** What moved since a baseline, the way back to it in turns and millimetres, and two days side by side. */

import { useEffect, useState } from "preact/hooks";
import { useLocation } from "preact-iso";
import { Choice } from "../../controls/choice";
import { Problem } from "../../controls/problem";
import { TextField } from "../../controls/text-field";
import { BikeDrawing } from "../../drawing/bike";
import { kernel } from "../../kernel/client";
import type { BikeState } from "../../kernel/types";
import type { Compared, Difference, StepBack, StepsBack } from "../../kernel/use-types";
import { record } from "../../store/record";
import type { Entry } from "../../store/types";
import { formatNumber, show } from "../../units";
import { words } from "../../words";
import { useNames } from "../names";
import { dateOf } from "../when";
import { writes } from "../who";
import { useWriting } from "../writing";
import "./baselines.css";
import "./now.css";
import { UnderBike } from "./under";
import { w } from "./use-words";

export function Baselines() {
  return (
    <UnderBike title={w.baselines.title}>
      {({ state }) => (
        <>
          {state.baselines.length === 0 ? <p>{w.baselines.none}</p> : <Back state={state} />}
          <TwoDays state={state} />
        </>
      )}
    </UnderBike>
  );
}

function Back({ state }: { state: BikeState }) {
  const { route } = useLocation();
  const { write, busy, problem } = useWriting();
  const [chosen, setChosen] = useState(state.baselines.at(-1)?.entry ?? "");
  const [steps, setSteps] = useState<StepsBack | null>(null);
  const [ticked, setTicked] = useState<string[]>([]);
  const { settings, baselines } = state;
  useEffect(() => {
    let over = false;
    void kernel.stepsBack({ settings, baselines }, chosen).then((told) => {
      if (over) return;
      setSteps(told);
      setTicked([]);
    });
    return () => {
      over = true;
    };
  }, [settings, baselines, chosen]);
  const moves = steps?.moves ?? [];
  const name = steps?.baseline?.name ?? "";
  const done = moves.filter((move) => ticked.includes(move.setting));
  const put = async () => {
    const drafts = done.map(({ setting, unit, from, to }) => ({
      subject: state.subject,
      kind: "adjust",
      body: { setting, unit, from, to, reason: w.baselines.reason(name) },
    }));
    if ((await write(drafts, w.baselines.recorded(done.length, name))) !== null) route(`/${state.subject}`, true);
  };
  return (
    <section class="part">
      {baselines.length === 1 ? (
        <p>
          <strong>{baselines[0]?.name}</strong> <span class="quiet">{dateOf(baselines[0]?.at ?? "")}</span>
        </p>
      ) : (
        <Choice
          label={w.baselines.of}
          options={[...baselines].reverse().map((one) => ({ value: one.entry, label: `${one.name}, ${dateOf(one.at)}` }))}
          value={chosen}
          onChange={setChosen}
        />
      )}
      <h2>{w.baselines.moved}</h2>
      {steps !== null && moves.length === 0 ? <p>{w.baselines.nothingMoved}</p> : null}
      {moves.length > 0 && (
        <>
          <BikeDrawing state={{ ...state, moved: movedBy(moves) }} />
          <h2>{w.baselines.back}</h2>
          <p class="quiet">{w.baselines.backHelp}</p>
          <ul class="ruled steps-back">
            {moves.map((move) => (
              <li key={move.setting}>
                <label class="step-back">
                  <input
                    type="checkbox"
                    checked={ticked.includes(move.setting)}
                    onChange={(event) => {
                      const rest = ticked.filter((one) => one !== move.setting);
                      setTicked(event.currentTarget.checked ? [...rest, move.setting] : rest);
                    }}
                  />
                  <span class="step-back-what">
                    {move.label}
                    <span class="figure quiet">
                      {formatNumber(move.from)} → {show(move.to, move.unit)}
                    </span>
                  </span>
                  <strong class="figure step-back-way">{move.way}</strong>
                </label>
              </li>
            ))}
          </ul>
          {writes("adjust") ? (
            <div class="buttons">
              <button type="button" class="button small" onClick={() => setTicked(moves.map((move) => move.setting))}>
                {w.baselines.tickAll}
              </button>
              <button type="button" class="button main" disabled={busy || done.length === 0} onClick={() => void put()}>
                {w.baselines.record(done.length)}
              </button>
            </div>
          ) : null}
        </>
      )}
      <Problem text={problem} />
      {steps !== null && steps.left_alone.length > 0 ? <p class="quiet">{w.baselines.alone(steps.left_alone)}</p> : null}
    </section>
  );
}

/** What moved is the way back turned round. */
function movedBy(moves: StepBack[]): BikeState["moved"] {
  return moves.map(({ setting, from, to, by, unit }) => ({ setting, from: to, to: from, by: -by, unit, at: "" }));
}

/** The bike as its entries had it at the end of a day, by the clocks of those who wrote them. */
async function onDay(subject: string, day: string): Promise<BikeState | null> {
  const kept = await record.entries(subject);
  const until = kept.filter((one) => localDay((JSON.parse(one.text) as Entry).noted_at) <= day);
  return until.length === 0 ? null : kernel.fold(subject, until);
}

function localDay(iso: string): string {
  const date = new Date(iso);
  const two = (value: number) => String(value).padStart(2, "0");
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}

type Sides = { told: Compared; after: BikeState } | { problem: string };

function TwoDays({ state }: { state: BikeState }) {
  const names = useNames();
  const [before, setBefore] = useState(localDay(state.baselines.at(-1)?.at ?? state.first_at ?? ""));
  const [after, setAfter] = useState(localDay(new Date().toISOString()));
  const [sides, setSides] = useState<Sides | null>(null);
  const { subject, entries } = state;
  useEffect(() => {
    let over = false;
    void compared(subject, before, after).then((told) => {
      if (!over) setSides(told);
    });
    return () => {
      over = true;
    };
  }, [subject, entries, before, after]);
  return (
    <section class="part">
      <h2>{w.baselines.compare}</h2>
      <div class="two-days">
        <TextField label={w.baselines.before} type="date" value={before} onChange={setBefore} />
        <TextField label={w.baselines.after} type="date" value={after} onChange={setAfter} />
      </div>
      {sides === null ? null : "problem" in sides ? (
        <p class="problem">{sides.problem}</p>
      ) : (
        <>
          <p>{w.baselines.between(show(sides.told.km, "km", 0), show(sides.told.hours, "h", 1))}</p>
          {sides.told.settings.length > 0 && (
            <>
              <BikeDrawing state={{ ...sides.after, moved: asMoved(sides.told.settings) }} />
              <p class="quiet drawn-from">{w.baselines.standsAt(dateOf(`${after}T12:00:00`))}</p>
            </>
          )}
          <Differences title={w.baselines.settings} rows={sides.told.settings} label={(name) => names.of(name).label} />
          <Differences title={w.baselines.measures} rows={sides.told.measures} label={(name) => names.of(name).label} />
          {sides.told.fitted.length + sides.told.removed.length > 0 && (
            <>
              <h3>{w.baselines.parts}</h3>
              <ul class="ruled">
                {sides.told.removed.map((part) => (
                  <li key={part.part} class="fault">
                    <div>
                      <span class="quiet">{w.baselines.removed}</span> {part.name}
                    </div>
                  </li>
                ))}
                {sides.told.fitted.map((part) => (
                  <li key={part.part} class="fault">
                    <div>
                      <span class="quiet">{w.baselines.fitted}</span> {part.name}
                    </div>
                  </li>
                ))}
              </ul>
            </>
          )}
          {isSame(sides.told) ? <p>{w.baselines.nothing}</p> : null}
        </>
      )}
    </section>
  );
}

async function compared(subject: string, before: string, after: string): Promise<Sides | null> {
  if (before === "" || after === "") return null;
  if (before > after) return { problem: w.baselines.swapped };
  const [then, now] = await Promise.all([onDay(subject, before), onDay(subject, after)]);
  if (then === null || now === null) return { problem: w.baselines.notYet };
  return { told: await kernel.compare(then, now), after: now };
}

function asMoved(settings: Difference[]): BikeState["moved"] {
  return settings.flatMap(({ name, unit, before, after, by }) =>
    after === null ? [] : [{ setting: name, from: before, to: after, by, unit, at: "" }],
  );
}

function isSame({ settings, measures, fitted, removed }: Compared): boolean {
  return settings.length + measures.length + fitted.length + removed.length === 0;
}

function Differences({ title, rows, label }: { title: string; rows: Difference[]; label: (name: string) => string }) {
  if (rows.length === 0) return null;
  return (
    <table class="figures">
      <caption>{title}</caption>
      <thead class="unseen">
        <tr>
          <th>{title}</th>
          <th>{w.baselines.before}</th>
          <th>{w.baselines.after}</th>
          <th>{words.adjust.by}</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.name}>
            <th scope="row">{label(row.name)}</th>
            <td class="figure quiet">{row.before === null ? "–" : formatNumber(row.before)}</td>
            <td class="figure">{row.after === null ? "–" : show(row.after, row.unit)}</td>
            <td class="figure moved-by">{row.by === null ? "" : `${row.by > 0 ? "+" : ""}${formatNumber(row.by)}`}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
