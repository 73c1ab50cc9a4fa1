/** The way from a field to the tool that serves it; the tool itself is fetched when first wanted. */

import type { ComponentType } from "preact";
import { useState } from "preact/hooks";
import { entry, toolFor } from "./enter";
import "./sensors.css";

export interface Measured {
  value: number;
  plusMinus: number;
}

export interface ToolProps {
  /** What was taken, by the field's name, in base units. */
  onTake: (taken: Record<string, Measured>) => void;
  onClose: () => void;
  /** The field it was opened from. */
  field: string;
  /** What is usual for the field as it stands, asked when the tool opens. */
  usual: () => Promise<[number, number] | undefined>;
}

/** A phone measures no finer. */
export const tenth = (value: number) => Math.round(value * 10) / 10;

interface Props {
  field: string;
  calculation?: string;
  usual?: ToolProps["usual"];
  onTake: ToolProps["onTake"];
}

export function PhoneButton({ field, calculation, usual, onTake }: Props) {
  const [shown, setShown] = useState<{ Opened: ComponentType<ToolProps> } | null>(null);
  const tool = toolFor(field, calculation);
  if (tool === null) return null;
  const close = () => setShown(null);
  return (
    <>
      <button
        type="button"
        class="button small phone-way"
        onClick={() => void import("./tools").then((tools) => setShown({ Opened: tools[tool] }))}
      >
        {entry.enter}
      </button>
      {shown === null ? null : (
        <shown.Opened
          field={field}
          usual={usual ?? (() => Promise.resolve(undefined))}
          onClose={close}
          onTake={(taken) => {
            close();
            onTake(taken);
          }}
        />
      )}
    </>
  );
}
