/** The typed way to the kernel in its worker: one JSON string a call. */

import { signal } from "@preact/signals";
import { putOver } from "../languages/put-over";
import type { Kept } from "../store/types";
import type * as B from "./build-types";
import type * as L from "./lineup-types";
import { prepare, prepared } from "./prepared";
import { takeWorker, workerAddress } from "./starting";
import type * as T from "./types";
import type * as U from "./use-types";

/** Inputs that cannot be taken, each with its field, what was given and what is wanted. */
export class InputProblems extends Error {
  constructor(readonly problems: T.Problem[]) {
    super(problems.map((p) => `${p.field}: ${p.given}, wanted ${p.wanted}`).join("; "));
    this.name = "InputProblems";
  }
}

/** The kernel itself failed: a fault of the program, not of the inputs. */
export class KernelFailure extends Error {
  override name = "KernelFailure";
}

interface Waiting {
  message: string;
  resolve: (answer: string) => void;
  reject: (error: Error) => void;
  /** A call that was under way when the worker crashed is tried once more, never a third time. */
  tries: number;
}

const ready = signal(false);
const waiting = new Map<number, Waiting>();
let worker: Worker | null = null;
let nextId = 1;

type FromWorker = { ready: true } | { id: number; answer: string } | { id: number; failed: string } | { broken: string };

function start(): Worker {
  const { worker: started, told: before } = takeWorker();
  const hear = ({ data: told }: MessageEvent<FromWorker>) => {
    if ("ready" in told) {
      ready.value = true;
    } else if ("broken" in told) {
      crashed(started, told.broken);
    } else {
      const call = waiting.get(told.id);
      waiting.delete(told.id);
      if ("answer" in told) call?.resolve(told.answer);
      else call?.reject(new KernelFailure(told.failed));
    }
  };
  started.onmessage = hear;
  started.onerror = (event) => {
    event.preventDefault();
    crashed(started, event.message || "the kernel's worker could not be loaded");
  };
  // Heard once this one is the worker that counts.
  for (const event of before) queueMicrotask(() => hear(event));
  return started;
}

function crashed(which: Worker, why: string): void {
  if (which !== worker) return;
  which.terminate();
  worker = null;
  ready.value = false;
  for (const [id, call] of waiting) {
    if (call.tries >= 2) {
      waiting.delete(id);
      call.reject(new KernelFailure(why));
    }
  }
  for (const [id, call] of waiting) post(id, call);
}

function post(id: number, call: Waiting): void {
  worker ??= start();
  call.tries += 1;
  worker.postMessage({ id, message: call.message });
}

function ask(message: string): Promise<string> {
  return new Promise((resolve, reject) => {
    const id = nextId++;
    const call: Waiting = { message, resolve, reject, tries: 0 };
    waiting.set(id, call);
    post(id, call);
  });
}

async function call<Answer>(message: object | string): Promise<Answer> {
  return answered<Answer>(await ask(typeof message === "string" ? message : JSON.stringify(message)));
}

function answered<Answer>(text: string): Answer {
  const told = JSON.parse(text) as { ok: Answer } | { problems: T.Problem[] } | { failed: string };
  if ("ok" in told) return told.ok;
  if ("problems" in told) throw new InputProblems(told.problems);
  throw new KernelFailure(told.failed);
}

/** Entries go in as the text they were written to, so nothing is parsed on the way. */
function entriesText(kept: Kept[]): string {
  return `[${kept.map((k) => `{"seq":${k.seq ?? "null"}${k.refused ? ',"refused":true' : ""},"entry":${k.text}}`).join(",")}]`;
}

function folded<State>(what: "fold" | "summary", subject: string, kept: Kept[]): Promise<State> {
  return call<State>(`{"do":"${what}","subject":${JSON.stringify(subject)},"entries":${entriesText(kept)}}`);
}

/** A question about a subject's entries, all of them or those after a snapshot (JSON text, as `freeze` gave it). */
function ofEntries(what: string, subject: string, kept: Kept[], snapshot: string, more: object): string {
  const rest = Object.entries(more).map(([name, value]) => `,"${name}":${JSON.stringify(value)}`);
  const from = snapshot === "" ? "" : `,"snapshot":${snapshot}`;
  return `{"do":"${what}","subject":${JSON.stringify(subject)},"entries":${entriesText(kept)}${from}${rest.join("")}}`;
}

const OK = '{"ok": ';

/** What never changes while the program is the same is asked once, and kept for the next start. */
function once<Answer>(what: string): () => Promise<Answer> {
  let asked: Promise<Answer> | null = null;
  return () => {
    asked ??= lasting<Answer>(what).catch((error: unknown) => {
      asked = null;
      throw error;
    });
    return asked;
  };
}

async function lasting<Answer>(what: string): Promise<Answer> {
  const program = new URL(workerAddress, location.href).pathname;
  const kept = await prepared(program, what);
  if (kept !== null) return answered<Answer>(new TextDecoder().decode(kept));
  const text = await ask(JSON.stringify({ do: what }));
  const answer = answered<Answer>(text);
  void prepare(program, what, new TextEncoder().encode(text));
  return answer;
}

/** Texts of answers that are shown and never recorded; the others are put over where they stand on a screen. */
const DECLARED = ["label", "help", "title", "question", "cautions", "source", "more", "less", "place"];

/** An answer to be shown: its texts under `names` in the person's language. */
async function shown<Answer>(message: object, ...names: string[]): Promise<Answer> {
  return putOver(await call<Answer>(message), names);
}

/** The same of what never changes. */
function shownOnce<Answer>(what: string): () => Promise<Answer> {
  const ask = once<Answer>(what);
  let made: Promise<Answer> | null = null;
  return () => {
    made ??= ask().then(
      (answer) => putOver(answer, DECLARED),
      (error: unknown) => {
        made = null;
        throw error;
      },
    );
    return made;
  };
}

/** Working in words (a choice, a table looked up) is a sentence where a formula would be. */
function workingShown(answer: T.Answer): T.Answer {
  const working = answer.working.map((line) => (line.symbol === "" ? putOver(line, ["formula"]) : line));
  return { ...putOver(answer, ["text"]), working };
}

export const kernel = {
  /** True once the engine runs and has imported the kernel. Calls made before simply wait. */
  ready,
  /** Start the engine now, so that the first question finds it warm. */
  warm: (): void => {
    worker ??= start();
  },
  declarations: shownOnce<T.Calculation[]>("declarations"),
  settings: shownOnce<T.Setting[]>("settings"),
  /** The shipped intervals; a workshop's or a bike's own win over them. */
  intervals: once<U.Interval[]>("intervals"),
  /** The same as they count for one bike: sealant's by where it lives, as its state says. */
  intervalsOf: (climate: string | null) => call<U.Interval[]>({ do: "intervals-of", climate }),
  interfaces: shownOnce<B.Interface[]>("interfaces"),
  /** Throws InputProblems. Inputs are in base units. */
  run: async (calculation: string, inputs: Record<string, unknown>) =>
    workingShown(await call<T.Answer>({ do: "run", calculation, inputs })),
  fold: (subject: string, kept: Kept[]) => folded<T.BikeState>("fold", subject, kept),
  foldEvent: (subject: string, kept: Kept[]) => folded<L.EventState>("fold", subject, kept),
  foldShop: (kept: Kept[]) => folded<T.ShopState>("fold", "workshop", kept),
  summary: (subject: string, kept: Kept[]) => folded<T.Summary>("summary", subject, kept),
  /** A bike folded with what is due at `now`; null when `snapshot` does not serve. `own` are the workshop's intervals. */
  open: (subject: string, kept: Kept[], snapshot: string, now: string, own: Record<string, unknown>[]) =>
    call<U.OpenedBike | null>(ofEntries("open", subject, kept, snapshot, { now, own })),
  /** The same without the state: one line of a list. */
  line: (subject: string, kept: Kept[], snapshot: string, now: string, own: Record<string, unknown>[]) =>
    call<U.BikeLine | null>(ofEntries("line", subject, kept, snapshot, { now, own })),
  /** A snapshot to go on from, as the JSON text it is kept as; null when `snapshot` does not serve to build upon. */
  freeze: async (
    subject: string,
    kept: Kept[],
    snapshot: string,
  ): Promise<{ text: string; key: string; count: number } | null> => {
    const answer = await ask(ofEntries("freeze", subject, kept, snapshot, {}));
    const frozen = answered<{ key: string; count: number } | null>(answer);
    return frozen === null ? null : { text: answer.slice(OK.length, -1), key: frozen.key, count: frozen.count };
  },
  dueRanked: (rows: U.DueRow[]) => call<U.DueRow[]>({ do: "due-ranked", rows }),
  /** `units`: what one of a bare figure is in a setting's unit, where this person reads another. */
  spoken: (text: string, state: Pick<T.BikeState, "settings" | "measures">, units: Record<string, number> = {}) =>
    shown<U.Spoken>({ do: "spoken", text, state, units }, "label", "way", "wanted", "choices"),
  /** `baseline` is an entry; null for the last one. */
  stepsBack: (state: Pick<T.BikeState, "settings" | "baselines">, baseline: string | null) =>
    shown<U.StepsBack>({ do: "steps-back", state, baseline }, "label", "place", "way", "left_alone"),
  compare: (before: T.BikeState, after: T.BikeState) => shown<U.Compared>({ do: "compare", before, after }, "label"),
  partTotals: (states: Pick<T.BikeState, "subject" | "described" | "parts" | "removed">[]) =>
    call<U.PartTotal[]>({ do: "part-totals", states }),
  worn: (state: T.BikeState) => shown<U.Worn[]>({ do: "worn", state }, "title", "limit_from"),
  doubts: (state: T.BikeState, what: string, value: number, plusMinus: number | null) =>
    shown<U.Doubt[]>({ do: "doubts", state, what, value, plus_minus: plusMinus }, "text"),
  doubtsOfRide: (km: number, hours: number | null) => shown<U.Doubt[]>({ do: "doubts-of-ride", km, hours }, "text"),
  /** What is due at `now` (ISO); `own` are the workshop's intervals. */
  due: (state: T.BikeState, now: string, own: Record<string, unknown>[] = []) => call<T.Due[]>({ do: "due", state, now, own }),
  /** `bikes` by bare UUID. */
  lineup: (event: L.EventState, bikes: Record<string, T.BikeState>) => call<L.Lineup>({ do: "lineup", event, bikes }),
  /** `systemMass` in kg: rider, bike and load. `own` are the workshop's own interface kinds. */
  fits: (parts: T.PartState[], systemMass: number | null = null, own: B.OwnInterface[] = []) =>
    shown<B.FitReport>(
      { do: "fits", parts, system_mass: systemMass, own_kinds: own },
      ...["title", "reason", "with", "source", "measure"],
    ),
  /** The build plan with what is done, ready and blocked; `shop` brings the workshop's own steps and interface kinds. */
  plan: (state: T.BikeState, shop: T.ShopState, systemMass: number | null = null) =>
    shown<B.PlannedStep[]>(
      { do: "plan", state, own: shop.plan, own_kinds: shop.interfaces, system_mass: systemMass },
      ...["title", "by"],
    ),
  /** The shipped steps, and which steps of `own` wait for themselves. */
  planSteps: (own: B.PlanStep[] = []) => call<{ steps: B.PlanStep[]; circular: string[] }>({ do: "plan-steps", own }),
  /** Throws InputProblems for a cut there is not. */
  cut: (what: string, state: T.BikeState) =>
    shown<B.CutCard>({ do: "cut", what, state }, "title", "name", "blocked", "marks", "cautions"),
  torques: (state: Pick<T.BikeState, "parts" | "joints">) =>
    shown<B.TorqueCard[]>({ do: "torques", state }, "caution", "source"),
  position: (state: T.BikeState) => shown<B.BuiltPosition>({ do: "position", state }, "label"),
  /** The shipped checks and the workshop's own, the newest version of each. */
  checks: (own: T.CheckDefinition[] = []) => call<T.CheckDefinition[]>({ do: "checks", own }),
  /** A check made ready for one bike: limits from its markings, last values, its joints. */
  prepare: (definition: T.CheckDefinition, state: T.BikeState) => call<T.CheckDefinition>({ do: "prepare", definition, state }),
  verdict: (check: string, version: number, answers: T.CheckAnswer[], scope?: "whole" | "part") =>
    call<T.Verdict>({ do: "verdict", check: { check, version, answers, scope } }),
};
