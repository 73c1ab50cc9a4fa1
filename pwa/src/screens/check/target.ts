/** What is checked: a bike on record, or a plate at an event whose bike nobody can name yet. */

import { useRoute } from "preact-iso";
import type { BikeState } from "../../kernel/types";
import { words } from "../../words";
import { useBike } from "../loading";

export interface Target {
  subject: string;
  /** What is known of the bike; null of a plate. */
  state: BikeState | null;
  name: string;
  /** Where the check came from, and goes back to. */
  back: string;
  after: string;
  event?: string | undefined;
  plate?: string | undefined;
}

/** undefined while it loads, null when there is no such bike on this phone. */
export function useTarget(): Target | null | undefined {
  const { params, query } = useRoute();
  const { id = "", plate: coded } = params;
  const bike = useBike(coded === undefined ? id : "");
  if (coded !== undefined) {
    const plate = decodeURIComponent(coded);
    const back = `/lineup/${id}/plate/${coded}`;
    return {
      subject: `event/${id}`,
      state: null,
      name: words.lineup.plateNo(plate),
      back,
      after: `/lineup/${id}`,
      event: id,
      plate,
    };
  }
  if (!bike) return bike;
  const { state } = bike;
  const name = state.described.name ?? words.bikes.unnamed;
  const { event, plate } = query;
  if (!event) return { subject: state.subject, state, name, back: `/${state.subject}/checks`, after: `/${state.subject}` };
  const back = plate ? `/lineup/${event}/plate/${encodeURIComponent(plate)}` : `/lineup/${event}`;
  return {
    subject: state.subject,
    state,
    name: plate ? `${plate} · ${name}` : name,
    back,
    after: `/lineup/${event}`,
    event,
    plate,
  };
}
