/** Between the bench and a bike: taking its numbers, and putting a result on its record. */

import { useState } from "preact/hooks";
import { Sheet } from "../../controls/sheet";
import { TextField } from "../../controls/text-field";
import type { Answer, Calculation } from "../../kernel/types";
import { words } from "../../words";
import { type BikeNow, useBikes } from "../loading";
import { useWriting } from "../writing";
import type { Inputs } from "./inputs";

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
  const bikes = useBikes();
  const sorted = [...(bikes ?? [])].sort(
    (a, b) =>
      Number(b.state.subject === `bike/${first}`) - Number(a.state.subject === `bike/${first}`) ||
      (knows === undefined ? 0 : knows.count(b) - knows.count(a)) ||
      (a.state.described.name ?? "").localeCompare(b.state.described.name ?? ""),
  );
  return (
    <Sheet title={title} onClose={onClose}>
      {bikes?.length === 0 ? <p>{words.bikes.none}</p> : null}
      <ul class="ruled">
        {sorted.map((bike) => (
          <li key={bike.state.subject}>
            <button type="button" class="setting" onClick={() => onPick(bike)}>
              <strong>{bike.state.described.name ?? words.bikes.unnamed}</strong>
              {knows === undefined ? null : <span class="quiet">{knows.says(knows.count(bike))}</span>}
            </button>
          </li>
        ))}
      </ul>
    </Sheet>
  );
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
      {problem === null ? null : <p class="problem">{problem}</p>}
      <button type="button" class="button main wide" disabled={busy} onClick={() => void put()}>
        {words.record}
      </button>
    </Sheet>
  );
}
