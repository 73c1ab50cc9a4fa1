/** Adjusting: which setting, from, to, why. */

import { useState } from "preact/hooks";
import { useLocation } from "preact-iso";
import { NumberField } from "../../controls/number-field";
import { Problem } from "../../controls/problem";
import { TextField } from "../../controls/text-field";
import { HowTo } from "../../drawing/how/how-to";
import { kernel } from "../../kernel/client";
import type { BikeState, Setting } from "../../kernel/types";
import { MOST_WORDS } from "../../store/limits";
import { formatNumber, show } from "../../units";
import { words } from "../../words";
import { type BikeNow, useBike } from "../loading";
import { spaced, useNames } from "../names";
import { Page } from "../shell/page";
import { dateOf, nameOf } from "../when";
import { useWriting } from "../writing";
import { useDoubts } from "./doubts";
import { useBikeId } from "./frame";
import "./adjust.css";
import { Settles } from "./settles";
import { w } from "./use-words";

/** What stands now: as it was set, else as it was measured. */
function current(state: BikeState, setting: string): { value: number; at: string; by: string } | null {
  return state.settings[setting] ?? state.measures[setting] ?? null;
}

export function Adjust() {
  const id = useBikeId();
  const bike = useBike(id);
  const { settings } = useNames();
  const { query } = useLocation();
  const [picked, setChosen] = useState<Setting | "other" | null>(null);
  const asked = settings.find((one) => one.setting === query.setting) ?? null;
  const chosen = picked === "other" ? null : (picked ?? asked);
  const name = bike ? (bike.state.described.name ?? words.bikes.unnamed) : "…";
  const from = [
    { href: "/", text: words.places.bikes },
    { href: `/bike/${id}`, text: name },
  ];
  if (bike && chosen !== null) return <Move bike={bike} setting={chosen} from={from} onBack={() => setChosen("other")} />;
  const places = [...new Set(settings.map((one) => one.place))];
  return (
    <Page place="bikes" title={words.ways.adjust} from={from}>
      {bike ? (
        places.map((place) => (
          <section key={place} class="part">
            <h2>{spaced(place)}</h2>
            <ul class="ruled settings">
              {settings
                .filter((one) => one.place === place)
                .map((one) => {
                  const now = current(bike.state, one.setting);
                  return (
                    <li key={one.setting}>
                      <button type="button" class="line-button setting" onClick={() => setChosen(one)}>
                        <span>{one.label}</span>
                        <span class="figure">{now === null ? "–" : show(now.value, one.unit)}</span>
                      </button>
                    </li>
                  );
                })}
            </ul>
          </section>
        ))
      ) : bike === null ? (
        <p>{words.bikes.notHereHelp}</p>
      ) : (
        <p class="quiet">{words.reading}</p>
      )}
    </Page>
  );
}

interface MoveProps {
  bike: BikeNow;
  setting: Setting;
  from: { href: string; text: string }[];
  onBack: () => void;
}

function Move({ bike, setting, from, onBack }: MoveProps) {
  const { route } = useLocation();
  const { write, busy, problem } = useWriting();
  const { sure, question } = useDoubts(bike.state.subject);
  const names = useNames();
  const now = current(bike.state, setting.setting);
  const [to, setTo] = useState<number | null>(now?.value ?? null);
  const [reason, setReason] = useState("");
  const [felt, setFelt] = useState("");
  const by = now === null || to === null ? null : to - now.value;
  const moved = to !== null && by !== 0;
  const record = async () => {
    if (to === null) return;
    const body = {
      setting: setting.setting,
      unit: setting.unit,
      to,
      from: now?.value,
      reason: reason.trim() || undefined,
      felt: felt.trim() || undefined,
    };
    if (!(await sure(() => kernel.doubts(bike.state, setting.setting, to, null)))) return;
    const text = `${setting.label}: ${now === null ? "" : `${formatNumber(now.value)} → `}${show(to, setting.unit)}`;
    const made = await write([{ subject: bike.state.subject, kind: "adjust", body }], text);
    if (made !== null) route(`/${bike.state.subject}`, true);
  };
  const way = by === null || by === 0 ? "" : `${show(Math.abs(by), setting.unit)} ${by > 0 ? setting.more : setting.less}`;
  return (
    <Page
      place="bikes"
      title={setting.label}
      from={from}
      foot={
        <div class="foot-act">
          <Problem text={problem} />
          <button type="button" class="button main" disabled={busy || !moved} onClick={() => void record()}>
            {words.record}
          </button>
        </div>
      }
    >
      {question}
      <div class="move">
        <div class="move-from">
          <span class="quiet">{words.adjust.from}</span>
          <span class="figure">{now === null ? "–" : show(now.value, setting.unit)}</span>
          {now === null ? null : (
            <span class="quiet">
              {dateOf(now.at)}, {nameOf(now.by)}
            </span>
          )}
        </div>
        <NumberField
          label={words.adjust.to}
          unit={setting.unit}
          value={to}
          onChange={setTo}
          step={setting.step}
          digits={setting.step < 1 ? 2 : 1}
          possible={setting.possible}
          start={0}
          big
        />
        <p class="move-way" aria-live="polite">
          {way || words.adjust.notMoved}
        </p>
        <Settles state={bike.state} setting={setting.setting} />
        <HowTo what={setting.setting} label={setting.label} help={names.of(setting.setting).help} open={now === null} />
        <TextField label={words.reason} value={reason} onChange={setReason} most={MOST_WORDS} optional />
        <TextField label={w.adjust.felt} value={felt} onChange={setFelt} help={w.adjust.feltHelp} optional />
        <div class="buttons">
          <button type="button" class="button small" onClick={onBack}>
            {words.adjust.other}
          </button>
          {bike.state.settings[setting.setting] === undefined ? null : (
            <a class="button small" href={`/${bike.state.subject}/season/${setting.setting}`}>
              {w.adjust.whole}
            </a>
          )}
        </div>
      </div>
    </Page>
  );
}
