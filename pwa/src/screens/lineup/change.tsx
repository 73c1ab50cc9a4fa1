/** Last-minute changes to the start list: a starter more, another plate, another bike, not starting. */

import { useState } from "preact/hooks";
import { useLocation } from "preact-iso";
import { closed } from "../../controls/back";
import { Choice } from "../../controls/choice";
import { Problem } from "../../controls/problem";
import { Sheet } from "../../controls/sheet";
import { TextField } from "../../controls/text-field";
import type { LineupRow } from "../../kernel/lineup-types";
import { MOST_WORDS } from "../../store/limits";
import type { Draft } from "../../store/types";
import { words } from "../../words";
import { known } from "../loading";
import { nameOf } from "../when";
import { useWriting } from "../writing";
import type { EventNow } from "./loading";
import { nameIn } from "./results";
import { MOST_PLATE, plateIn } from "./start-list-file";

interface Common {
  id: string;
  onClose: () => void;
}

/** What a `start` says of who has a plate, with nothing left out that was known. */
export function startBody(row: Partial<Pick<LineupRow, "bike" | "rider" | "name">>, plate: string): Record<string, unknown> {
  return { plate, bike: row.bike ?? undefined, rider: row.rider ?? undefined, name: row.name ?? undefined };
}

export function Starting({ id, now, plate: given = "", onClose }: Common & { now: EventNow; plate?: string }) {
  const { write, busy, problem } = useWriting();
  const [plate, setPlate] = useState(given);
  const [name, setName] = useState("");
  const [bike, setBike] = useState<string | null>(null);
  const bare = plateIn(plate);
  const wrong = plateProblem(bare, now);
  const record = async () => {
    const told = now.bikes.find((one) => one.subject === `bike/${bike}`);
    const rider = (told && known(told)?.rider) ?? undefined;
    const start = {
      plate: bare,
      bike: bike || undefined,
      rider: name.trim() === "" ? rider : undefined,
      name: name.trim() || undefined,
    };
    const drafts: Draft[] = [{ subject: `event/${id}`, kind: "start", body: start }];
    const found = now.lineup.unlisted.find((row) => row.plate === bare);
    if (bike && found) drafts.push(...carried(found, bike, now));
    const made = await write(drafts, words.lineup.started(bare));
    if (made !== null) onClose();
  };
  return (
    <Sheet title={words.lineup.putOnList} onClose={onClose}>
      {given === "" ? (
        <TextField label={words.lineup.plate} value={plate} onChange={setPlate} problem={bare === "" ? undefined : wrong} />
      ) : null}
      <TextField label={words.cells.rider} value={name} onChange={setName} optional />
      <BikeChoice now={now} value={bike} onChange={setBike} />
      <Problem text={problem} />
      <button
        type="button"
        class="button main wide"
        disabled={busy || bare === "" || wrong !== undefined}
        onClick={() => void record()}
      >
        {words.record}
      </button>
    </Sheet>
  );
}

function plateProblem(plate: string, now: EventNow): string | undefined {
  if (plate.length > MOST_PLATE) return words.lineup.file.longPlate(plate.slice(0, MOST_PLATE));
  if (now.event.starters.some((one) => one.plate === plate)) return words.lineup.file.taken(plate);
  return undefined;
}

function BikeChoice({ now, value, onChange }: { now: EventNow; value: string | null; onChange: (bike: string) => void }) {
  const taken = new Set(now.event.starters.map((one) => one.bike));
  const options = now.bikes
    .map((one) => ({ id: one.subject.slice("bike/".length), told: known(one) }))
    .filter(({ id }) => id === value || !taken.has(id))
    .map(({ id, told }) => ({
      value: id,
      label: [told?.name ?? words.bikes.unnamed, told?.rider ? nameOf(told.rider) : ""].filter(Boolean).join(", "),
    }))
    .sort((a, b) => a.label.localeCompare(b.label));
  return (
    <Choice
      label={words.lineup.bike}
      options={[{ value: "", label: words.lineup.noBike }, ...options]}
      value={value}
      onChange={onChange}
      optional
    />
  );
}

export function MatchBike({ id, now, row, onClose }: Common & { now: EventNow; row: LineupRow }) {
  const { write, busy, problem } = useWriting();
  const [bike, setBike] = useState<string | null>(row.bike);
  const record = async () => {
    const drafts: Draft[] = [
      { subject: `event/${id}`, kind: "start", body: startBody({ ...row, bike: bike || null }, row.plate) },
    ];
    if (bike) drafts.push(...carried(row, bike, now));
    const made = await write(drafts, words.lineup.matched(row.plate));
    if (made !== null) onClose();
  };
  return (
    <Sheet title={row.bike === null ? words.lineup.matchBike : words.lineup.otherBike} onClose={onClose}>
      <BikeChoice now={now} value={bike} onChange={setBike} />
      {row.checks.length > 0 ? <p class="quiet">{words.lineup.carriedHelp}</p> : null}
      <Problem text={problem} />
      <button
        type="button"
        class="button main wide"
        disabled={busy || (bike || null) === row.bike}
        onClick={() => void record()}
      >
        {words.record}
      </button>
    </Sheet>
  );
}

/** What was found while only the plate was known becomes open faults of the bike, so that it stops it wherever it goes. */
function carried(row: LineupRow, bike: string, now: EventNow): Draft[] {
  const event = now.event.described.name ?? words.lineup.unnamed;
  const ofPlate = new Set(row.checks.map((check) => check.entry));
  return row.reasons
    .filter(
      (reason) =>
        reason.level !== "open" && reason.item !== undefined && (reason.entry === undefined || ofPlate.has(reason.entry)),
    )
    .map((reason) => ({
      subject: `bike/${bike}`,
      kind: "fault",
      body: {
        what: words.lineup.foundAs(reason.text, event, row.plate).slice(0, 200),
        level: reason.level === "stop" ? "stop" : "care",
        item: reason.item,
      },
    }));
}

export function ChangePlate({ id, now, row, onClose }: Common & { now: EventNow; row: LineupRow }) {
  const { route } = useLocation();
  const { write, busy, problem } = useWriting();
  const [plate, setPlate] = useState("");
  const bare = plateIn(plate);
  const wrong = plateProblem(bare, now);
  const record = async () => {
    const subject = `event/${id}`;
    // Of several under one plate only this one goes: the plate is not withdrawn, see docs/record.md.
    const withdrawn: Draft[] =
      row.question === null
        ? [{ subject, kind: "withdraw", body: { plate: row.plate, reason: words.lineup.nowPlate(bare) } }]
        : [];
    // In this order: the checks made under the old plate come along, see docs/record.md.
    const drafts: Draft[] = [{ subject, kind: "start", body: { ...startBody(row, bare), was: row.plate } }, ...withdrawn];
    const made = await write(drafts, words.lineup.plateChanged(row.plate, bare));
    if (made === null) return;
    // The new plate's sheet is the same screen, which would keep this open.
    await closed(onClose);
    route(`/lineup/${id}/plate/${encodeURIComponent(bare)}`, true);
  };
  return (
    <Sheet title={words.lineup.otherPlate} onClose={onClose}>
      <p>{words.lineup.plateOf(row.plate, nameIn(row) || words.nobody)}</p>
      <TextField label={words.lineup.newPlate} value={plate} onChange={setPlate} problem={bare === "" ? undefined : wrong} />
      <Problem text={problem} />
      <button
        type="button"
        class="button main wide"
        disabled={busy || bare === "" || wrong !== undefined}
        onClick={() => void record()}
      >
        {words.record}
      </button>
    </Sheet>
  );
}

export function Withdraw({ id, row, onClose }: Common & { row: LineupRow }) {
  const { route } = useLocation();
  const { write, busy, problem } = useWriting();
  const [reason, setReason] = useState("");
  const record = async () => {
    const body = { plate: row.plate, reason: reason.trim() || undefined };
    const made = await write([{ subject: `event/${id}`, kind: "withdraw", body }], words.lineup.withdrawn(row.plate));
    if (made === null) return;
    await closed(onClose);
    route(`/lineup/${id}`, true);
  };
  return (
    <Sheet title={words.lineup.withdraw} onClose={onClose}>
      <TextField label={words.reason} value={reason} onChange={setReason} most={MOST_WORDS} optional />
      <Problem text={problem} />
      <button type="button" class="button main wide" disabled={busy} onClick={() => void record()}>
        {words.lineup.withdraw}
      </button>
    </Sheet>
  );
}
