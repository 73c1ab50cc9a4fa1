/** The workshop's torque tools: name, range, error. The one used last on this phone is at hand for the next joint. */

import { useState } from "preact/hooks";
import { Choice } from "../../controls/choice";
import { NumberField } from "../../controls/number-field";
import { TOOL_ACCURACY, TOOL_SCALE } from "../../controls/ranges";
import { Sheet } from "../../controls/sheet";
import { TextField } from "../../controls/text-field";
import type { TorqueTool } from "../../kernel/build-types";
import type { ShopState } from "../../kernel/types";
import { keep } from "../../store/drafts";
import { formatNumber } from "../../units";
import { words } from "../../words";
import { useWriting } from "../writing";
import { w } from "./words";
import "./torque.css";
import { Problem } from "../../controls/problem";

/** A tool is used from a fifth of its full scale, ISO 6789-1. */
const LEAST_SHARE = 0.2;

const chosen = keep.kept<string>("torque-tool", "");

export function toolLeast(tool: TorqueTool): number {
  return Math.max(tool.least ?? 0, LEAST_SHARE * tool.most);
}

export function toolName(tool: TorqueTool): string {
  const least = tool.least ?? null;
  return `${tool.tool}, ${least === null ? "" : `${formatNumber(least, 1)}–`}${formatNumber(tool.most, 1)} N·m`;
}

export function useTool({ tools }: ShopState): TorqueTool | null {
  return tools.find((one) => one.tool === chosen.value) ?? null;
}

export function ToolField({ shop }: { shop: ShopState }) {
  const [adding, setAdding] = useState(false);
  const { write, busy } = useWriting();
  const tool = useTool(shop);
  return (
    <div class="tools">
      {shop.tools.length === 0 ? (
        <p>{w.torque.noTool}</p>
      ) : (
        <Choice
          label={w.torque.tool}
          options={shop.tools.map((one) => ({
            value: one.tool,
            label: `${toolName(one)}, ± ${formatNumber(one.accuracy, 1)} %`,
          }))}
          value={tool?.tool ?? null}
          onChange={(name) => {
            chosen.value = name;
          }}
        />
      )}
      <div class="buttons">
        <button type="button" class="button small" onClick={() => setAdding(true)}>
          {w.torque.addTool}
        </button>
        {tool === null ? null : (
          <button
            type="button"
            class="button small"
            disabled={busy}
            onClick={() =>
              void write(
                [{ subject: "workshop", kind: "tool-define", body: { ...tool, retired: true } }],
                w.torque.toolRetired(tool.tool),
              )
            }
          >
            {w.torque.retireTool}
          </button>
        )}
      </div>
      {adding ? <AddTool onClose={() => setAdding(false)} /> : null}
    </div>
  );
}

function AddTool({ onClose }: { onClose: () => void }) {
  const [name, setName] = useState("");
  const [least, setLeast] = useState<number | null>(null);
  const [most, setMost] = useState<number | null>(null);
  const [accuracy, setAccuracy] = useState<number | null>(4);
  const { write, busy, problem } = useWriting();
  const upsideDown = least !== null && most !== null && least > most;
  const whole = name.trim() !== "" && most !== null && most > 0 && accuracy !== null && !upsideDown;
  const add = async () => {
    const body = { tool: name.trim(), least: least ?? undefined, most, accuracy };
    if ((await write([{ subject: "workshop", kind: "tool-define", body }], w.torque.toolAdded(body.tool))) === null) return;
    chosen.value = body.tool;
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
        possible={TOOL_SCALE}
        start={25}
      />
      <NumberField
        label={w.torque.toolLeast}
        unit="N·m"
        value={least}
        onChange={setLeast}
        step={1}
        digits={1}
        possible={TOOL_SCALE}
        start={5}
        problem={upsideDown ? w.torque.upsideDown : undefined}
        optional
      />
      <NumberField
        label={w.torque.toolError}
        unit="%"
        value={accuracy}
        onChange={setAccuracy}
        step={1}
        digits={1}
        possible={TOOL_ACCURACY}
        start={4}
      >
        <p class="quiet">{w.torque.toolErrorHelp}</p>
      </NumberField>
      <Problem text={problem} />
      <button type="button" class="button main wide" disabled={busy || !whole} onClick={() => void add()}>
        {words.done}
      </button>
    </Sheet>
  );
}
