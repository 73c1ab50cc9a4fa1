/** A figure that an open question stands over: said where it is set anew, because the new figure takes the place of both. */

import { Finding } from "../../controls/finding";
import type { BikeState, Question } from "../../kernel/types";
import { show } from "../../units";
import { words } from "../../words";
import { nameOf } from "../when";

export function optionSaid(option: Question["options"][number]): string {
  const { value, told } = option;
  return typeof value === "number" ? show(value, typeof told.unit === "string" ? told.unit : "") : String(value);
}

export function questionOf(state: Pick<BikeState, "questions">, setting: string): Question | undefined {
  return state.questions.find((one) => one.question === `setting.${setting}`);
}

export function Settles({ state, setting }: { state: Pick<BikeState, "questions">; setting: string }) {
  const question = questionOf(state, setting);
  if (question === undefined) return null;
  const sides = question.options.map((option) => `${optionSaid(option)} (${nameOf(option.by)})`);
  return <Finding level="open" text={words.questions.settles(sides)} />;
}
