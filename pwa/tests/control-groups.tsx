/** The groups of the page of controls: what each is called, and the components in their states. */

import { type ComponentType, render as put } from "preact";
import { useEffect, useRef, useState } from "preact/hooks";
import { Caution } from "../src/controls/caution";
import { Choice, Flag } from "../src/controls/choice";
import { Finding } from "../src/controls/finding";
import { Mark, Ring } from "../src/controls/mark";
import { NumberField, type NumberFieldProps } from "../src/controls/number-field";
import { NumberPad } from "../src/controls/number-pad";
import { NumbersField } from "../src/controls/numbers-field";
import { Problem } from "../src/controls/problem";
import { RowsField } from "../src/controls/rows-field";
import { Sheet } from "../src/controls/sheet";
import { TextField } from "../src/controls/text-field";
import { HowTo } from "../src/drawing/how/how-to";
import type { BikeState, Quantity } from "../src/kernel/types";
import { Questions } from "../src/screens/bike/questions";
import { NoBikes } from "../src/screens/bikes/no-bikes";
import { Failed } from "../src/screens/shell/failed";
import { SyncTab } from "../src/screens/shell/sync-tab";
import { identity } from "../src/store/record";
import { syncState } from "../src/store/sync";
import type { Identity, SyncState } from "../src/store/types";
import { words } from "../src/words";

const LONG = "Brake hose between the frame's port and the last tie at the handlebar, rear";

interface Shown {
  name: string;
  title: string;
  /** Lies over the page, so it is shown alone. */
  over?: boolean;
  Shown: ComponentType;
}

const nothing = () => undefined;

function Buttons() {
  return (
    <>
      <button type="button" class="button main wide">
        Record
      </button>
      <button type="button" class="button main wide" disabled>
        Record
      </button>
      <button type="button" class="button wide">
        Check
      </button>
      <div class="buttons">
        <button type="button" class="button small">
          Freeze
        </button>
        <button type="button" class="button small" disabled>
          Freeze
        </button>
        <button type="button" class="plain">
          Undo
        </button>
      </div>
      <button type="button" class="button main wide">
        {LONG}
      </button>
      <button type="button" class="line-button">
        A whole line that is a button
      </button>
    </>
  );
}

/** A number that can be worked, as on a screen. */
function Worked(props: Partial<NumberFieldProps> & { label: string }) {
  const [value, setValue] = useState(props.value ?? null);
  return <NumberField unit="mm" {...props} value={value} onChange={setValue} />;
}

function Numbers() {
  return (
    <div class="form">
      <Worked label="Not yet given" start={720} />
      <Worked label="Given" value={731} digits={1} />
      <Worked label="Stands for itself when left out" standing={30} />
      <Worked label="With its ±" value={731} plusMinus={1.5} onPlusMinus={nothing} />
      <Worked label="Can be, but is seldom so" value={1100}>
        <Finding level="care" text="Saddle height is usually 600 to 850 mm: measure it again." />
      </Worked>
      <Worked label="Cannot be" value={2400} problem="2400 mm is not possible: from 300 to 1200 mm." />
      <Worked label="Large, for a glove" unit="N·m" value={5.5} step={0.5} digits={1} big />
      <Worked label={LONG} value={1250} optional />
    </div>
  );
}

/** Touched, and with the focus of a keyboard: the test forces it on what is in these two. */
function Touched() {
  const some = (
    <>
      <button type="button" class="button main wide">
        Record
      </button>
      <div class="buttons">
        <button type="button" class="button small">
          Freeze
        </button>
        <button type="button" class="plain">
          Undo
        </button>
      </div>
      <button type="button" class="line-button">
        A whole line that is a button
      </button>
      <Worked label="Given" value={731} digits={1} />
    </>
  );
  return (
    <>
      <h3>Pressed</h3>
      <div class="form" data-forced="active">
        {some}
      </div>
      <h3>With the focus</h3>
      <div class="form" data-forced="focus focus-visible">
        {some}
        <TextField label="Filled" value="Squeals after rain" onChange={nothing} />
        <Flag label="Yes or no" value={true} onChange={nothing} />
        <label class="tick-line">
          <input type="checkbox" checked />
          <span>Ticked</span>
        </label>
      </div>
    </>
  );
}

function Pad() {
  return (
    <NumberPad
      label="Saddle height"
      help="Bottom-bracket centre to the saddle's top along the line of the seat tube."
      text="731"
      mark="."
      unit="mm"
      units={["mm", "cm", "in"]}
      whole={false}
      onUnit={nothing}
      onDone={nothing}
      onClose={nothing}
    />
  );
}

function Texts() {
  const [text, setText] = useState("Squeals after rain");
  return (
    <div class="form">
      <TextField label="Empty, with help" value="" onChange={nothing} help="Road, gravel, track …" optional />
      <TextField label="Filled" value={text} onChange={setText} />
      <TextField label="Several lines" value={"Rubbed the rim.\nTrued, rides straight."} onChange={nothing} lines />
      <TextField label="Find a bike or a rider" type="search" value="" onChange={nothing} hideLabel />
      <TextField label="A day" type="date" value="2026-06-12" onChange={nothing} />
      <TextField label="Not taken" value="" onChange={nothing} problem="A name is wanted." />
    </div>
  );
}

function Choices() {
  const [few, setFew] = useState<string | null>("rear");
  const [yes, setYes] = useState<boolean | null>(null);
  const many = ["Dry", "Mud", "Gravel", "Wet road", "Winter", "Indoors"].map((label) => ({ value: label, label }));
  return (
    <div class="form">
      <Choice
        label="A few words"
        options={[
          { value: "front", label: "Front" },
          { value: "rear", label: "Rear" },
          { value: "both", label: "Both brakes, one after the other" },
        ]}
        value={few}
        onChange={setFew}
      />
      <Flag label="Nothing chosen yet" value={yes} onChange={setYes} optional />
      <Choice label="More than five: the phone's own list" options={many} value={null} onChange={nothing} />
    </div>
  );
}

const quantity = (told: Partial<Quantity>): Quantity => ({
  name: "given",
  kind: "numbers",
  unit: "N",
  label: "Given",
  help: "",
  optional: false,
  default: null,
  digits: 0,
  ...told,
});

function Lists() {
  const fields = [
    quantity({ name: "part", kind: "text", unit: "", label: "Part" }),
    quantity({ name: "mass", kind: "number", unit: "g", label: "Mass" }),
  ];
  return (
    <div class="form">
      <NumbersField
        quantity={quantity({ label: "Tensions, left", help: "In order round the rim from the valve." })}
        value={[1010, 985, 1020]}
        unread={null}
        onChange={nothing}
        problem={undefined}
      />
      <RowsField
        quantity={quantity({ name: "parts", kind: "rows", unit: "", label: "Parts", fields })}
        value={[{ part: "saddle", mass: 187 }, {}]}
        onChange={nothing}
        problems={{ "parts[1].mass": "A number above 0 is wanted." }}
      />
    </div>
  );
}

function Marks() {
  return (
    <>
      {(["fit", "care", "not-fit", "not-complete"] as const).map((verdict) => (
        <p key={verdict}>
          <Mark verdict={verdict} large />
        </p>
      ))}
      {(["fit", "care", "not-fit", "not-complete"] as const).map((verdict) => (
        <p key={verdict}>
          <Mark verdict={verdict} />
        </p>
      ))}
      <p>
        <Mark verdict="fit" scope="part" large />
      </p>
      <p>
        <Mark verdict="fit" scope="part" />
      </p>
      <p>
        <Ring shape="none" /> nothing known
      </p>
    </>
  );
}

function Findings() {
  return (
    <>
      <Finding level="fine" text="Within the band marked on the part." />
      <Finding level="care" text="75 % of the bolt's proof load: near its end." />
      <Finding level="stop" text="The cut would leave the steerer 2 mm too short. Do not cut." />
      <Finding level="open" text="The rim's widest tyre is not known." />
      <Finding level="coming" text="Due in 140 km." />
      <Caution lines={["Carbon: cut wet, with a mask, and never into the clamp's seat.", "The maker's figure comes first."]} />
      <Problem text="2400 mm is not possible: from 300 to 1200 mm." />
    </>
  );
}

const WHO = {
  person: { id: "p", name: "Juno", role: "mechanic" },
  device: { id: "d", name: "Juno's phone" },
  workshop: "",
} as unknown as Identity;
const AT_REST: SyncState = { ...syncState.value, unsent: 0 };

const refused = { entry: {}, errors: [], mended: false } as unknown as SyncState["refused"][number];

const TABS: [string, Identity | null, Partial<SyncState>][] = [
  ["Not let in anywhere", null, {}],
  ["Not counted yet", WHO, { unsent: null }],
  ["Nothing waits", WHO, {}],
  ["Three wait", WHO, { unsent: 3 }],
  ["Three wait, no signal", WHO, { unsent: 3, state: "offline", lost: true }],
  ["Nothing waits, no signal", WHO, { state: "offline", lost: true }],
  ["The first fetching", WHO, { state: "sending", fetching: { done: 750, of: 2000 } }],
  ["One was refused", WHO, { refused: [refused] }],
  ["Shut out", WHO, { state: "signed-out" }],
];

/** The tab reads what holds for the whole page, so each is drawn by itself and then left alone. */
function Tabs() {
  const places = useRef<(HTMLElement | null)[]>([]);
  useEffect(() => {
    TABS.forEach(([, who, told], i) => {
      const place = places.current[i];
      if (!place) return;
      identity.value = who;
      syncState.value = { ...AT_REST, ...told };
      const drawn = document.createElement("div");
      put(<SyncTab />, drawn);
      place.replaceChildren(...drawn.cloneNode(true).childNodes);
      put(null, drawn);
    });
    identity.value = WHO;
    syncState.value = AT_REST;
  }, []);
  return (
    <ul class="ruled">
      {TABS.map(([what], i) => (
        <li key={what} class="control-tab">
          <span>{what}</span>
          <span
            class="control-tab-place"
            ref={(place) => {
              places.current[i] = place;
            }}
          />
        </li>
      ))}
    </ul>
  );
}

function OpenSheet() {
  return (
    <Sheet title="Close a fault" onClose={nothing}>
      <p>Rear brake squeals</p>
      <TextField label="What was done" value="Pads cleaned, bedded in again." onChange={nothing} lines />
      <button type="button" class="button main wide">
        Close the fault
      </button>
    </Sheet>
  );
}

const QUESTIONS = {
  subject: "bike/0",
  questions: [
    {
      question: "setting.saddle_height",
      options: [
        { entry: "a", value: 731, at: "2026-06-12T07:10:00Z", by: "p", told: { unit: "mm" } },
        { entry: "b", value: 734, at: "2026-06-12T07:12:00Z", by: "q", told: { unit: "mm" } },
      ],
    },
  ],
} as unknown as BikeState;

function States() {
  return (
    <>
      <h3>Loading</h3>
      <p class="quiet">{words.reading}</p>
      <h3>Nothing there yet</h3>
      <NoBikes />
      <h3>Two people set one thing without knowing of each other</h3>
      <Questions state={QUESTIONS} />
      <h3>Just recorded</h3>
      <div class="told">
        <span>Saddle height: 731 mm</span>
        <button type="button" class="plain">
          {words.undo}
        </button>
        <button type="button" class="plain">
          {words.close}
        </button>
      </div>
    </>
  );
}

function Broken() {
  return <Failed error={new Error("The phone's store could not be opened.")} />;
}

function Opening() {
  return (
    <>
      <details class="drawer">
        <summary>
          <strong>The frame</strong>
          <span class="quiet">all there</span>
        </summary>
      </details>
      <details class="drawer" open>
        <summary>
          <strong>The old bike</strong>
          <span class="quiet">3 to measure</span>
        </summary>
        <p class="quiet">Once, before it is taken apart.</p>
      </details>
      <HowTo what="saddle_height" label="Saddle height" help="Bottom-bracket centre to the saddle's top." open />
      <label class="tick-line">
        <input type="checkbox" checked />
        <span>Ticked</span>
      </label>
      <label class="tick-line">
        <input type="checkbox" />
        <span>Not ticked</span>
      </label>
    </>
  );
}

export const GROUPS: Shown[] = [
  { name: "buttons", title: "Buttons", Shown: Buttons },
  { name: "numbers", title: "A number on its line", Shown: Numbers },
  { name: "texts", title: "Words", Shown: Texts },
  { name: "choices", title: "One of several", Shown: Choices },
  { name: "lists", title: "Many numbers, and rows", Shown: Lists },
  { name: "marks", title: "How a bike stands", Shown: Marks },
  { name: "findings", title: "What was found, cautions, problems", Shown: Findings },
  { name: "tab", title: "The tab of what waits", Shown: Tabs },
  { name: "opening", title: "Drawers, help, ticks", Shown: Opening },
  { name: "states", title: "Loading, empty, in conflict, done", Shown: States },
  { name: "touched", title: "Pressed, and with the focus", Shown: Touched },
  { name: "pad", title: "The number pad", over: true, Shown: Pad },
  { name: "sheet", title: "A sheet over the work", over: true, Shown: OpenSheet },
  { name: "failed", title: "A screen that cannot be shown", over: true, Shown: Broken },
];
