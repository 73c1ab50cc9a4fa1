/** The story of a bike, newest first. */

import { useMemo, useState } from "preact/hooks";
import { Choice } from "../../controls/choice";
import { Mark } from "../../controls/mark";
import { Problem } from "../../controls/problem";
import { Sheet } from "../../controls/sheet";
import { TextField } from "../../controls/text-field";
import type { BikeState } from "../../kernel/types";
import { identity } from "../../store/record";
import type { Entry, Kept } from "../../store/types";
import { words } from "../../words";
import { Shown as Picture } from "../check/shots";
import { useEntries } from "../loading";
import { useNames } from "../names";
import { dateOf, nameOf, timeOf } from "../when";
import { strikesOut } from "../who";
import { useWriting } from "../writing";
import { BikePage } from "./frame";
import "./log.css";
import { fieldsOf } from "./log-fields";
import { type Among, telling } from "./telling";
import { w } from "./use-words";

const PAGE = 60;

interface Line {
  entry: Entry;
  sent: boolean;
  voidedBy: Entry | null;
  /** What it says, in words. */
  says: string;
  among: Among;
}

export function Log() {
  return <BikePage tab="log">{({ state }) => <Story state={state} />}</BikePage>;
}

function useLines(kept: Kept[] | undefined): Line[] {
  const names = useNames();
  return useMemo(() => {
    const all = (kept ?? []).map((one) => ({ entry: JSON.parse(one.text) as Entry, sent: one.seq !== null }));
    const byId = new Map(all.map(({ entry }) => [entry.id as unknown, entry]));
    const voids = new Map<unknown, Entry>();
    for (const { entry } of all) if (entry.kind === "void") voids.set(entry.body.entry, entry);
    const fitted = all.flatMap(({ entry }) => (entry.kind === "part-fit" ? [entry.body] : []));
    const parts = new Map(fitted.map(({ part, name }) => [part, String(name)]));
    const among: Among = { entry: (id) => byId.get(id), part: (id) => parts.get(id) ?? "" };
    return all
      .map((one) => ({
        ...one,
        // A void of a cut changes nothing: the material is off.
        voidedBy: one.entry.kind === "cut" ? null : (voids.get(one.entry.id) ?? null),
        says: telling(one.entry.kind, one.entry.body, names, among),
        among,
      }))
      .reverse();
  }, [kept, names]);
}

/** What is in the way of the story is left out until it is asked for: the figures of a build, and photos stand with what they show. */
const BUILDING = new Set(["part-fit", "part-remove", "weigh", "measure", "torque", "cut", "calculate", "describe"]);

type Shown = "all" | "riding" | string;

function Story({ state }: { state: BikeState }) {
  const kept = useEntries(state.subject);
  const all = useLines(kept);
  const [kind, setKind] = useState<Shown>("all");
  const [who, setWho] = useState("");
  const [search, setSearch] = useState("");
  const [most, setMost] = useState(PAGE);
  const [opened, setOpened] = useState<Line | null>(null);
  const kinds = useMemo(() => [...new Set(all.map((line) => line.entry.kind))].sort(), [all]);
  const authors = useMemo(() => [...new Set(all.map((line) => line.entry.by))], [all]);
  const photosOf = useMemo(() => Map.groupBy(state.photos, (photo) => photo.about as string | undefined), [state]);
  const checks = useMemo(() => new Map(state.checks.map((check) => [check.entry, check])), [state]);
  const sought = search.trim().toLocaleLowerCase();
  const chosen = all.filter(
    ({ entry, says }) =>
      (kind === "all" || (kind === "riding" ? !BUILDING.has(entry.kind) : entry.kind === kind)) &&
      (who === "" || entry.by === who) &&
      (sought === "" ||
        `${says} ${nameOf(entry.by)} ${words.kinds[entry.kind] ?? ""} ${dateOf(entry.noted_at)}`
          .toLocaleLowerCase()
          .includes(sought)),
  );
  const shown = chosen.slice(0, most);
  const anew = <Value,>(set: (value: Value) => void) => {
    return (value: Value) => {
      set(value);
      setMost(PAGE);
    };
  };
  if (kept === undefined) return <p class="quiet">{words.reading}</p>;
  return (
    <>
      <div class="log-find">
        <TextField label={w.log.search} type="search" value={search} onChange={anew(setSearch)} hideLabel />
        <Choice
          label={words.log.show}
          options={[
            { value: "all", label: words.log.everything },
            { value: "riding", label: w.log.riding },
            ...kinds.map((one) => ({ value: one, label: words.kinds[one] ?? one })),
          ]}
          value={kind}
          onChange={anew(setKind)}
        />
        {authors.length > 1 && (
          <Choice
            label={words.log.by}
            options={[{ value: "", label: w.log.everybody }, ...authors.map((one) => ({ value: one, label: nameOf(one) }))]}
            value={who}
            onChange={anew(setWho)}
          />
        )}
      </div>
      <p class="quiet" role="status">
        {w.log.count(chosen.length, all.length)}
      </p>
      <ol class="log">
        {shown.map((line, i) => {
          const { entry } = line;
          const day = dateOf(entry.noted_at);
          const before = shown[i - 1];
          const check = checks.get(entry.id);
          const photos = entry.kind === "photo" ? [] : (photosOf.get(entry.id) ?? []);
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
                  <span class={line.voidedBy === null ? "" : "struck"}>{line.says}</span>
                  {check === undefined ? null : <Mark verdict={check.verdict} scope={check.scope} />}
                  <span class="quiet log-who">
                    {nameOf(entry.by)}
                    {line.voidedBy === null ? "" : ` · ${words.log.voided}`}
                    {line.sent ? "" : ` · ${words.log.unsent}`}
                  </span>
                </span>
              </button>
              {entry.kind === "photo" && typeof entry.body.sha256 === "string" ? (
                <div class="log-photos">
                  <Picture sha256={entry.body.sha256} alt={line.says || (words.kinds.photo ?? "")} />
                </div>
              ) : null}
              {photos.length > 0 && (
                <div class="log-photos">
                  {photos.map((photo) => (
                    <Picture key={photo.entry} sha256={String(photo.sha256)} alt={String(photo.caption ?? line.says)} />
                  ))}
                </div>
              )}
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
      <p>{line.says}</p>
      <dl class="told-fields">
        {fieldsOf(entry, names, line.among).map((field) => (
          <div key={field.name}>
            <dt>{field.label}</dt>
            <dd class={field.figure ? "figure" : ""}>{field.value}</dd>
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
      {entry.kind === "cut" ? (
        <p class="quiet">{words.log.neverVoid}</p>
      ) : voidedBy !== null ? (
        <p>
          {words.log.voidedBy(nameOf(voidedBy.by))} {String(voidedBy.body.reason ?? "")}
        </p>
      ) : identity.value === null || !strikesOut(entry) ? null : (
        <>
          <TextField label={words.log.whyVoid} value={reason} onChange={setReason} help={words.log.voidHelp} />
          <Problem text={problem} />
          <button type="button" class="button wide" disabled={busy || reason.trim() === ""} onClick={() => void strike()}>
            {words.log.void}
          </button>
        </>
      )}
    </Sheet>
  );
}
