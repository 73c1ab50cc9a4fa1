/** The bike's rider: letting their phone in with a link or a code, good once, and how their own checks went. */

import { useState } from "preact/hooks";
import { cameTo, Ring, shapeOf } from "../../controls/mark";
import { TextField } from "../../controls/text-field";
import type { BikeState, CheckState } from "../../kernel/types";
import { said } from "../../languages/spoken";
import { refreshIdentity } from "../../store/pairing";
import { ask, isObject, WireProblem } from "../../store/wire";
import { words } from "../../words";
import { Qr } from "../lineup/qr";
import { dateOf, nameOf } from "../when";
import { useWriting } from "../writing";
import { BikePage } from "./frame";
import "./rider.css";
import { Problem } from "../../controls/problem";

const SHOWN = 8;

export function Rider() {
  return <BikePage tab="checks">{({ state }) => <LetIn state={state} />}</BikePage>;
}

interface Invited {
  code: string;
  seconds: number;
}

function LetIn({ state }: { state: BikeState }) {
  const { rider } = state.described;
  const { write } = useWriting();
  const [name, setName] = useState("");
  const [invited, setInvited] = useState<Invited | null>(null);
  const [busy, setBusy] = useState(false);
  const [problem, setProblem] = useState<string | null>(null);
  const invite = async () => {
    setBusy(true);
    setProblem(null);
    try {
      let person = rider;
      if (person === null) {
        const body = JSON.stringify({ name: name.trim(), role: "rider" });
        person = (await ask("/api/people", personShape, body)).answer;
        await write([{ subject: state.subject, kind: "describe", body: { rider: person } }], words.rider.isTheirs(name.trim()));
        void refreshIdentity();
      }
      setInvited((await ask(`/api/people/${person}/invite`, invitedShape, "{}")).answer);
    } catch (error) {
      if (!(error instanceof WireProblem)) throw error;
      setProblem(error.meaning === "unreachable" ? words.rider.needsSignal : error.said);
    } finally {
      setBusy(false);
    }
  };
  const link = invited === null ? "" : `${location.origin}/pair#${invited.code}`;
  return (
    <section class="part let-in">
      <h2>{words.rider.letIn}</h2>
      <p>{words.rider.help}</p>
      {invited === null ? (
        <>
          {rider === null ? (
            <TextField label={words.rider.name} value={name} onChange={setName} />
          ) : (
            <p>
              <strong>{nameOf(rider)}</strong>
            </p>
          )}
          <Problem text={problem} />
          <button
            type="button"
            class="button main"
            disabled={busy || (rider === null && name.trim() === "")}
            onClick={() => void invite()}
          >
            {words.rider.make}
          </button>
        </>
      ) : (
        <>
          <Qr text={link} label={words.rider.code} />
          <p>{words.rider.once(Math.round(invited.seconds / 60))}</p>
          <p class="figure let-in-link">{link}</p>
          <div class="buttons">
            <button type="button" class="button" onClick={() => void shareLink(link)}>
              {words.rider.send}
            </button>
            <button type="button" class="button" onClick={() => setInvited(null)}>
              {words.done}
            </button>
          </div>
        </>
      )}
    </section>
  );
}

async function shareLink(link: string): Promise<void> {
  try {
    if (navigator.share) await navigator.share({ url: link });
    else await navigator.clipboard.writeText(link);
  } catch {
    // Called off, or the browser does not let a page do it: the link stands on the sheet.
  }
}

function personShape(json: unknown): string | null {
  return isObject(json) && typeof json.id === "string" ? json.id : null;
}

function invitedShape(json: unknown): Invited | null {
  if (!isObject(json) || typeof json.code !== "string" || typeof json.seconds !== "number") return null;
  return { code: json.code, seconds: json.seconds };
}

/** The rider's own checks over time: a ring each, and what came up again and again. */
export function Trend({ state }: { state: BikeState }) {
  const own = state.checks.filter((one) => one.check === "self-check" || one.by === state.described.rider).slice(0, SHOWN);
  if (own.length === 0) return null;
  const came = cameUp(own);
  return (
    <section class="part">
      <h2>{words.rider.own}</h2>
      <ol class="trend" aria-label={words.rider.own}>
        {[...own].reverse().map((check) => (
          <li key={check.entry}>
            <Ring shape={shapeOf(check)} size={26} />
            <span class="figure">{dateOf(check.at)}</span>
            <span class="unseen">{cameTo(check)}</span>
          </li>
        ))}
      </ol>
      {came.length === 0 ? <p>{words.rider.nothing}</p> : null}
      <ul>
        {came.map(([what, times]) => (
          <li key={what}>{words.rider.cameUp(said(what), times, own.length)}</li>
        ))}
      </ul>
    </section>
  );
}

function cameUp(checks: CheckState[]): [string, number][] {
  const times = new Map<string, number>();
  for (const check of checks) {
    for (const reason of check.reasons) {
      if (reason.level === "open") continue;
      const what = reason.text.split(":")[0] ?? reason.text;
      times.set(what, (times.get(what) ?? 0) + 1);
    }
  }
  return [...times].sort((a, b) => b[1] - a[1] || a[0].localeCompare(b[0]));
}
