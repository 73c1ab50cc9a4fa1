/** The first record on this phone: a bike, one measure with how it is taken, and what becomes of it. Three sheets, a minute. */

import { useState } from "preact/hooks";
import { Choice } from "../../controls/choice";
import { NumberField } from "../../controls/number-field";
import { Problem } from "../../controls/problem";
import { TextField } from "../../controls/text-field";
import { HowTo } from "../../drawing/how/how-to";
import { syncState } from "../../store/sync";
import type { Draft, Entry } from "../../store/types";
import { show } from "../../units";
import { words } from "../../words";
import { Settles } from "../bike/settles";
import { useBike, useBikeLines } from "../loading";
import { useNames } from "../names";
import { HomeScreen } from "../shell/home-screen";
import { Page } from "../shell/page";
import { nameOf, whenOf } from "../when";
import { runsWorkshop } from "../who";
import { useWriting } from "../writing";
import "./first.css";
import { choices } from "./order";

/** What stands on every bike, needs one tape measure and hurts nobody. */
const WHAT = "saddle_height";
const STEPS = 3;

export function First() {
  const [bike, setBike] = useState<string | null>(null);
  const [name, setName] = useState("");
  const [made, setMade] = useState<Entry[] | null>(null);
  if (made !== null) return <Done made={made} />;
  if (bike !== null) return <Measure bike={bike} name={name} onBack={() => setBike(null)} onMade={setMade} />;
  return <Which name={name} onName={setName} onBike={setBike} />;
}

/** The bike that does not stand on the record yet has this in place of its id. */
const NEW = "new";

function Which(props: { name: string; onName: (name: string) => void; onBike: (id: string) => void }) {
  const bikes = useBikeLines();
  const [chosen, setChosen] = useState<string | null>(null);
  const options = choices(bikes ?? []);
  if (runsWorkshop()) options.push({ value: NEW, label: words.bikes.newBike });
  const picked = chosen ?? (options.length === 1 ? (options[0]?.value ?? null) : null);
  const ready = picked !== null && (picked !== NEW || props.name.trim() !== "");
  return (
    <Step at={1} title={words.first.which} ready={ready} button={words.first.next} act={() => picked && props.onBike(picked)}>
      <p>{words.first.whichHelp}</p>
      {options.length < 2 ? null : (
        <Choice label={words.first.which} options={options} value={picked} onChange={setChosen} hideLabel />
      )}
      {picked === NEW ? (
        <TextField label={words.bikes.name} value={props.name} onChange={props.onName} help={words.bikes.nameHelp} />
      ) : null}
    </Step>
  );
}

interface MeasureProps {
  bike: string;
  name: string;
  onBack: () => void;
  onMade: (entries: Entry[]) => void;
}

function Measure({ bike, name, onBack, onMade }: MeasureProps) {
  const names = useNames();
  const { label, help, step, possible } = names.of(WHAT);
  const [value, setValue] = useState<number | null>(null);
  const there = useBike(bike.replace("bike/", ""));
  const now = there?.state.settings[WHAT] ?? there?.state.measures[WHAT];
  const { write, busy, problem } = useWriting();
  const record = async () => {
    if (value === null) return;
    const subject = bike === NEW ? `bike/${crypto.randomUUID()}` : bike;
    const drafts: Draft[] = bike === NEW ? [{ subject, kind: "describe", body: { name: name.trim() } }] : [];
    drafts.push({ subject, kind: "adjust", body: { setting: WHAT, unit: "mm", to: value, from: now?.value } });
    const entries = await write(drafts, `${label}: ${show(value, "mm")}`);
    if (entries !== null) onMade(entries);
  };
  return (
    <Step at={2} title={label} ready={value !== null && !busy} button={words.record} act={() => void record()} onBack={onBack}>
      <NumberField
        label={label}
        unit="mm"
        value={value}
        onChange={setValue}
        step={step}
        digits={1}
        possible={possible}
        start={now?.value ?? 720}
        big
      />
      {now === undefined ? null : (
        <p class="quiet">
          {words.lastValue} <span class="figure">{show(now.value, "mm", 1)}</span>, {whenOf(now.at)}, {nameOf(now.by)}
        </p>
      )}
      {there ? <Settles state={there.state} setting={WHAT} /> : null}
      <HowTo what={WHAT} label={label} help={help} open />
      <p class="quiet">{words.first.measureHelp}</p>
      <Problem text={problem} />
    </Step>
  );
}

function Done({ made }: { made: Entry[] }) {
  const last = made.at(-1);
  const subject = last?.subject ?? "";
  const bike = useBike(subject.replace("bike/", ""));
  const names = useNames();
  const to = last?.body.to;
  const { lost } = syncState.value;
  return (
    <Page
      place="bikes"
      title={words.first.done}
      from={[{ href: "/", text: words.places.bikes }]}
      foot={
        <div class="foot-act">
          <a class="button main" href={`/${subject}`}>
            {words.first.toBike(bike?.state.described.name ?? words.bikes.unnamed)}
          </a>
        </div>
      }
    >
      <Steps at={STEPS} />
      <dl class="first-done">
        <dt>{names.of(WHAT).label}</dt>
        <dd class="figure">{typeof to === "number" ? show(to, "mm", 1) : ""}</dd>
        <dd>{last === undefined ? "" : `${whenOf(last.noted_at)}, ${nameOf(last.by)}`}</dd>
      </dl>
      <p>{lost ? words.first.keptOffline : words.first.kept}</p>
      <p>{words.first.undoHelp}</p>
      <p class="quiet">{words.first.next3}</p>
      <HomeScreen />
    </Page>
  );
}

interface StepProps {
  at: number;
  title: string;
  ready: boolean;
  button: string;
  act: () => void;
  onBack?: () => void;
  children: preact.ComponentChildren;
}

function Step({ at, title, ready, button, act, onBack, children }: StepProps) {
  return (
    <Page
      place="bikes"
      title={title}
      from={[{ href: "/", text: words.places.bikes }]}
      foot={
        <div class={onBack === undefined ? "foot-act" : "foot-act first-foot"}>
          {onBack === undefined ? null : (
            <button type="button" class="button" onClick={onBack}>
              {words.first.back}
            </button>
          )}
          <button type="button" class="button main" disabled={!ready} onClick={act}>
            {button}
          </button>
        </div>
      }
    >
      <Steps at={at} />
      <div class="form">{children}</div>
    </Page>
  );
}

/** How far along, as strokes of a ruler; said in words for who cannot see them. */
function Steps({ at }: { at: number }) {
  return (
    <p class="first-steps">
      {Array.from({ length: STEPS }, (_, i) => (
        <span key={i + 1} class={i < at ? "first-step first-step-done" : "first-step"} aria-hidden="true" />
      ))}
      <span>{words.first.step(at, STEPS)}</span>
    </p>
  );
}
