/** What a part has run in all, over every bike it was on; and moving it to another one. */

import { useState } from "preact/hooks";
import { useLocation, useRoute } from "preact-iso";
import { Caution } from "../../controls/caution";
import { Choice } from "../../controls/choice";
import { Problem } from "../../controls/problem";
import { TextField } from "../../controls/text-field";
import { kernel } from "../../kernel/client";
import type { BikeState } from "../../kernel/types";
import type { PartTotal } from "../../kernel/use-types";
import { record } from "../../store/record";
import { show } from "../../units";
import { words } from "../../words";
import { loadBikes, useBikeLines, useLoaded } from "../loading";
import { dateOf } from "../when";
import { writes } from "../who";
import { useWriting } from "../writing";
import "./now.css";
import { UnderBike } from "./under";
import { w } from "./use-words";

function usePartTotal(part: string): PartTotal | null {
  return useLoaded(() => partTotal(part), `part ${part}`, null) ?? null;
}

/** Only the bikes whose entries name the part are opened. */
async function partTotal(part: string): Promise<PartTotal | null> {
  const bikes = await loadBikes(await record.naming(part, "bike/"));
  const states = bikes.flatMap(({ state: { subject, described, parts, removed } }) => {
    const own = parts.filter((one) => one.part === part);
    const gone = removed.filter((one) => one.part === part);
    return own.length + gone.length === 0 ? [] : [{ subject, described, parts: own, removed: gone }];
  });
  return (await kernel.partTotals(states))[0] ?? null;
}

export function PartRun({ part, subject }: { part: string; subject: string }) {
  const total = usePartTotal(part);
  if (total === null) return null;
  return (
    <section class="part">
      <p>
        <strong class="figure">{w.parts.inAll(show(total.km, "km", 0), show(total.hours, "h", 0))}</strong>
      </p>
      {total.on.length > 1 ? <p class="problem">{w.parts.twice}</p> : null}
      {total.stretches.length > 1 && (
        <ul class="ruled">
          {total.stretches.map((one) => (
            <li key={one.subject + one.from} class="fault">
              <div>
                {w.parts.stretch(one.bike ?? words.bikes.unnamed, show(one.km, "km", 0))}
                <p class="quiet">
                  {one.until === null ? w.parts.sinceDay(dateOf(one.from)) : w.parts.until(dateOf(one.from), dateOf(one.until))}
                </p>
              </div>
            </li>
          ))}
        </ul>
      )}
      {writes("part-fit") && total.on.includes(subject) ? (
        <a class="button small" href={`/${subject}/move/${part}`}>
          {w.parts.move}
        </a>
      ) : null}
    </section>
  );
}

export function MovePart() {
  const part = useRoute().params.part ?? "";
  return <UnderBike title={w.parts.move}>{({ state }) => <Move state={state} id={part} />}</UnderBike>;
}

function Move({ state, id }: { state: BikeState; id: string }) {
  const { route } = useLocation();
  const { write, busy, problem } = useWriting();
  const bikes = useBikeLines() ?? [];
  const part = state.parts.find((one) => one.part === id);
  const others = bikes.filter((bike) => bike.subject !== state.subject);
  const [to, setTo] = useState<string | null>(null);
  const [slot, setSlot] = useState(part?.slot ?? "");
  if (part === undefined) return <p>{words.bikes.notHereHelp}</p>;
  if (others.length === 0) return <p>{w.parts.noOther}</p>;
  const nameOfBike = (subject: string) =>
    others.find((bike) => bike.subject === subject)?.last?.summary.name ?? words.bikes.unnamed;
  const move = async () => {
    if (to === null) return;
    const { name, count, claimed, price, markings, interfaces } = part;
    const bike = nameOfBike(to);
    const made = await write(
      [
        { subject: state.subject, kind: "part-remove", body: { part: id, reason: w.parts.movedTo(bike) } },
        {
          subject: to,
          kind: "part-fit",
          body: { part: id, slot: slot.trim(), name, count, claimed, price, markings, interfaces },
        },
      ],
      w.parts.moved(name, bike),
    );
    if (made !== null) route(`/${to}`);
  };
  return (
    <div class="form">
      <h2>{part.name}</h2>
      <p class="quiet">{w.parts.moveHelp}</p>
      <Choice
        label={w.parts.to}
        options={others.map((bike) => ({ value: bike.subject, label: nameOfBike(bike.subject) }))}
        value={to}
        onChange={setTo}
      />
      <TextField label={w.parts.slot} value={slot} onChange={setSlot} />
      <Caution lines={[w.parts.loosened]} />
      <Problem text={problem} />
      <button
        type="button"
        class="button main wide"
        disabled={busy || to === null || slot.trim() === ""}
        onClick={() => void move()}
      >
        {w.parts.move}
      </button>
    </div>
  );
}
