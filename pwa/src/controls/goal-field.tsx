/** The weight that a bike should come to. */

import { NumberField } from "./number-field";
import { GOAL_MASS } from "./ranges";

interface Props {
  label: string;
  value: number | null;
  onChange: (goal: number | null) => void;
  optional?: boolean;
}

export function GoalField(props: Props) {
  return <NumberField {...props} unit="g" step={10} digits={0} possible={GOAL_MASS} start={8500} />;
}
