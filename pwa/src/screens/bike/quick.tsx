/** "saddle up 2": said or typed in one line, shown as it is understood, recorded with one touch. The setting moved last stands ready. */

import { useCallback, useEffect, useRef, useState } from "preact/hooks";
import { NumberField } from "../../controls/number-field";
import { Problem } from "../../controls/problem";
import { kernel } from "../../kernel/client";
import type { BikeState, Setting } from "../../kernel/types";
import type { Spoken } from "../../kernel/use-types";
import { type HeardWords, inEnglish, withLabels } from "../../languages/heard";
import { spoken as inLanguage } from "../../languages/spoken";
import { chosenFactors, show } from "../../units";
import { words } from "../../words";
import { useNames } from "../names";
import { writes } from "../who";
import { useWriting } from "../writing";
import { useDoubts } from "./doubts";
import "./quick.css";
import { Settles } from "./settles";
import { canListen, type Deaf, listen } from "./speech";
import { w } from "./use-words";

/** The words of the language chosen; none for English. */
const HEARD = inLanguage<HeardWords>("heard", {});

const DEAF: Record<Deaf, string> = {
  nothing: w.quick.noSpeech,
  "not-allowed": w.quick.notAllowed,
  fails: w.quick.speechFails,
};

/** One line, said or typed. */
export function Quick({ state }: { state: BikeState }) {
  if (!writes("adjust")) return null;
  return (
    <section class="quick" aria-label={w.quick.title}>
      <SayIt state={state} />
    </section>
  );
}

/** The setting that was moved last, moved again with two touches. */
export function Nudge({ state }: { state: BikeState }) {
  const { settings } = useNames();
  const last = lastMoved(state, settings);
  if (!writes("adjust") || last === null) return null;
  return <Again key={last.setting} state={state} setting={last} />;
}

function lastMoved(state: BikeState, settings: Setting[]): Setting | null {
  let latest = "";
  let found: Setting | null = null;
  for (const setting of settings) {
    const at = state.settings[setting.setting]?.at ?? "";
    if (at > latest) {
      latest = at;
      found = setting;
    }
  }
  return found;
}

function SayIt({ state }: { state: BikeState }) {
  const { write, busy, problem } = useWriting();
  const { sure, question } = useDoubts(state.subject);
  const [text, setText] = useState("");
  const [spoken, setSpoken] = useState<{ text: string; told: Spoken } | null>(null);
  const [listening, setListening] = useState<(() => void) | null>(null);
  const [deaf, setDeaf] = useState<Deaf | null>(null);
  const input = useRef<HTMLInputElement>(null);
  const { settings, measures } = state;
  const names = useNames();
  const units = JSON.stringify(chosenFactors());
  const read = useCallback(
    // English labels the kernel reads by itself.
    (said: string) => {
      const heard = Object.keys(HEARD).length === 0 ? HEARD : withLabels(HEARD, names.settings);
      return kernel.spoken(inEnglish(said, heard), { settings, measures }, JSON.parse(units));
    },
    [settings, measures, names, units],
  );
  useEffect(() => {
    if (text.trim() === "") {
      setSpoken(null);
      return undefined;
    }
    let over = false;
    void read(text).then((told) => {
      if (!over) setSpoken({ text, told });
    });
    return () => {
      over = true;
    };
  }, [text, read]);
  useEffect(() => () => listening?.(), [listening]);
  const current = spoken?.text === text ? spoken.told : null;
  const found = current?.found ?? null;
  const record = async () => {
    // Sent off before it was read: read it now.
    const told = current ?? (await read(text));
    if (told.found === null) return;
    const { setting, unit, from, to } = told.found;
    const body = { setting, unit, to, from: from ?? undefined, reason: told.reason || undefined };
    if (!(await sure(() => kernel.doubts(state, setting, to, null)))) return;
    const said = `${told.found.label}: ${moved(told.found)}`;
    if ((await write([{ subject: state.subject, kind: "adjust", body }], said)) === null) return;
    setText("");
    input.current?.blur();
  };
  const talk = () => {
    setDeaf(null);
    setText("");
    const stop = listen(
      (heard) => setText(heard),
      (why) => {
        setDeaf(why);
        setListening(null);
      },
    );
    setListening(() => stop);
  };
  return (
    <form
      class="say"
      onSubmit={(event) => {
        event.preventDefault();
        void record();
      }}
    >
      <label class="unseen" for="say">
        {w.quick.line}
      </label>
      <div class="say-row">
        <input
          id="say"
          ref={input}
          class="text"
          type="text"
          autocomplete="off"
          autocapitalize="none"
          enterkeyhint="done"
          placeholder={`${w.quick.line}: ${w.quick.example}`}
          value={text}
          aria-describedby="say-told"
          onInput={(event) => setText(event.currentTarget.value)}
        />
        {canListen() && text === "" ? (
          <button type="button" class="button small" aria-pressed={listening !== null} onClick={() => (listening ?? talk)()}>
            {listening === null ? w.quick.listen : w.quick.listening}
          </button>
        ) : null}
        {text === "" ? null : (
          <button type="submit" class="button small main" disabled={busy || (current !== null && found === null)}>
            {words.record}
          </button>
        )}
      </div>
      <p id="say-told" class="say-told" aria-live="polite">
        {found !== null ? (
          <>
            {found.label} <span class="figure">{moved(found)}</span> <strong>{way(found)}</strong>
            {current?.reason ? <span class="quiet"> {current.reason}</span> : null}
          </>
        ) : current !== null ? (
          w.quick.wanted(current.wanted)
        ) : deaf !== null ? (
          DEAF[deaf]
        ) : null}
      </p>
      {found === null ? null : <Settles state={state} setting={found.setting} />}
      <Problem text={problem} />
      {question}
    </form>
  );
}

function moved(found: NonNullable<Spoken["found"]>): string {
  const to = show(found.to, found.unit);
  return found.from === null ? to : w.quick.was(show(found.from, found.unit), to);
}

function way(found: NonNullable<Spoken["found"]>): string {
  return found.by === null || found.by === 0 ? "" : `${show(Math.abs(found.by), found.unit)} ${found.way}`;
}

function Again({ state, setting }: { state: BikeState; setting: Setting }) {
  const { write, busy, problem } = useWriting();
  const now = state.settings[setting.setting]?.value ?? null;
  const { sure, question } = useDoubts(state.subject);
  const [to, setTo] = useState(now);
  const [shown, setShown] = useState(now);
  // Moved elsewhere meanwhile: stand where it stands.
  if (shown !== now) {
    setShown(now);
    setTo(now);
  }
  if (now === null) return null;
  const by = to === null ? 0 : to - now;
  const record = async () => {
    if (to === null) return;
    if (!(await sure(() => kernel.doubts(state, setting.setting, to, null)))) return;
    const body = { setting: setting.setting, unit: setting.unit, from: now, to };
    const said = `${setting.label}: ${w.quick.was(show(now, setting.unit), show(to, setting.unit))}`;
    await write([{ subject: state.subject, kind: "adjust", body }], said);
  };
  return (
    <div class="nudge">
      <NumberField
        label={setting.label}
        unit={setting.unit}
        value={to}
        onChange={setTo}
        step={setting.step}
        digits={setting.step < 1 ? 2 : 1}
        possible={setting.possible}
      />
      <Settles state={state} setting={setting.setting} />
      {by === 0 || to === null ? null : (
        <button type="button" class="button main wide" disabled={busy} onClick={() => void record()}>
          {words.record} <span class="figure">{show(Math.abs(by), setting.unit)}</span> {by > 0 ? setting.more : setting.less}
        </button>
      )}
      <Problem text={problem} />
      {question}
    </div>
  );
}
