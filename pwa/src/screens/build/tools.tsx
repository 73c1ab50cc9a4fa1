/** The workshop's torque tools on this phone: name, range, error. The one used last is at hand for the next joint. */

import { useState } from "preact/hooks";
import { Choice } from "../../controls/choice";
import { NumberField } from "../../controls/number-field";
import { Sheet } from "../../controls/sheet";
import { TextField } from "../../controls/text-field";
import { keep } from "../../store/drafts";
import { formatNumber } from "../../units";
import { words } from "../../words";
import { w } from "./words";

export interface Tool {
  name: string;
  /** The least of its scale, N·m; null when it has none of its own. */
  least: number | null;
  most: number;
  accuracy: number;
}

/** A tool is used from a fifth of its full scale, ISO 6789-1. */
const LEAST_SHARE = 0.2;

const tools = keep.kept<Tool[]>("torque-tools", []);
const chosen = keep.kept<string>("torque-tool", "");

export function toolLeast(tool: Tool): number {
  return Math.max(tool.least ?? 0, LEAST_SHARE * tool.most);
}

export function toolName(tool: Tool): string {
  return `${tool.name}, ${tool.least === null ? "" : `${formatNumber(tool.least, 1)}–`}${formatNumber(tool.most, 1)} N·m`;
}

export function useTool(): Tool | null {
  return tools.value.find((tool) => tool.name === chosen.value) ?? null;
}

export function ToolField() {
  const [adding, setAdding] = useState(false);
  return (
    <div>
      {tools.value.length === 0 ? <p>{w.torque.noTool}</p> : null}
      {tools.value.length > 0 && (
        <Choice
          label={w.torque.tool}
          options={tools.value.map((tool) => ({
            value: tool.name,
            label: `${toolName(tool)}, ± ${formatNumber(tool.accuracy, 1)} %`,
          }))}
          value={chosen.value === "" ? null : chosen.value}
          onChange={(name) => {
            chosen.value = name;
          }}
        />
      )}
      <button type="button" class="button small tool-add" onClick={() => setAdding(true)}>
        {w.torque.addTool}
      </button>
      {adding ? <AddTool onClose={() => setAdding(false)} /> : null}
    </div>
  );
}

function AddTool({ onClose }: { onClose: () => void }) {
  const [name, setName] = useState("");
  const [least, setLeast] = useState<number | null>(null);
  const [most, setMost] = useState<number | null>(null);
  const [accuracy, setAccuracy] = useState<number | null>(4);
  const whole = name.trim() !== "" && most !== null && most > 0 && accuracy !== null;
  const add = () => {
    if (most === null || accuracy === null) return;
    tools.value = [...tools.value.filter((tool) => tool.name !== name.trim()), { name: name.trim(), least, most, accuracy }];
    chosen.value = name.trim();
    onClose();
  };
  return (
    <Sheet title={w.torque.addTool} onClose={onClose}>
      <TextField label={w.torque.toolName} value={name} onChange={setName} help={w.torque.toolNameHelp} />
      <NumberField
        label={w.torque.toolMost}
        unit="N·m"
        value={most}
        onChange={setMost}
        step={1}
        digits={1}
        possible={[0, 500]}
        start={25}
      />
      <NumberField
        label={w.torque.toolLeast}
        unit="N·m"
        value={least}
        onChange={setLeast}
        step={1}
        digits={1}
        possible={[0, 500]}
        start={5}
        optional
      />
      <NumberField
        label={w.torque.toolError}
        unit="%"
        value={accuracy}
        onChange={setAccuracy}
        step={1}
        digits={1}
        possible={[0, 30]}
        start={4}
      >
        <p class="quiet">{w.torque.toolErrorHelp}</p>
      </NumberField>
      <button type="button" class="button main wide" disabled={!whole} onClick={add}>
        {words.done}
      </button>
    </Sheet>
  );
}
