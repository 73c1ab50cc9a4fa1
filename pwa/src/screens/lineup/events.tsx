/** The events: which there are, and a new one. */

import { useState } from "preact/hooks";
import { useLocation } from "preact-iso";
import { Problem } from "../../controls/problem";
import { Sheet } from "../../controls/sheet";
import { TextField } from "../../controls/text-field";
import { dates } from "../../languages/dates";
import { identity } from "../../store/record";
import { words } from "../../words";
import { Page } from "../shell/page";
import { runsWorkshop } from "../who";
import { useWriting } from "../writing";
import { useEvents } from "./loading";
import "./lineup.css";

const day = dates({ weekday: "short", day: "numeric", month: "long", year: "numeric", timeZone: "UTC" });

export function dayOf(date: string | null): string {
  return date === null ? "" : day(new Date(`${date}T00:00:00Z`));
}

export function Events() {
  const events = useEvents();
  const [making, setMaking] = useState(false);
  return (
    <Page
      place="lineup"
      title={words.places.lineup}
      foot={
        runsWorkshop() ? (
          <div class="foot-act">
            <button type="button" class="button" onClick={() => setMaking(true)}>
              {words.lineup.newEvent}
            </button>
          </div>
        ) : null
      }
    >
      {events === undefined ? <p class="quiet">{words.reading}</p> : null}
      {events?.length === 0 ? (
        <p class="empty">
          {identity.value === null
            ? words.bikes.notPaired
            : runsWorkshop()
              ? words.lineup.noEvents
              : words.lineup.noEventsYours}
        </p>
      ) : null}
      <ul class="ruled events">
        {(events ?? []).map((event) => (
          <li key={event.subject}>
            <a class="event-line" href={`/lineup/${event.subject.slice("event/".length)}`}>
              <strong>{event.described.name ?? words.lineup.unnamed}</strong>
              <span class="figure">{words.lineup.starters(event.starters.length)}</span>
              <span class="quiet">{[dayOf(event.described.date), event.described.place].filter(Boolean).join(" · ")}</span>
            </a>
          </li>
        ))}
      </ul>
      {making ? <NewEvent onClose={() => setMaking(false)} /> : null}
    </Page>
  );
}

function NewEvent({ onClose }: { onClose: () => void }) {
  const { route } = useLocation();
  const { write, busy, problem } = useWriting();
  const [name, setName] = useState("");
  const [date, setDate] = useState("");
  const [place, setPlace] = useState("");
  const record = async () => {
    const id = crypto.randomUUID();
    const body = { name: name.trim(), date: date || undefined, place: place.trim() || undefined };
    const made = await write([{ subject: `event/${id}`, kind: "describe", body }], words.lineup.made(name.trim()));
    if (made !== null) route(`/lineup/${id}/list`);
  };
  return (
    <Sheet title={words.lineup.newEvent} onClose={onClose}>
      <TextField label={words.bikes.name} value={name} onChange={setName} />
      <TextField label={words.lineup.date} type="date" value={date} onChange={setDate} optional />
      <TextField label={words.lineup.place} value={place} onChange={setPlace} optional />
      <Problem text={problem} />
      <button type="button" class="button main wide" disabled={busy || name.trim() === ""} onClick={() => void record()}>
        {words.record}
      </button>
    </Sheet>
  );
}
