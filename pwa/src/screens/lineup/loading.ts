/** Events as the screens see them: folded from what the phone keeps, with the bikes of their starters. */

import { kernel } from "../../kernel/client";
import type { EventState, Lineup } from "../../kernel/types";
import { record } from "../../store/record";
import type { Kept } from "../../store/types";
import { type BikeNow, useBikes, useLoaded } from "../loading";

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
  bikes: BikeNow[];
}

/** undefined while it loads, null when the phone keeps nothing of it. */
export function useEvent(id: string): EventNow | null | undefined {
  const bikes = useBikes();
  const event = useLoaded(() => loadEvent(`event/${id}`), `event/${id}`, undefined);
  const key = `lineup ${id} ${event?.entries ?? 0} ${bikes?.reduce((sum, one) => sum + one.state.entries, 0) ?? "-"}`;
  const now = useLoaded<EventNow | null | undefined>(
    async () => {
      if (!event || bikes === undefined) return event === null ? null : undefined;
      const states = Object.fromEntries(bikes.map((bike) => [bike.state.subject.slice("bike/".length), bike.state]));
      const wanted = new Set(event.starters.map((starter) => starter.bike));
      const needed = Object.fromEntries(Object.entries(states).filter(([bike]) => wanted.has(bike)));
      return { event, bikes, lineup: await kernel.lineup(event, needed) };
    },
    key,
    undefined,
  );
  const last = shown.get(id);
  if (now) shown.set(id, now);
  return now === undefined ? last : now;
}

/** What was seen last shows at once, and while the next is worked out. */
const shown = new Map<string, EventNow>();
