/** One item of a check being written. */

import { Choice, Flag } from "../../controls/choice";
import { NumberField } from "../../controls/number-field";
import { Sheet } from "../../controls/sheet";
import { TextField } from "../../controls/text-field";
import type { CheckItem } from "../../kernel/types";
import { words } from "../../words";
import { useNames } from "../names";

interface Props {
  item: CheckItem;
  areas: string[];
  onChange: (next: CheckItem) => void;
  onTake: () => void;
  onClose: () => void;
}

export function ItemSheet({ item, areas, onChange, onTake, onClose }: Props) {
  const names = useNames();
  const change = (next: Partial<CheckItem>) => onChange({ ...item, ...next });
  // What the item measures now may be something only a check knows of, such as a pad's thickness.
  const known = names.measurable.some((one) => one.name === item.measure);
  const measures = [
    { value: "", label: words.book.noMeasure },
    ...(item.measure !== "" && !known ? [{ value: item.measure, label: names.of(item.measure).label }] : []),
    ...names.measurable.map((one) => ({ value: one.name, label: one.label })),
  ];
  return (
    <Sheet title={item.title || words.book.unnamedItem} onClose={onClose}>
      <div class="form">
        <TextField label={words.book.itemTitle} value={item.title} onChange={(title) => change({ title })} />
        <TextField
          label={words.book.area}
          value={item.area}
          onChange={(area) => change({ area })}
          help={areas.filter(Boolean).join(", ")}
        />
        <TextField label={words.book.do} value={item.do} onChange={(text) => change({ do: text })} lines />
        <TextField label={words.check.passes} value={item.passes} onChange={(passes) => change({ passes })} lines />
        <Flag label={words.book.essential} value={item.essential} onChange={(essential) => change({ essential })} />
        <TextField label={words.caution} value={item.caution} onChange={(caution) => change({ caution })} lines optional />
        <Choice
          label={words.book.measure}
          options={measures}
          value={item.measure}
          onChange={(measure) => {
            const unit = measure === item.measure ? item.unit : names.of(measure).unit;
            change(
              measure === ""
                ? { measure, unit: "", low: null, high: null, low_from: "", high_from: "", answer: "mark" }
                : { measure, unit },
            );
          }}
        />
        {item.measure === "" ? null : (
          <>
            <NumberField
              label={words.book.low}
              unit={item.unit}
              value={item.low}
              onChange={(low) => change({ low })}
              optional
            />
            <NumberField
              label={words.book.high}
              unit={item.unit}
              value={item.high}
              onChange={(high) => change({ high })}
              optional
            />
            {item.low_from || item.high_from ? <p class="quiet">{words.book.marked}</p> : null}
            <Flag
              label={words.book.mustMeasure}
              value={item.answer === "value"}
              onChange={(must) => change({ answer: must ? "value" : "mark" })}
            />
          </>
        )}
        <Flag label={words.book.photo} value={item.photo ?? false} onChange={(photo) => change({ photo })} />
        <div class="buttons">
          <button type="button" class="button" onClick={onTake}>
            {words.takeAway}
          </button>
          <button type="button" class="button main" onClick={onClose}>
            {words.done}
          </button>
        </div>
      </div>
    </Sheet>
  );
}
