/** The typed way to the kernel in its worker: one JSON string a call. */

import { signal } from "@preact/signals";
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
  return `[${kept.map((k) => `{"seq":${k.seq ?? "null"},"entry":${k.text}}`).join(",")}]`;
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

export const kernel = {
  /** True once the engine runs and has imported the kernel. Calls made before simply wait. */
  ready,
  /** Start the engine now, so that the first question finds it warm. */
  warm: (): void => {
    worker ??= start();
  },
  declarations: once<T.Calculation[]>("declarations"),
  settings: once<T.Setting[]>("settings"),
  /** The shipped intervals; a workshop's or a bike's own win over them. */
  intervals: once<U.Interval[]>("intervals"),
  /** The same as they count for one bike: sealant's by where it lives, as its state says. */
  intervalsOf: (climate: string | null) => call<U.Interval[]>({ do: "intervals-of", climate }),
  interfaces: once<B.Interface[]>("interfaces"),
  /** Throws InputProblems. Inputs are in base units. */
  run: (calculation: string, inputs: Record<string, unknown>) => call<T.Answer>({ do: "run", calculation, inputs }),
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
  spoken: (text: string, state: Pick<T.BikeState, "settings" | "measures">) => call<U.Spoken>({ do: "spoken", text, state }),
  /** `baseline` is an entry; null for the last one. */
  stepsBack: (state: Pick<T.BikeState, "settings" | "baselines">, baseline: string | null) =>
    call<U.StepsBack>({ do: "steps-back", state, baseline }),
  compare: (before: T.BikeState, after: T.BikeState) => call<U.Compared>({ do: "compare", before, after }),
  partTotals: (states: Pick<T.BikeState, "subject" | "described" | "parts" | "removed">[]) =>
    call<U.PartTotal[]>({ do: "part-totals", states }),
  worn: (state: T.BikeState) => call<U.Worn[]>({ do: "worn", state }),
  doubts: (state: T.BikeState, what: string, value: number, plusMinus: number | null) =>
    call<U.Doubt[]>({ do: "doubts", state, what, value, plus_minus: plusMinus }),
  doubtsOfRide: (km: number, hours: number | null) => call<U.Doubt[]>({ do: "doubts-of-ride", km, hours }),
  /** What is due at `now` (ISO); `own` are the workshop's intervals. */
  due: (state: T.BikeState, now: string, own: Record<string, unknown>[] = []) => call<T.Due[]>({ do: "due", state, now, own }),
  /** `bikes` by bare UUID. */
  lineup: (event: L.EventState, bikes: Record<string, T.BikeState>) => call<L.Lineup>({ do: "lineup", event, bikes }),
  /** `systemMass` in kg: rider, bike and load. `own` are the workshop's own interface kinds. */
  fits: (parts: T.PartState[], systemMass: number | null = null, own: B.OwnInterface[] = []) =>
    call<B.FitReport>({ do: "fits", parts, system_mass: systemMass, own_kinds: own }),
  /** The build plan with what is done, ready and blocked; `shop` brings the workshop's own steps and interface kinds. */
  plan: (state: T.BikeState, shop: T.ShopState, systemMass: number | null = null) =>
    call<B.PlannedStep[]>({ do: "plan", state, own: shop.plan, own_kinds: shop.interfaces, system_mass: systemMass }),
  /** The shipped steps, and which steps of `own` wait for themselves. */
  planSteps: (own: B.PlanStep[] = []) => call<{ steps: B.PlanStep[]; circular: string[] }>({ do: "plan-steps", own }),
  /** Throws InputProblems for a cut there is not. */
  cut: (what: string, state: T.BikeState) => call<B.CutCard>({ do: "cut", what, state }),
  torques: (state: Pick<T.BikeState, "parts" | "joints">) => call<B.TorqueCard[]>({ do: "torques", state }),
  position: (state: T.BikeState) => call<B.BuiltPosition>({ do: "position", state }),
  /** The shipped checks and the workshop's own, the newest version of each. */
  checks: (own: T.CheckDefinition[] = []) => call<T.CheckDefinition[]>({ do: "checks", own }),
  /** A check made ready for one bike: limits from its markings, last values, its joints. */
  prepare: (definition: T.CheckDefinition, state: T.BikeState) => call<T.CheckDefinition>({ do: "prepare", definition, state }),
  verdict: (check: string, version: number, answers: T.CheckAnswer[], scope?: "whole" | "part") =>
    call<T.Verdict>({ do: "verdict", check: { check, version, answers, scope } }),
};
