/** Between the bench and a bike: taking its numbers, and putting a result on its record. */

import { useState } from "preact/hooks";
import { Problem } from "../../controls/problem";
import { Sheet } from "../../controls/sheet";
import { TextField } from "../../controls/text-field";
import type { Answer, Calculation } from "../../kernel/types";
import { words } from "../../words";
import { type BikeNow, known, loadBike, loadBikes, useBikeLines, useLoaded } from "../loading";
import { useWriting } from "../writing";
import type { Inputs } from "./inputs";

/** So many bikes are shown and looked into; the others are found by their names. */
const MOST = 24;

interface PickerProps {
  title: string;
  /** A bike one came from, first in the list. */
  first?: string | undefined;
  onClose: () => void;
  onPick: (bike: BikeNow) => void;
  /** How many of the numbers wanted it knows, and how that is said: those that know most come first. */
  knows?: { count: (bike: BikeNow) => number; says: (count: number) => string };
}

export function BikePicker({ title, first, onClose, onPick, knows }: PickerProps) {
  const bikes = useBikeLines();
  const [search, setSearch] = useState("");
  const sought = search.trim().toLocaleLowerCase();
  const named = (bikes ?? []).map((bike) => ({ bike, name: known(bike)?.name ?? words.bikes.unnamed }));
  const nearest = named
    .filter(({ name }) => name.toLocaleLowerCase().includes(sought))
    .sort(
      (a, b) =>
        Number(b.bike.subject === `bike/${first}`) - Number(a.bike.subject === `bike/${first}`) || a.name.localeCompare(b.name),
    )
    .slice(0, MOST);
  const opened = useOpened(knows === undefined ? [] : nearest.map(({ bike }) => bike.subject));
  const counted = (subject: string) => {
    const bike = opened.get(subject);
    return knows === undefined || bike === undefined ? null : knows.count(bike);
  };
  const sorted = [...nearest].sort(
    (a, b) =>
      Number(b.bike.subject === `bike/${first}`) - Number(a.bike.subject === `bike/${first}`) ||
      (counted(b.bike.subject) ?? 0) - (counted(a.bike.subject) ?? 0),
  );
  const pick = async (subject: string) => {
    const bike = await loadBike(subject);
    if (bike !== null) onPick(bike);
  };
  return (
    <Sheet title={title} onClose={onClose}>
      {bikes?.length === 0 ? <p>{words.bikes.none}</p> : null}
      {named.length > MOST ? (
        <TextField label={words.bikes.search} type="search" value={search} onChange={setSearch} hideLabel />
      ) : null}
      {sought !== "" && nearest.length === 0 ? <p>{words.bikes.noneFound(search)}</p> : null}
      <ul class="ruled">
        {sorted.map(({ bike: { subject }, name }) => {
          const count = counted(subject);
          return (
            <li key={subject}>
              <button type="button" class="line-button setting" onClick={() => void pick(subject)}>
                <strong>{name}</strong>
                {knows === undefined || count === null ? null : <span class="quiet">{knows.says(count)}</span>}
              </button>
            </li>
          );
        })}
      </ul>
    </Sheet>
  );
}

/** These bikes as they come to be opened; the same ones are opened once. */
function useOpened(subjects: string[]): Map<string, BikeNow> {
  const key = [...subjects].sort().join(" ");
  const bikes = useLoaded(() => loadBikes(key === "" ? [] : key.split(" ")), `opened ${key}`, undefined);
  return new Map((bikes ?? []).map((bike) => [bike.state.subject, bike]));
}

interface PutProps {
  calculation: Calculation;
  inputs: Inputs;
  answer: Answer;
  first?: string | undefined;
  onClose: () => void;
}

export function PutOnBike({ calculation, inputs, answer, first, onClose }: PutProps) {
  const [bike, setBike] = useState<BikeNow | null>(null);
  const [note, setNote] = useState("");
  const { write, busy, problem } = useWriting();
  if (bike === null) return <BikePicker title={words.bench.put} first={first} onClose={onClose} onPick={setBike} />;
  const name = bike.state.described.name ?? words.bikes.unnamed;
  const put = async () => {
    const body = { calculation: calculation.id, inputs, outputs: answer.outputs, note: note.trim() || undefined };
    const made = await write(
      [{ subject: bike.state.subject, kind: "calculate", body }],
      words.bench.isOn(calculation.title, name),
    );
    if (made !== null) onClose();
  };
  return (
    <Sheet title={words.bench.putOn(name)} onClose={onClose}>
      <p>{words.bench.putHelp}</p>
      <TextField label={words.note} value={note} onChange={setNote} optional />
      <Problem text={problem} />
      <button type="button" class="button main wide" disabled={busy} onClick={() => void put()}>
        {words.record}
      </button>
    </Sheet>
  );
}
