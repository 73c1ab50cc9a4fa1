/** The whole list of a check, by area: pass an item here with one touch, or open it for everything else. */

import { Ring } from "../../controls/mark";
import { buzz } from "../../device";
import type { CheckItem } from "../../kernel/types";
import { said } from "../../languages/spoken";
import { show } from "../../units";
import { words } from "../../words";
import { spaced } from "../names";
import { type Answered, type HalfDone, markOf } from "./half-done";

const SHAPES = { pass: "fit", attention: "care", fail: "not-fit" } as const;

interface Props {
  items: CheckItem[];
  half: HalfDone;
  onGo: (to: number) => void;
  onAnswer: (item: string, answered: Answered) => void;
  onPass: (items: CheckItem[]) => void;
}

export function WholeList({ items, half, onGo, onAnswer, onPass }: Props) {
  const areas = [...new Set(items.map((item) => item.area))];
  const openIn = (area: string) =>
    items.filter(
      (item) => item.area === area && item.answer === "mark" && !item.photo && markOf(item, half.answers[item.item]) === null,
    );
  return (
    <main class="check-list" id="work">
      <h1>{words.check.wholeList}</h1>
      {areas.map((area) => (
        <section key={area} class="part">
          <h2>{spaced(area)}</h2>
          <ul class="ruled">
            {items.map((item, i) => {
              if (item.area !== area) return null;
              const answer = half.answers[item.item];
              const mark = markOf(item, answer);
              const passes = mark === null && item.answer === "mark";
              return (
                <li key={item.item} class="check-line">
                  <button type="button" class="check-open" onClick={() => onGo(i)}>
                    <Ring shape={mark === null ? "none" : SHAPES[mark]} size={24} />
                    <span>
                      {said(item.title)}
                      {answer?.note ? <span class="quiet lines"> {answer.note}</span> : null}
                    </span>
                    <span class="figure">{answer?.value === undefined ? "" : show(answer.value, item.unit)}</span>
                    <span class="unseen">{mark === null ? words.check.open : words.marks[mark]}</span>
                  </button>
                  {passes ? (
                    <button
                      type="button"
                      class="check-pass"
                      onClick={() => {
                        buzz(10);
                        onAnswer(item.item, { ...answer, mark: "pass" });
                      }}
                    >
                      {words.marks.pass}
                      <span class="unseen"> {said(item.title)}</span>
                    </button>
                  ) : null}
                </li>
              );
            })}
          </ul>
          <PassArea area={area} open={openIn(area)} onPass={onPass} />
        </section>
      ))}
      <button type="button" class="button main wide" onClick={() => onGo(items.length)}>
        {words.check.toVerdict}
      </button>
    </main>
  );
}

/**
 * What is still open of an area, passed by one touch that says how many. It stands below them: the hand has gone past each one
 * and its words, and whoever found something has marked it before.
 */
function PassArea({ area, open, onPass }: { area: string; open: CheckItem[]; onPass: (items: CheckItem[]) => void }) {
  if (open.length < 2) return null;
  return (
    <button
      type="button"
      class="button wide check-pass-area"
      onClick={() => {
        buzz(10);
        onPass(open);
      }}
    >
      {words.check.passArea(open.length)}
      <span class="unseen">, {spaced(area)}</span>
    </button>
  );
}
