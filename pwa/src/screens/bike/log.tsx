/** The story of a bike, newest first. */

import { useState } from "preact/hooks";
import { Choice } from "../../controls/choice";
import { Mark } from "../../controls/mark";
import { Sheet } from "../../controls/sheet";
import { TextField } from "../../controls/text-field";
import type { BikeState } from "../../kernel/types";
import { identity } from "../../store/record";
import type { Entry, Kept } from "../../store/types";
import { words } from "../../words";
import { useNames } from "../names";
import { dateOf, nameOf, timeOf } from "../when";
import { useWriting } from "../writing";
import { BikePage } from "./frame";
import "./log.css";
import { telling } from "./telling";

const PAGE = 60;

interface Line {
  entry: Entry;
  sent: boolean;
  voidedBy: Entry | null;
}

export function Log() {
  return <BikePage tab="log">{({ kept, state }) => <Story kept={kept} state={state} />}</BikePage>;
}

function lines(kept: Kept[]): Line[] {
  const all = kept.map((one) => ({ entry: JSON.parse(one.text) as Entry, sent: one.seq !== null }));
  const voids = new Map<unknown, Entry>();
  for (const { entry } of all) if (entry.kind === "void") voids.set(entry.body.entry, entry);
  return all.map((one) => ({ ...one, voidedBy: voids.get(one.entry.id) ?? null })).reverse();
}

function Story({ kept, state }: { kept: Kept[]; state: BikeState }) {
  const names = useNames();
  const [kind, setKind] = useState("");
  const [most, setMost] = useState(PAGE);
  const [opened, setOpened] = useState<Line | null>(null);
  const all = lines(kept);
  const kinds = [...new Set(all.map((line) => line.entry.kind))].sort();
  const chosen = kind === "" ? all : all.filter((line) => line.entry.kind === kind);
  const shown = chosen.slice(0, most);
  const verdicts = new Map(state.checks.map((check) => [check.entry, check.verdict]));
  return (
    <>
      <Choice
        label={words.log.show}
        options={[
          { value: "", label: `${words.log.everything} (${all.length})` },
          ...kinds.map((one) => ({ value: one, label: words.kinds[one] ?? one })),
        ]}
        value={kind}
        onChange={(next) => {
          setKind(next);
          setMost(PAGE);
        }}
      />
      <ol class="log">
        {shown.map((line, i) => {
          const { entry } = line;
          const day = dateOf(entry.noted_at);
          const before = shown[i - 1];
          const verdict = verdicts.get(entry.id);
          return (
            <li key={entry.id}>
              {before === undefined || dateOf(before.entry.noted_at) !== day ? <h2 class="log-day">{day}</h2> : null}
              <button
                type="button"
                class={line.voidedBy === null ? "log-line" : "log-line log-void"}
                onClick={() => setOpened(line)}
              >
                <span class="figure log-time">{timeOf(entry.noted_at)}</span>
                <span class="log-text">
                  <strong>{words.kinds[entry.kind] ?? entry.kind}</strong>{" "}
                  <span class={line.voidedBy === null ? "" : "struck"}>{telling(entry.kind, entry.body, names)}</span>
                  {verdict === undefined ? null : <Mark verdict={verdict} />}
                  <span class="quiet log-who">
                    {nameOf(entry.by)}
                    {line.voidedBy === null ? "" : ` · ${words.log.voided}`}
                    {line.sent ? "" : ` · ${words.log.unsent}`}
                  </span>
                </span>
              </button>
            </li>
          );
        })}
      </ol>
      {chosen.length > most && (
        <button type="button" class="button wide" onClick={() => setMost(most + PAGE)}>
          {words.log.older(chosen.length - most)}
        </button>
      )}
      {opened === null ? null : <Opened line={opened} subject={state.subject} onClose={() => setOpened(null)} />}
    </>
  );
}

function Opened({ line, subject, onClose }: { line: Line; subject: string; onClose: () => void }) {
  const names = useNames();
  const { write, busy, problem } = useWriting();
  const [reason, setReason] = useState("");
  const { entry, voidedBy, sent } = line;
  const strike = async () => {
    const made = await write([{ subject, kind: "void", body: { entry: entry.id, reason: reason.trim() } }], words.log.struck);
    if (made !== null) onClose();
  };
  return (
    <Sheet title={words.kinds[entry.kind] ?? entry.kind} onClose={onClose}>
      <p>{telling(entry.kind, entry.body, names)}</p>
      <dl class="told-fields">
        {Object.entries(entry.body)
          .filter(([, value]) => typeof value !== "object")
          .map(([name, value]) => (
            <div key={name}>
              <dt>{names.of(name).label}</dt>
              <dd class={typeof value === "number" ? "figure" : ""}>{String(value)}</dd>
            </div>
          ))}
        <div>
          <dt>{words.log.by}</dt>
          <dd>
            {nameOf(entry.by)}, {dateOf(entry.noted_at)} {timeOf(entry.noted_at)}
          </dd>
        </div>
        <div>
          <dt>{words.log.sent}</dt>
          <dd>{sent ? words.yes : words.log.unsent}</dd>
        </div>
      </dl>
      {voidedBy !== null ? (
        <p>
          {words.log.voidedBy(nameOf(voidedBy.by))} {String(voidedBy.body.reason ?? "")}
        </p>
      ) : identity.value === null ? null : (
        <>
          <TextField label={words.log.whyVoid} value={reason} onChange={setReason} help={words.log.voidHelp} />
          {problem === null ? null : <p class="problem">{problem}</p>}
          <button type="button" class="button wide" disabled={busy || reason.trim() === ""} onClick={() => void strike()}>
            {words.log.void}
          </button>
        </>
      )}
    </Sheet>
  );
}
