/** A bike as it stands now: the drawing, may it be ridden and why, what is open, due and moved, and the ways on. */

import { useState } from "preact/hooks";
import { useLocation } from "preact-iso";
import { LevelSign } from "../../controls/finding";
import { Mark } from "../../controls/mark";
import { Problem } from "../../controls/problem";
import { Sheet } from "../../controls/sheet";
import { TextField } from "../../controls/text-field";
import { BikeDrawing } from "../../drawing/bike";
import type { BikeState, Due, Moved } from "../../kernel/types";
import { said } from "../../languages/spoken";
import { formatNumber, show, unitOf, unitSaid } from "../../units";
import { words } from "../../words";
import { useNames } from "../names";
import { dateOf, nameOf, whenOf } from "../when";
import { writes } from "../who";
import { useWriting } from "../writing";
import { BikePage, useBikeId } from "./frame";
import "./now.css";
import { Questions } from "./questions";
import { Nudge, Quick } from "./quick";
import { questionOf } from "./settles";
import { w } from "./use-words";

const WAYS = ["check", "adjust", "measure", "ride", "note", "fault"] as const;

/** The bike's drawing as the way to its settings. */
function BikeWays({ state }: { state: BikeState }) {
  const { route } = useLocation();
  const names = useNames();
  return (
    <BikeDrawing
      state={state}
      ways={{
        named: (spot) => names.of(spot).label,
        open: (spot) => route(`/${state.subject}/adjust?setting=${spot}`),
      }}
    />
  );
}

export function Now() {
  const id = useBikeId();
  return (
    <BikePage tab="now">
      {({ state, due }) => (
        <>
          <Stands state={state} />
          <Quick state={state} />
          <BikeWays state={state} />
          <Drawn state={state} />
          <Nudge state={state} />
          <nav class="ways" aria-label={words.now.ways}>
            {WAYS.filter(writes).map((way) => (
              <a key={way} class="button" href={way === "check" ? `/bike/${id}/checks` : `/bike/${id}/${way}`}>
                {words.ways[way]}
              </a>
            ))}
          </nav>
          <Why state={state} />
          <Questions state={state} />
          <Faults state={state} />
          <DueList due={due} subject={state.subject} />
          <MovedList state={state} />
          <a class="button" href={`/bike/${id}/wear`}>
            {w.wear.way}
          </a>
        </>
      )}
    </BikePage>
  );
}

function Stands({ state }: { state: BikeState }) {
  const { standing } = state;
  const first = standing.reasons[0];
  return (
    <section class="stands" aria-label={words.now.standing}>
      <Mark verdict={standing.verdict} large />
      {first === undefined ? null : <p class="stands-why">{said(first.text)}</p>}
    </section>
  );
}

function Why({ state }: { state: BikeState }) {
  const { standing } = state;
  return (
    <section class="part">
      <h2>{words.now.why}</h2>
      <ul class="reasons">
        {standing.reasons.map((reason) => (
          <li key={`${reason.entry}${reason.text}`}>
            <LevelSign level={reason.level} />
            {said(reason.text)}
          </li>
        ))}
      </ul>
      {standing.clears.length > 0 && (
        <>
          <h3>{words.now.clears}</h3>
          <ul class="reasons">
            {[...new Set(standing.clears)].map((one) => (
              <li key={one}>
                <LevelSign level="open" />
                {said(one)}
              </li>
            ))}
          </ul>
        </>
      )}
      <p class="quiet">
        {standing.at === null ? words.now.neverChecked : words.now.checkedBy(whenOf(standing.at), nameOf(standing.by))}{" "}
        {said(standing.caution)}
      </p>
    </section>
  );
}

function Drawn({ state }: { state: BikeState }) {
  const last = state.baselines.at(-1);
  return (
    <p class="quiet drawn-from">
      {words.now.drawn(unitOf("mm"))}
      {last === undefined ? ` ${words.now.noBaseline}` : ` ${words.now.since(last.name, dateOf(last.at))}`}
    </p>
  );
}

/** A fault found by a check is called as the check's item is. */
function faultSaid(fault: BikeState["faults"][number]): string {
  return fault.item === undefined ? fault.what : said(fault.what);
}

function Faults({ state }: { state: BikeState }) {
  const [closing, setClosing] = useState<string | null>(null);
  const [done, setDone] = useState("");
  const { write, busy, problem } = useWriting();
  if (state.faults.length === 0) return null;
  const close = async (fault: string) => {
    const made = await write(
      [{ subject: state.subject, kind: "fault-close", body: { fault, done: done.trim() } }],
      words.now.closed,
    );
    if (made !== null) setClosing(null);
  };
  return (
    <section class="part">
      <h2>{words.now.faults}</h2>
      <ul class="ruled">
        {state.faults.map((fault) => (
          <li key={fault.entry} class="fault">
            <LevelSign level={fault.level} />
            <div>
              <strong>{faultSaid(fault)}</strong>
              <p class="quiet">
                {[words.levels[fault.level], fault.area && said(fault.area), whenOf(fault.at), nameOf(fault.by)]
                  .filter(Boolean)
                  .join(" · ")}
              </p>
            </div>
            {writes("fault-close") ? (
              <button
                type="button"
                class="button small"
                onClick={() => {
                  setDone("");
                  setClosing(fault.entry);
                }}
              >
                {words.now.close}
                <span class="unseen"> {faultSaid(fault)}</span>
              </button>
            ) : null}
          </li>
        ))}
      </ul>
      {closing === null ? null : (
        <Sheet title={words.now.closeTitle} onClose={() => setClosing(null)}>
          <p>{state.faults.filter((fault) => fault.entry === closing).map(faultSaid)}</p>
          <TextField label={words.now.done} value={done} onChange={setDone} lines />
          <Problem text={problem} />
          <button
            type="button"
            class="button main wide"
            disabled={busy || done.trim() === ""}
            onClick={() => void close(closing)}
          >
            {words.now.closeIt}
          </button>
        </Sheet>
      )}
    </section>
  );
}

function DueList({ due, subject }: { due: Due[]; subject: string }) {
  if (due.length === 0) return null;
  return (
    <section class="part">
      <h2>{words.now.due}</h2>
      <ul class="ruled">
        {due.map((one) => (
          <li key={one.due} class={one.snoozed === null ? "due" : "due due-later"}>
            <LevelSign level={one.level} />
            <div>
              <strong>{said(one.title)}</strong>
              <p>{said(one.text)}</p>
              {one.snoozed === null ? null : (
                <p class="quiet">{words.now.snoozed(one.snoozed.until, one.snoozed.reason ?? "")}</p>
              )}
            </div>
            {one.left === null ? null : (
              <span class="figure due-left">
                {formatNumber(Math.abs(one.left), one.unit === "%" ? 2 : 0)} {unitSaid(one.unit)}
                <small>{one.left < 0 ? words.now.past : words.now.left}</small>
              </span>
            )}
          </li>
        ))}
      </ul>
      <a class="button small" href={`/due?bike=${subject.slice("bike/".length)}`}>
        {w.due.toDue}
      </a>
    </section>
  );
}

function MovedList({ state }: { state: BikeState }) {
  const names = useNames();
  const { write, busy } = useWriting();
  const [naming, setNaming] = useState<string | null>(null);
  const last = state.baselines.at(-1);
  const freeze = async () => {
    const name = naming?.trim();
    if (!name) return;
    const made = await write([{ subject: state.subject, kind: "baseline", body: { name } }], words.now.frozen(name));
    if (made !== null) setNaming(null);
  };
  const settings = Object.keys(state.settings).length;
  // A heading with nothing under it: for those who look only.
  if (settings === 0 || (last === undefined && !writes("baseline"))) return null;
  return (
    <section class="part">
      <h2>{last === undefined ? words.now.settings : words.now.moved(last.name)}</h2>
      {last !== undefined && state.moved.length === 0 ? <p>{words.now.nothingMoved}</p> : null}
      {state.moved.length > 0 && (
        <table class="figures">
          <thead class="unseen">
            <tr>
              <th>{words.adjust.setting}</th>
              <th>{words.adjust.from}</th>
              <th>{words.adjust.to}</th>
              <th>{words.adjust.by}</th>
            </tr>
          </thead>
          <tbody>
            {state.moved.map((one) => (
              <MovedRow key={one.setting} moved={one} label={names.of(one.setting).label} state={state} />
            ))}
          </tbody>
        </table>
      )}
      <div class="buttons">
        {last === undefined ? null : (
          <a class="button small" href={`/${state.subject}/baselines`}>
            {state.moved.length > 0 ? w.baselines.backOrCompare : w.baselines.compare}
          </a>
        )}
        {writes("baseline") ? (
          <button type="button" class="button small" onClick={() => setNaming("")}>
            {words.now.freeze}
          </button>
        ) : null}
      </div>
      {naming === null ? null : (
        <Sheet title={words.now.freeze} onClose={() => setNaming(null)}>
          <p>{words.now.freezeHelp(settings)}</p>
          <TextField label={words.now.baselineName} value={naming} onChange={setNaming} help={words.now.baselineNameHelp} />
          <button type="button" class="button main wide" disabled={busy || naming.trim() === ""} onClick={() => void freeze()}>
            {words.now.freezeIt}
          </button>
        </Sheet>
      )}
    </section>
  );
}

function MovedRow({ moved, label, state }: { moved: Moved; label: string; state: BikeState }) {
  const unit = moved.unit ?? "";
  return (
    <tr>
      <th scope="row">
        <a href={`/${state.subject}/season/${moved.setting}`}>{label}</a>
        {questionOf(state, moved.setting) === undefined ? null : <span class="quiet"> {words.questions.open}</span>}
      </th>
      <td class="figure quiet">{moved.from === null ? "–" : formatNumber(moved.from)}</td>
      <td class="figure">{show(moved.to, unit)}</td>
      <td class="figure moved-by">{moved.by === null ? "" : `${moved.by > 0 ? "+" : ""}${formatNumber(moved.by)}`}</td>
    </tr>
  );
}
