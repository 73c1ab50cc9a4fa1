/** Letting somebody in: who, as what, for which bikes, for how long; then the code to scan. */

import { useEffect, useRef, useState } from "preact/hooks";
import { Choice } from "../../controls/choice";
import { Problem } from "../../controls/problem";
import { TextField } from "../../controls/text-field";
import { record } from "../../store/record";
import { addPerson, type Invited, invite } from "../../store/team";
import type { Person, Role } from "../../store/types";
import { WireProblem } from "../../store/wire";
import { words } from "../../words";
import { dayOf } from "../lineup/events";
import { useEvents } from "../lineup/loading";
import { useBikeLines } from "../loading";
import { team } from "./team-words";

interface Props {
  /** Somebody known, or null for somebody new. */
  person: Person | null;
  roles: Role[];
  over: () => void;
}

function options<Value extends string>(named: Record<Value, string>): { value: Value; label: string }[] {
  return (Object.keys(named) as Value[]).sort((a, b) => Number(a) - Number(b)).map((value) => ({ value, label: named[value] }));
}

export function Inviting({ person, roles, over }: Props) {
  const [name, setName] = useState("");
  const [role, setRole] = useState<Role>(roles[0] ?? "rider");
  const [bikes, setBikes] = useState<string[]>([]);
  const [event, setEvent] = useState<string | null>(null);
  const [minutes, setMinutes] = useState<keyof typeof team.goods>("15");
  const [days, setDays] = useState<keyof typeof team.accesses>("0");
  const [made, setMade] = useState<Invited | null>(null);
  const [known, setKnown] = useState<Person | null>(person);
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const form = useRef<HTMLFormElement>(null);
  // It may have been asked for far down the list.
  useEffect(() => form.current?.scrollIntoView({ block: "start" }), []);
  const make = async () => {
    setBusy(true);
    setProblem(null);
    try {
      const who = known ?? (await addPerson(name, role));
      // Remembered, so that a second try does not add the same person twice.
      setKnown(who);
      if (bikes.length > 0)
        await record.write(bikes.map((subject) => ({ subject, kind: "describe", body: { rider: who.id } })));
      setBikes([]);
      setMade(await invite(who.id, Number(minutes), days === "0" ? null : Number(days), checks ? event || null : null));
    } catch (error) {
      if (!(error instanceof WireProblem)) throw error;
      const [first] = error.errors;
      setProblem(first === undefined ? error.said : words.device.refusal(first.field, first.given, first.wanted));
    } finally {
      setBusy(false);
    }
  };
  const checks = (known?.role ?? role) === "checker";
  if (made !== null) return <Code made={made} who={known?.name ?? name} over={over} />;
  return (
    <form
      ref={form}
      class="form"
      onSubmit={(event) => {
        event.preventDefault();
        void make();
      }}
    >
      <h3>{person === null ? team.letIn : person.name}</h3>
      {person === null ? (
        <>
          <TextField label={team.name} value={name} onChange={setName} />
          <Choice
            label={team.role}
            options={roles.map((one) => ({ value: one, label: words.roles[one] }))}
            value={role}
            onChange={setRole}
          />
          {role === "rider" ? <Bikes chosen={bikes} choose={setBikes} /> : null}
        </>
      ) : null}
      {checks ? <OfEvent event={event} choose={setEvent} /> : null}
      <Choice label={team.good} options={options(team.goods)} value={minutes} onChange={setMinutes} />
      <Choice label={team.access} options={options(team.accesses)} value={days} onChange={setDays} />
      <Problem text={problem} />
      <div class="buttons">
        <button
          type="submit"
          class="button main"
          disabled={busy || (person === null && name.trim() === "") || (checks && event === null)}
        >
          {team.make}
        </button>
        <button type="button" class="button" onClick={over}>
          {team.no}
        </button>
      </div>
    </form>
  );
}

/** Which event a checker sees. It is chosen, never taken for granted; all of them is one of the answers. */
function OfEvent({ event, choose }: { event: string | null; choose: (event: string) => void }) {
  const events = useEvents() ?? [];
  const named = events.map((one) => ({
    value: one.subject.slice("event/".length),
    label: [one.described.name ?? words.lineup.unnamed, dayOf(one.described.date)].filter(Boolean).join(", "),
  }));
  return (
    <>
      <Choice label={team.event} options={[...named, { value: "", label: team.allEvents }]} value={event} onChange={choose} />
      <p class="quiet">{event === "" ? team.checkerHelp : team.eventHelp}</p>
    </>
  );
}

function Bikes({ chosen, choose }: { chosen: string[]; choose: (bikes: string[]) => void }) {
  const lines = useBikeLines() ?? [];
  if (lines.length === 0) return null;
  return (
    <fieldset class="team-bikes">
      <legend>{team.bikes}</legend>
      <p class="quiet">{team.bikesHelp}</p>
      {lines.map(({ subject, line, last }) => (
        <label key={subject}>
          <input
            type="checkbox"
            checked={chosen.includes(subject)}
            onChange={(event) =>
              choose(event.currentTarget.checked ? [...chosen, subject] : chosen.filter((one) => one !== subject))
            }
          />
          {(line ?? last)?.summary.name ?? subject}
        </label>
      ))}
    </fieldset>
  );
}

function Code({ made, who, over }: { made: Invited; who: string; over: () => void }) {
  return (
    <div class="team-code">
      <p role="status">{team.scan(who)}</p>
      <img src={made.qr} alt={team.qr} />
      <p class="figure">{made.code.replace(/(.{4})(?=.)/g, "$1 ")}</p>
      <div class="buttons">
        <button type="button" class="button" onClick={() => void navigator.clipboard?.writeText(made.link)}>
          {team.copy}
        </button>
        <button type="button" class="button main" onClick={over}>
          {team.finish}
        </button>
      </div>
    </div>
  );
}
