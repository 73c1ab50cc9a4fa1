/** Events as the screens see them: folded from what the phone keeps, with the bikes of their starters. */

import type { Listed } from "../../folding";
import { kernel } from "../../kernel/client";
import type { EventState, Lineup } from "../../kernel/lineup-types";
import { record } from "../../store/record";
import type { Kept } from "../../store/types";
import { loadBikes, useBikeLines, useLoaded } from "../loading";

const folded = new Map<string, { key: string; state: Promise<EventState> }>();

function foldOnce(subject: string, kept: Kept[]): Promise<EventState> {
  const key = `${kept.length} ${kept.reduce((sum, one) => sum + (one.seq ?? 0), 0)} ${kept.at(-1)?.id ?? ""}`;
  const known = folded.get(subject);
  if (known?.key === key) return known.state;
  const state = kernel.foldEvent(subject, kept);
  folded.set(subject, { key, state });
  state.catch(() => folded.delete(subject));
  return state;
}

async function loadEvent(subject: string): Promise<EventState | null> {
  const kept = await record.entries(subject);
  return kept.length === 0 ? null : foldOnce(subject, kept);
}

/** Every event on this phone, the latest first. */
export function useEvents(): EventState[] | undefined {
  return useLoaded(
    async () => {
      const subjects = await record.subjects("event/");
      const events = (await Promise.all(subjects.map(loadEvent))).filter((one) => one !== null);
      return events.sort((a, b) => (b.described.date ?? "").localeCompare(a.described.date ?? ""));
    },
    "events",
    undefined,
  );
}

export interface EventNow {
  event: EventState;
  lineup: Lineup;
  /** Every bike on this phone, to choose from. */
  bikes: Listed[];
}

/** undefined while it loads, null when the phone keeps nothing of it. Only the starters' bikes are opened. */
export function useEvent(id: string): EventNow | null | undefined {
  const bikes = useBikeLines();
  const event = useLoaded(() => loadEvent(`event/${id}`), `event/${id}`, undefined);
  const now = useLoaded<Worked | null | undefined>(
    () => (event ? worked(event) : Promise.resolve(event)),
    `lineup ${id} ${event?.entries ?? 0}`,
    undefined,
  );
  const last = shown.get(id);
  if (now) shown.set(id, now);
  const told = now === undefined ? last : now;
  return told && { ...told, bikes: bikes ?? [] };
}

type Worked = Omit<EventNow, "bikes">;

async function worked(event: EventState): Promise<Worked> {
  const wanted = new Set(event.starters.flatMap(({ bike }) => (bike === null ? [] : [`bike/${bike}`])));
  const bikes = await loadBikes([...wanted]);
  const states = Object.fromEntries(bikes.map(({ state }) => [state.subject.slice("bike/".length), state]));
  return { event, lineup: await kernel.lineup(event, states) };
}

/** What was seen last shows at once, and while the next is worked out. */
const shown = new Map<string, Worked>();
