/** One setting over the season, with the rides, checks and baselines around it, and every move with who and why. */

import { useMemo } from "preact/hooks";
import { useRoute } from "preact-iso";
import { type Season, SeasonDrawing } from "../../drawing/season";
import type { BikeState } from "../../kernel/types";
import type { Entry, Kept } from "../../store/types";
import { show } from "../../units";
import { words } from "../../words";
import { useEntries } from "../loading";
import { useNames } from "../names";
import { nameOf, whenOf } from "../when";
import { writes } from "../who";
import "./now.css";
import { UnderBike } from "./under";
import { w } from "./use-words";

export function SeasonSheet() {
  const setting = useRoute().params.setting ?? "";
  const names = useNames();
  return <UnderBike title={names.of(setting).label}>{({ state }) => <OneSetting state={state} setting={setting} />}</UnderBike>;
}

interface Moves {
  season: Season;
  entries: Entry[];
}

function seasonOf(kept: Kept[], state: BikeState, setting: string, label: string, unit: string): Moves {
  const voided = new Set(state.voided);
  const all = kept.map((one) => JSON.parse(one.text) as Entry).filter((entry) => !voided.has(entry.id));
  const at = (entry: { noted_at: string }) => Date.parse(entry.noted_at);
  const entries = all.filter((entry) => entry.kind === "adjust" && entry.body.setting === setting);
  const rides = all.filter((entry) => entry.kind === "ride");
  return {
    entries,
    season: {
      label,
      unit,
      moves: entries.map((entry) => ({ at: at(entry), value: Number(entry.body.to) })).sort((a, b) => a.at - b.at),
      rides: rides.map((entry) => ({ at: at(entry), km: Number(entry.body.km) })),
      checks: state.checks.map((check) => ({ at: Date.parse(check.at), verdict: check.verdict })),
      baselines: state.baselines.map((one) => ({ at: Date.parse(one.at), name: one.name })),
      until: Date.now(),
    },
  };
}

function OneSetting({ state, setting }: { state: BikeState; setting: string }) {
  const kept = useEntries(state.subject);
  const named = useNames().of(setting);
  const unit = state.settings[setting]?.unit ?? named.unit;
  const told = useMemo(
    () => (kept === undefined ? null : seasonOf(kept, state, setting, named.label, unit)),
    [kept, state, setting, named, unit],
  );
  if (told === null) return <p class="quiet">{words.reading}</p>;
  const { season, entries } = told;
  const [first, last] = [season.moves[0], season.moves.at(-1)];
  if (first === undefined || last === undefined) return <p>{w.season.never}</p>;
  const says = w.season.says(named.label, show(first.value, unit), show(last.value, unit), season.moves.length - 1);
  return (
    <>
      <SeasonDrawing season={season} says={says} />
      <Key />
      <section class="part">
        <h2>{w.season.moves}</h2>
        <ul class="ruled">
          {[...entries].reverse().map((entry) => (
            <li key={entry.id} class="fault">
              <div>
                {[entry.body.reason, entry.body.felt ? w.log.felt(String(entry.body.felt)) : ""].filter(Boolean).join(", ")}
                <p class="quiet">
                  {whenOf(entry.noted_at)} · {nameOf(entry.by)}
                </p>
              </div>
              <span class="figure moved-by">{show(Number(entry.body.to), unit)}</span>
            </li>
          ))}
        </ul>
        <p class="quiet">{w.season.voidless}</p>
      </section>
      {writes("adjust") ? (
        <div class="buttons">
          <a class="button" href={`/${state.subject}/adjust?setting=${setting}`}>
            {words.ways.adjust}
          </a>
        </div>
      ) : null}
    </>
  );
}

function Key() {
  return (
    <p class="quiet">
      <span class="season-key">
        <svg viewBox="0 0 18 18" aria-hidden="true">
          <path class="season-ride" d="M9 16 V4" />
        </svg>
        {w.season.ride}
      </span>
      <span class="season-key">
        <svg viewBox="0 0 18 18" aria-hidden="true">
          <circle class="season-check" cx="9" cy="9" r="5" />
        </svg>
        {w.season.check}
      </span>
      <span class="season-key">
        <svg viewBox="0 0 18 18" aria-hidden="true">
          <path class="season-baseline" d="M9 1 V17" />
        </svg>
        {w.season.baseline}
      </span>
    </p>
  );
}
