/** One item fills the sheet: what to do, what passes, what it was last, and three big marks. */

import { useEffect, useLayoutEffect, useRef } from "preact/hooks";
import { Caution } from "../../controls/caution";
import { Ring } from "../../controls/mark";
import { NumberField } from "../../controls/number-field";
import { TextField } from "../../controls/text-field";
import { unreadField } from "../../controls/unread";
import { buzz } from "../../device";
import type { CheckItem } from "../../kernel/types";
import { said } from "../../languages/spoken";
import { show } from "../../units";
import { canSpeak, hush, readsOut, say, soundFail } from "../../voice";
import { words } from "../../words";
import { spaced } from "../names";
import { freeFoot } from "../shell/free-foot";
import { dateOf } from "../when";
import { type Answered, type HalfDone, markOf } from "./half-done";
import { Ruler } from "./ruler";
import { SelfDrawing } from "./self-drawing";
import { Shots } from "./shots";

interface Props {
  item: CheckItem;
  items: CheckItem[];
  half: HalfDone;
  at: number;
  /** For a rider: plain words, a drawing, and a stop that is one. */
  plain: boolean;
  onAnswer: (answered: Answered, next: boolean) => void;
  onGo: (to: number) => void;
}

const MARKS = [
  { mark: "pass", shape: "fit" },
  { mark: "attention", shape: "care" },
  { mark: "fail", shape: "not-fit" },
] as const;

export function Item({ item, items, half, at, plain, onAnswer, onGo }: Props) {
  const heading = useRef<HTMLHeadingElement>(null);
  // Together with what is shown: a key pressed as soon as the item is seen must not find the focus moved under it.
  useLayoutEffect(() => {
    scrollTo(0, 0);
    heading.current?.focus({ preventScroll: true });
  }, [item]);
  useEffect(() => {
    if (readsOut.peek()) say(spoken(item));
  }, [item]);
  const answer = half.answers[item.item] ?? {};
  const mark = markOf(item, answer);
  const asksWord = mark === "attention" || mark === "fail";
  // Where the drawing was, at the top of the sheet: it cannot be missed.
  const stopped = plain && mark === "fail" && item.essential;
  const choose = (chosen: "pass" | "attention" | "fail") => {
    buzz(chosen === "pass" ? 10 : chosen === "attention" ? [10, 60, 10] : [120, 80, 120]);
    if (chosen === "fail") soundFail();
    // A pass goes on by itself; the others ask for a word first. A number that is asked for is waited for.
    const waits = (item.answer === "value" && answer.value === undefined) || unreadField() !== null;
    // What is asked for next lies below the marks on a small phone.
    if (chosen !== "pass") requestAnimationFrame(() => setTimeout(toPhoto));
    onAnswer({ ...answer, mark: chosen }, chosen === "pass" && !waits && markOf(item, { ...answer, mark: chosen }) === "pass");
  };
  return (
    <>
      <main class="check-item" id="work">
        <Ruler items={items} half={half} at={at} />
        <div class="check-asked">
          <div class="check-where">
            <p class="quiet">
              {spaced(item.area)}
              {item.essential ? "" : ` · ${words.check.notEssential}`}
            </p>
            {canSpeak ? <ReadOut item={item} /> : null}
          </div>
          <h1 ref={heading} tabIndex={-1}>
            {said(item.title)}
          </h1>
          {stopped ? (
            <p class="check-stop" role="alert">
              <strong>{words.check.stop}</strong> {words.check.stopHelp}
            </p>
          ) : plain ? (
            <SelfDrawing item={item.item} />
          ) : null}
          <p class="check-do">{said(item.do)}</p>
          <div class="check-passes">
            <strong>{words.check.passes}</strong>
            <p>{said(item.passes)}</p>
          </div>
          {item.caution === "" ? null : <Caution lines={[said(item.caution)]} />}
          {item.measure === "" ? null : <Measured item={item} answer={answer} onAnswer={onAnswer} failed={mark === "fail"} />}
          {asksWord ? (
            <TextField
              label={words.check.whatIsIt}
              value={answer.note ?? ""}
              onChange={(note) => onAnswer({ ...answer, note }, false)}
              help={words.check.whatIsItHelp}
              lines
            />
          ) : null}
          {asksWord || item.photo ? (
            <Shots
              about={item.title}
              photos={answer.photos ?? []}
              asked={item.photo ?? false}
              onChange={(photos) => onAnswer({ ...answer, photos }, false)}
            />
          ) : null}
        </div>
      </main>
      <footer class="check-foot" ref={freeFoot}>
        <fieldset class="check-marks">
          <legend class="unseen">{said(item.title)}</legend>
          {MARKS.map((one) => (
            <button
              key={one.mark}
              type="button"
              class={`check-mark check-mark-${one.mark}`}
              aria-pressed={mark === one.mark}
              onClick={() => choose(one.mark)}
            >
              <Ring shape={one.shape} size={36} />
              {plain ? words.plainMarks[one.mark] : words.marks[one.mark]}
            </button>
          ))}
        </fieldset>
        <div class="check-steps">
          <button type="button" class="button small" disabled={at === 0} onClick={() => onGo(at - 1)}>
            {words.check.back}
          </button>
          <span class="figure" aria-live="polite">
            {words.check.place(at + 1, items.length)}
          </span>
          <button type="button" class="button small" onClick={() => onGo(at + 1)}>
            {mark === null ? words.check.later : words.check.next}
          </button>
        </div>
      </footer>
    </>
  );
}

function toPhoto(): void {
  document.querySelector(".check-asked .shots")?.scrollIntoView({ block: "end" });
}

/** Read this item out now, and every next one; touched again, quiet. */
function ReadOut({ item }: { item: CheckItem }) {
  const on = readsOut.value;
  return (
    <button
      type="button"
      class="plain"
      aria-pressed={on}
      onClick={() => {
        readsOut.value = !on;
        if (on) hush();
        else say(spoken(item));
      }}
    >
      {on ? words.check.quiet : words.check.readOut}
    </button>
  );
}

function spoken(item: CheckItem): string {
  const { title, do: todo, passes, caution } = item;
  const texts = [said(title), said(todo), words.check.passes, said(passes), said(caution)];
  return texts.filter(Boolean).map(ended).join(" ");
}

function ended(text: string): string {
  return /[.!?]$/.test(text) ? text : `${text}.`;
}

interface MeasuredProps {
  item: CheckItem;
  answer: Answered;
  failed: boolean;
  onAnswer: (answered: Answered, next: boolean) => void;
}

function Measured({ item, answer, failed, onAnswer }: MeasuredProps) {
  const limits = limitsOf(item);
  const { value } = answer;
  const out =
    failed && value !== undefined && ((item.low !== null && value < item.low) || (item.high !== null && value > item.high));
  return (
    <NumberField
      label={item.answer === "value" ? words.check.value : words.check.valueMay}
      unit={item.unit}
      value={value ?? null}
      onChange={(next) => {
        const { value: _gone, ...rest } = answer;
        // Said once, on the way out of the limits: a stepper goes on under the thumb.
        if (next !== null && markOf(item, { ...rest, value: next }) === "fail" && markOf(item, answer) !== "fail") {
          buzz([120, 80, 120]);
          soundFail();
        }
        onAnswer(next === null ? rest : { ...rest, value: next }, false);
      }}
      digits={2}
      possible={item.possible ?? undefined}
      step={stepFor(item.unit)}
      start={item.last?.value ?? item.low ?? item.high ?? undefined}
      problem={out ? `${words.check.outside} ${limits}` : undefined}
    >
      {limits === "" ? <p class="quiet">{words.check.noLimit}</p> : out ? null : <p>{limits}</p>}
      {item.last ? (
        <p class="quiet">
          {words.lastValue} <span class="figure">{show(item.last.value, item.last.unit ?? item.unit)}</span>,{" "}
          {dateOf(item.last.at)}
        </p>
      ) : null}
    </NumberField>
  );
}

/** One touch of the stepper where the check does not say. */
function stepFor(unit: string): number {
  return { N·m: 0.5, bar: 0.1, mm: 0.1, "%": 0.05, "°": 0.5 }[unit] ?? 1;
}

export function limitsOf(item: CheckItem): string {
  if (item.low !== null && item.high !== null)
    return words.check.between(show(item.low, item.unit), show(item.high, item.unit));
  if (item.low !== null) return words.check.atLeast(show(item.low, item.unit));
  if (item.high !== null) return words.check.atMost(show(item.high, item.unit));
  return "";
}
