/**
 * The cut card: two routes, a drawing, the cautions, and a number to mark only when nothing stands against it. Then it asks what
 * came out. Overruling it needs a reason and stays in plain sight. A cut is never undone, only superseded.
 */

import { useState } from "preact/hooks";
import { useRoute } from "preact-iso";
import { Caution } from "../../controls/caution";
import { Finding, LevelSign } from "../../controls/finding";
import { NumberField } from "../../controls/number-field";
import { DIMENSION, PART_MASS } from "../../controls/ranges";
import { Sheet } from "../../controls/sheet";
import { TextField } from "../../controls/text-field";
import { SteererDrawing } from "../../drawing/steerer";
import type { CutCard, CutRoute } from "../../kernel/build-types";
import { kernel } from "../../kernel/client";
import type { BikeState } from "../../kernel/types";
import { show } from "../../units";
import { words } from "../../words";
import { useBikeId } from "../bike/frame";
import { spaced, useNames } from "../names";
import { nameOf, whenOf } from "../when";
import { told, useWriting } from "../writing";
import { useAsked, useTried } from "./asked";
import { CutDrawing } from "./cut-drawing";
import { type MeasureProps, MeasureSheet } from "./measure-sheet";
import { Refusals } from "./refusals";
import { roundedUp, showUp } from "./rounded-up";
import { SheetPage } from "./sheet-page";
import { w } from "./words";
import "../../controls/tick-line.css";
import "./cut.css";
import { Problem } from "../../controls/problem";

/** What the sum of the steerer is made of, and what else the card looks at. */
const SUM = ["head_tube", "lower_stack", "upper_stack", "spacers_below", "stem_height", "spacers_above"];
const ALSO = ["steerer_uncut", "plug_depth", "top_gap"];

/** Which part gets lighter. */
const SLOT: Record<string, string> = {
  steerer: "fork",
  chain: "chain",
  seatpost: "seatpost",
  "hose-front": "hoses",
  "hose-rear": "hoses",
};

/** The calculation that works out the first route. */
const CALCULATION: Record<string, string> = { chain: "chain-length", "hose-front": "hose-slack", "hose-rear": "hose-slack" };

type Measuring = Pick<MeasureProps, "what" | "label" | "unit" | "help" | "possible">;

export function Cut() {
  const what = useRoute().params.what ?? "";
  return (
    <SheetPage title={w.cut.of(w.cut.titles[what] ?? spaced(what))}>
      {({ state }) => <Card state={state} what={what} />}
    </SheetPage>
  );
}

function Card({ state, what }: { state: BikeState; what: string }) {
  const id = useBikeId();
  const card = useAsked(() => kernel.cut(what, state), state, what);
  const names = useNames();
  const [measuring, setMeasuring] = useState<Measuring | null>(null);
  const [cutting, setCutting] = useState<"open" | "overrule" | null>(null);
  // After which cut the cautions were read: for the next one they are read again.
  const [read, setRead] = useState<string | null>(null);
  if (card === undefined) return <p class="quiet">{words.reading}</p>;
  const last = card.done.at(-1);
  const before = last?.entry ?? "none";
  const checked = read === before;
  const second = what === "steerer" ? "steerer_mark" : `cut_${what}_second`;
  return (
    <>
      {last === undefined ? null : <Made card={card} />}
      {what === "steerer" ? (
        <SteererFigure card={card} state={state} />
      ) : (
        <figure>
          <CutDrawing card={card} />
          <figcaption class="quiet">{w.cut.inUnits(card.unit)}</figcaption>
        </figure>
      )}
      {card.number !== null && card.open ? (
        <section class="cut-number" aria-label={w.cut.mark}>
          <span class="quiet">{w.cut.mark}</span>
          <output class="figure">
            <CutFigure card={card} value={card.number} />
          </output>
          <span class="quiet">{w.cut.roundedUp}</span>
        </section>
      ) : (
        <section class="cut-shut" role="status">
          <p class="cut-shut-title">
            <LevelSign level="stop" /> {w.cut.shut}
          </p>
          <ul>
            {card.blocked.map((one) => (
              <li key={one}>{one}</li>
            ))}
          </ul>
        </section>
      )}
      <Caution lines={card.cautions} />
      <section class="part">
        <h2>{w.cut.routes}</h2>
        <ul class="ruled">
          {card.routes.map((route, i) => (
            <li key={route.name} class="cut-route">
              <RouteLine route={route} card={card} />
              {what === "steerer" && i === 0 ? null : (
                <button
                  type="button"
                  class="button small"
                  onClick={() =>
                    setMeasuring(
                      i === 0
                        ? { what: `cut_${what}_first`, label: spaced(route.name), unit: card.unit, possible: DIMENSION }
                        : {
                            what: second,
                            unit: card.unit,
                            possible: DIMENSION,
                            label: what === "steerer" ? w.cut.markLabel : spaced(route.name),
                            help: what === "steerer" ? w.cut.markHelp : "",
                          },
                    )
                  }
                >
                  {route.value === null ? words.ways.measure : w.cut.again}
                  <span class="unseen"> {route.name}</span>
                </button>
              )}
              {what === "chain" && i === 0 ? <ChainCalculated state={state} /> : null}
              {i === 0 && CALCULATION[what] !== undefined ? (
                <a class="button small" href={`/bench/${CALCULATION[what]}`}>
                  {w.cut.workOut}
                </a>
              ) : null}
            </li>
          ))}
        </ul>
        <p>
          {card.disagreement === null
            ? w.cut.oneRoute
            : w.cut.differ(show(card.disagreement, card.unit, 1), show(card.tolerance, card.unit, 1))}
          {card.independent === null || card.marks.length > 0 ? "" : ` ${w.cut.independent[card.independent]}`}
        </p>
        {card.marks.map((one) => (
          <p key={one} class="cut-weak">
            <LevelSign level="care" /> {one}
          </p>
        ))}
      </section>
      {what === "steerer" && (
        <section class="part">
          <h2>{w.cut.pieces}</h2>
          <ul class="ruled settings">
            {[...SUM, ...ALSO].map((one) => {
              const measured = state.measures[one];
              return (
                <li key={one}>
                  <button type="button" class="line-button setting" onClick={() => setMeasuring({ what: one })}>
                    <span>{names.of(one).label}</span>
                    <span class={measured === undefined ? "figure blue" : "figure"}>
                      {measured === undefined
                        ? one === "top_gap"
                          ? w.cut.gapStands
                          : words.ways.measure
                        : show(measured.value, "mm", 1)}
                    </span>
                  </button>
                </li>
              );
            })}
          </ul>
        </section>
      )}
      <section class="part">
        <h2>{last === undefined ? w.cut.doIt : w.cut.doAgain}</h2>
        {card.open ? (
          <label class="tick-line">
            <input
              type="checkbox"
              checked={checked}
              onChange={(event) => setRead(event.currentTarget.checked ? before : null)}
            />
            <span>{w.cut.readCautions}</span>
          </label>
        ) : (
          <p>{w.cut.shutHelp}</p>
        )}
        <button type="button" class="button main wide" disabled={!card.open || !checked} onClick={() => setCutting("open")}>
          {w.cut.isCut}
        </button>
        {card.open ? null : (
          <button type="button" class="button small" onClick={() => setCutting("overrule")}>
            {w.cut.overrule}
          </button>
        )}
      </section>
      <a class="plain" href={`/bike/${id}/fits`}>
        {w.fits.title}
      </a>
      {measuring === null ? null : <MeasureSheet state={state} {...measuring} onClose={() => setMeasuring(null)} />}
      {cutting === null ? null : (
        <Result card={card} state={state} overrule={cutting === "overrule"} onClose={() => setCutting(null)} />
      )}
    </>
  );
}

/** Millimetres in the person's unit and rounded up; pitches are counted. */
function showCut(card: CutCard, value: number): string {
  return card.unit === "mm" ? showUp(value, "mm", 1) : `${roundedUp(value, 0)} ${card.unit}`;
}

/** The same with its unit small, so that it stands in one line. */
function CutFigure({ card, value }: { card: CutCard; value: number }) {
  const said = showCut(card, value);
  const blank = said.search(/\s/);
  if (blank < 0) return <>{said}</>;
  return (
    <>
      {said.slice(0, blank)}
      <small>{said.slice(blank)}</small>
    </>
  );
}

/** The chain's first route straight from the numbers on the record, where they are all there. */
function ChainCalculated({ state }: { state: BikeState }) {
  const { write, busy } = useWriting();
  const carried = (kind: string) => state.parts.flatMap((part) => part.interfaces ?? []).find((one) => one.kind === kind);
  const inputs = {
    chainstay: state.measures.chainstay?.value,
    ring_max: carried("crank-rings")?.ring_max,
    cog_max: carried("cassette")?.cog_max,
  };
  const whole = Object.values(inputs).every((one) => typeof one === "number");
  const { answer, refused } = useTried(
    async () => (whole ? await kernel.run("chain-length", inputs) : null),
    JSON.stringify(inputs),
  );
  if (refused !== null) return <Refusals calculation="chain-length" refused={refused} />;
  const pitches = answer?.outputs.pitches;
  if (typeof pitches !== "number" || answer === null || answer === undefined) return null;
  const { subject } = state;
  const take = () =>
    write(
      [
        { subject, kind: "calculate", body: { calculation: "chain-length", inputs, outputs: answer.outputs } },
        {
          subject,
          kind: "measure",
          body: { what: "cut_chain_first", value: pitches, unit: "pitches", method: "chain-length" },
        },
      ],
      w.cut.takeCalculated(pitches),
    );
  return (
    <button type="button" class="button small" disabled={busy} onClick={() => void take()}>
      {w.cut.takeCalculated(pitches)}
    </button>
  );
}

function RouteLine({ route, card }: { route: CutRoute; card: CutCard }) {
  return (
    <div>
      <span>{spaced(route.name)}</span>
      <p class="figure cut-route-value">{route.value === null ? w.cut.notMeasured : showCut(card, route.value)}</p>
      {route.at === null ? null : (
        <p class="quiet">
          {nameOf(route.by)}, {whenOf(route.at)}
        </p>
      )}
    </div>
  );
}

function Made({ card }: { card: CutCard }) {
  return (
    <section class="part">
      <h2>{w.cut.made}</h2>
      <ul class="ruled">
        {[...card.done].reverse().map((cut, i) => (
          <li key={cut.entry} class={i === 0 ? "cut-made" : "cut-made cut-superseded"}>
            <p>
              <span class="figure cut-route-value">{show(cut.result, cut.unit, 1)}</span>{" "}
              {cut.mass_after == null ? "" : `· ${show(cut.mass_after, "g", 1)} `}
              {i === 0 ? "" : <strong>{w.cut.superseded}</strong>}
            </p>
            <p class="quiet">
              {w.cut.planned(show(cut.planned, cut.unit, 1))} · {nameOf(cut.by)}, {whenOf(cut.at)}
            </p>
            {cut.overruled ? (
              <p class="cut-overruled">
                <LevelSign level="stop" /> {w.cut.overruled(cut.overruled)}
              </p>
            ) : null}
          </li>
        ))}
      </ul>
      <p class="quiet">{w.cut.neverUndone}</p>
    </section>
  );
}

function SteererFigure({ card, state }: { card: CutCard; state: BikeState }) {
  const inputs: Record<string, unknown> = {};
  for (const name of [...SUM, ...ALSO]) inputs[name] = state.measures[name]?.value;
  // Shown rounded up as the number is, so that the drawing and the number are one.
  const up = (value: number | null) => (value === null ? null : roundedUp(value, 1));
  const outputs = {
    cut_by_sum: up(card.routes[0].value),
    cut_by_mark: up(card.routes[1].value),
    cut_length: card.open ? up(card.number) : null,
  };
  return <SteererDrawing inputs={inputs} outputs={outputs} />;
}

function Result({
  card,
  state,
  overrule,
  onClose,
}: {
  card: CutCard;
  state: BikeState;
  overrule: boolean;
  onClose: () => void;
}) {
  const { write, busy, problem } = useWriting();
  const [result, setResult] = useState<number | null>(null);
  const [mass, setMass] = useState<number | null>(null);
  const [planned, setPlanned] = useState<number | null>(card.number);
  const [reason, setReason] = useState("");
  const part = state.parts.find((one) => one.slot === SLOT[card.what]);
  const mm = card.unit === "mm";
  const whole = result !== null && planned !== null && (!overrule || reason.trim() !== "");
  const mark = planned === null ? null : roundedUp(planned, mm ? 1 : 0);
  const short = result === null || mark === null || result >= mark ? null : mark - result;
  const record = async () => {
    if (result === null || mark === null) return;
    const { subject } = state;
    const body = {
      what: card.what,
      planned: mark,
      result,
      unit: card.unit,
      part: part?.part,
      by_sum: card.routes[0].value ?? undefined,
      by_mark: card.routes[1].value ?? undefined,
      mass_after: mass ?? undefined,
      overruled: overrule ? reason.trim() : undefined,
    };
    const drafts = [{ subject, kind: "cut", body: body as Record<string, unknown> }];
    if (mass !== null && part !== undefined) drafts.push({ subject, kind: "weigh", body: { part: part.part, mass } });
    const text = `${w.cut.of(card.title)}: ${show(result, card.unit, 1)}`;
    if ((await write(drafts, text)) === null) return;
    // No way back is offered: the material is off.
    told.value = { text, entries: [] };
    onClose();
  };
  return (
    <Sheet title={w.cut.of(card.title)} onClose={onClose}>
      {overrule ? (
        <>
          <Caution lines={[w.cut.overruleHelp, ...card.blocked]} />
          <NumberField
            label={w.cut.plannedLabel}
            unit={card.unit}
            value={planned}
            onChange={setPlanned}
            step={mm ? 0.5 : 2}
            digits={mm ? 1 : 0}
            possible={DIMENSION}
          />
          <TextField label={w.cut.why} value={reason} onChange={setReason} lines />
        </>
      ) : (
        <Caution lines={card.cautions} />
      )}
      <NumberField
        label={w.cut.result}
        unit={card.unit}
        value={result}
        onChange={setResult}
        step={mm ? 0.5 : 2}
        digits={mm ? 1 : 0}
        possible={DIMENSION}
        start={planned ?? undefined}
        big
      >
        {short === null ? null : <Finding level="stop" text={w.cut.short(show(short, card.unit, 1))} />}
      </NumberField>
      {part === undefined ? null : (
        <NumberField
          label={w.cut.mass(part.name)}
          unit="g"
          value={mass}
          onChange={setMass}
          step={1}
          digits={1}
          possible={PART_MASS}
          start={part.weighed ?? part.claimed ?? undefined}
          optional
        />
      )}
      <Problem text={problem} />
      <p class="quiet">{w.cut.neverUndone}</p>
      <button type="button" class="button main wide" disabled={busy || !whole} onClick={() => void record()}>
        {overrule ? w.cut.recordOverruled : w.cut.record}
      </button>
    </Sheet>
  );
}
