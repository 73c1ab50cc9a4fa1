/** The whole list of a check, by area, each item with its mark: touch one to go to it. */

import { Ring } from "../../controls/mark";
import type { CheckItem } from "../../kernel/types";
import { show } from "../../units";
import { words } from "../../words";
import { spaced } from "../names";
import { type HalfDone, markOf } from "./half-done";

const SHAPES = { pass: "fit", attention: "care", fail: "not-fit" } as const;

export function WholeList({ items, half, onGo }: { items: CheckItem[]; half: HalfDone; onGo: (to: number) => void }) {
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
              return (
                <li key={item.item}>
                  <button type="button" class="check-line" onClick={() => onGo(i)}>
                    <Ring shape={mark === null ? "none" : SHAPES[mark]} size={24} />
                    <span>
                      {item.title}
                      {answer?.note ? <span class="quiet lines"> {answer.note}</span> : null}
                    </span>
                    <span class="figure">{answer?.value === undefined ? "" : show(answer.value, item.unit)}</span>
                    <span class="unseen">{mark === null ? words.check.open : words.marks[mark]}</span>
                  </button>
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
