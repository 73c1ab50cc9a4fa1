/** People and their phones: who may come in, when each phone was last seen, what waits on it; letting in and shutting out. */

import { useEffect, useState } from "preact/hooks";
import { refreshIdentity } from "../../store/pairing";
import { addPasskey, canPasskey, NoPasskey } from "../../store/passkeys";
import { identity, people } from "../../store/record";
import { listDevices, revoke, type TeamDevice } from "../../store/team";
import type { Person } from "../../store/types";
import { WireProblem } from "../../store/wire";
import { words } from "../../words";
import { useEvents } from "../lineup/loading";
import { whenOf } from "../when";
import { Inviting } from "./inviting";
import "./team.css";
import { LETS_IN, team } from "./team-words";

export function Team() {
  const [devices, setDevices] = useState<TeamDevice[] | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const [letting, setLetting] = useState<Person | "somebody" | null>(null);
  const [said, setSaid] = useState("");
  const events = useEvents() ?? [];
  const read = async () => {
    try {
      setDevices(await listDevices());
      setProblem(null);
    } catch (error) {
      if (!(error instanceof WireProblem)) throw error;
      setProblem(team.needsServer);
    }
  };
  useEffect(() => void read(), []);
  const who = identity.value;
  if (who === null) return null;
  const may = LETS_IN[who.person.role];
  const eventName = (id: string) => events.find((one) => one.subject === `event/${id}`)?.described.name ?? words.lineup.unnamed;
  const over = () => {
    setLetting(null);
    void refreshIdentity();
    void read();
  };
  const shutOut = async (device: TeamDevice) => {
    try {
      await revoke(device.id);
      setSaid(device.unsent ? team.doneUnsent(device.name, device.unsent) : team.done(device.name));
    } catch (error) {
      if (!(error instanceof WireProblem)) throw error;
      setSaid(error.said);
    }
    await read();
  };
  return (
    <section class="part">
      <h2>{team.title}</h2>
      {problem === null ? null : <p>{problem}</p>}
      <p role="status">{said}</p>
      {letting === null ? (
        <button type="button" class="button" onClick={() => setLetting("somebody")}>
          {team.letIn}
        </button>
      ) : (
        <Inviting person={letting === "somebody" ? null : letting} roles={may} over={over} />
      )}
      <ul class="ruled">
        {people.value.map((person) => (
          <li key={person.id} class="teammate">
            <strong>{person.name}</strong> <span class="quiet">{words.roles[person.role]}</span>
            {(devices ?? [])
              .filter((one) => one.person === person.id)
              .map((one) => (
                <Phone
                  key={one.id}
                  device={one}
                  own={one.id === who.device.id}
                  eventName={eventName}
                  shutOut={() => shutOut(one)}
                />
              ))}
            {may.includes(person.role) || person.id === who.person.id ? (
              <button type="button" class="button small" onClick={() => setLetting(person)}>
                {team.newPhone}
              </button>
            ) : null}
          </li>
        ))}
      </ul>
      {who.person.role === "owner" && canPasskey() ? <OwnPasskey /> : null}
    </section>
  );
}

interface PhoneProps {
  device: TeamDevice;
  own: boolean;
  eventName: (id: string) => string;
  shutOut: () => Promise<void>;
}

/** For the owner: a passkey of their own, beside codes and the passphrase. */
function OwnPasskey() {
  const [said, setSaid] = useState("");
  const make = async () => {
    try {
      await addPasskey();
      setSaid(team.passkey.made);
    } catch (error) {
      if (error instanceof NoPasskey) setSaid(team.passkey.none);
      else if (error instanceof WireProblem) setSaid(error.said);
      else throw error;
    }
  };
  return (
    <>
      <h3>{team.passkey.title}</h3>
      <p class="quiet">{team.passkey.help}</p>
      <button type="button" class="button" onClick={() => void make()}>
        {team.passkey.make}
      </button>
      <p role="status">{said}</p>
    </>
  );
}

function Phone({ device, own, eventName, shutOut }: PhoneProps) {
  const [sure, setSure] = useState<"shut-out" | "lost" | null>(null);
  const facts = [
    own ? team.thisOne : team.states[device.state],
    device.state === "unpaired" ? "" : team.seen(whenOf(new Date(device.seenAt * 1000).toISOString())),
    device.unsent === null || device.unsent === 0 ? "" : team.unsent(device.unsent),
    device.event === null ? "" : team.sees(eventName(device.event)),
    device.until === null ? "" : team.until(whenOf(new Date(device.until * 1000).toISOString())),
  ].filter((fact) => fact !== "");
  return (
    <div class="team-phone">
      <p>
        {device.name} <span class="quiet">{facts.join(", ")}</span>
      </p>
      {own || device.state !== "paired" ? null : sure === null ? (
        <div class="buttons">
          <button type="button" class="button small" onClick={() => setSure("shut-out")}>
            {team.shutOut}
          </button>
          <button type="button" class="button small" onClick={() => setSure("lost")}>
            {team.lost}
          </button>
        </div>
      ) : (
        <>
          <p role="alert">{sure === "lost" ? team.sureLost(device.name) : team.sure(device.name)}</p>
          <div class="buttons">
            <button type="button" class="button small" onClick={() => void shutOut()}>
              {team.yes}
            </button>
            <button type="button" class="button small" onClick={() => setSure(null)}>
              {team.no}
            </button>
          </div>
        </>
      )}
    </div>
  );
}
