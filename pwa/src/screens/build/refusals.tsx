/** What a calculation could not take, said where its answer would stand: by the labels of its fields, and of a row its name. */

import { Finding } from "../../controls/finding";
import { type InputProblems, kernel } from "../../kernel/client";
import type { Calculation, Quantity } from "../../kernel/types";
import { said } from "../../languages/spoken";
import { words } from "../../words";
import { spaced } from "../names";
import { useAsked } from "./asked";

export interface Refused {
  calculation: string;
  refused: InputProblems | null;
  /** What it was asked with: rows with a name are called by it. */
  inputs?: Record<string, unknown>;
}

export function Refusals(props: Refused) {
  return (
    <>
      {useRefusals(props).map((line) => (
        <Finding key={line} level="stop" text={line} />
      ))}
    </>
  );
}

export function useRefusals({ calculation, refused, inputs = {} }: Refused): string[] {
  const declared = useAsked(async () => (refused === null ? null : await kernel.declarations()), refused === null);
  if (refused === null || declared === undefined || declared === null) return [];
  const found = declared.find((one) => one.id === calculation);
  return refused.problems.map(({ field, given, wanted }) =>
    words.device.refusal(labelled(found, field, inputs), given, said(wanted)),
  );
}

/** `parts[2].claimed` is "Carbon fork A, Claimed weight". */
function labelled(calculation: Calculation | undefined, path: string, inputs: Record<string, unknown>): string {
  const [, name = path, at, inner] = /^([^.[]+)(?:\[(\d+)\])?(?:\.(.+))?$/.exec(path) ?? [];
  const quantity = calculation?.inputs.find((one) => one.name === name);
  if (at === undefined) return labelOf(quantity, name);
  const row = (inputs[name] as { name?: unknown }[] | undefined)?.[Number(at)];
  const called = typeof row?.name === "string" ? row.name : `${labelOf(quantity, name)} ${Number(at) + 1}`;
  if (inner === undefined) return called;
  return `${called}, ${labelOf(
    quantity?.fields?.find((one) => one.name === inner),
    inner,
  )}`;
}

function labelOf(quantity: Quantity | undefined, name: string): string {
  return quantity?.label ?? spaced(name);
}
