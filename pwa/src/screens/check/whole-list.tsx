/**
 * The whole list of a check, by area: each item with what passes, to be passed with a touch of its own, or opened for everything
 * else. No touch passes more than one item: what a verdict rests on was looked at item by item.
 */

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
}

export function WholeList({ items, half, onGo, onAnswer }: Props) {
  const areas = [...new Set(items.map((item) => item.area))];
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
              // A number or a picture that is asked for is not passed over: such an item is opened.
              const passes = mark === null && item.answer === "mark" && !item.photo;
              return (
                <li key={item.item} class="check-line">
                  <button type="button" class="check-open" onClick={() => onGo(i)}>
                    <Ring shape={mark === null ? "none" : SHAPES[mark]} size={24} />
                    <span>
                      {said(item.title)}
                      {mark === null ? <span class="check-open-passes">{said(item.passes)}</span> : null}
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
        </section>
      ))}
      <button type="button" class="button main wide" onClick={() => onGo(items.length)}>
        {words.check.toVerdict}
      </button>
    </main>
  );
}
