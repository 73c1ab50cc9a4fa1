/** The kernel's worker: MicroPython with the kernel's files, one JSON string in, one out. */

import files from "virtual:kernel";
import { loadMicroPython } from "@micropython/micropython-webassembly-pyscript/micropython.mjs";
import wasm from "@micropython/micropython-webassembly-pyscript/micropython.wasm?url";

declare const self: DedicatedWorkerGlobalScope;

// A season of a busy bike is some thousand entries; folding five thousand takes about half of this.
const HEAP = 64 * 1024 * 1024;

async function start(): Promise<(message: string) => string> {
  const engine = await loadMicroPython({ url: wasm, heapsize: HEAP });
  engine.FS.mkdir("/pinchbolt");
  engine.FS.mkdir("/pinchbolt/kernel");
  for (const [name, text] of Object.entries(files)) engine.FS.writeFile(`/pinchbolt/kernel/${name}`, text);
  engine.runPython("import sys\nsys.path.append('/pinchbolt')\nfrom kernel.calls import call");
  return engine.globals.get("call");
}

const starting = start();

starting.then(
  () => self.postMessage({ ready: true }),
  (error: unknown) => self.postMessage({ broken: `the engine did not start: ${String(error)}` }),
);

self.onmessage = async (event: MessageEvent<{ id: number; message: string }>) => {
  const { id, message } = event.data;
  let call: (message: string) => string;
  try {
    call = await starting;
  } catch {
    return; // Told as broken above.
  }
  try {
    self.postMessage({ id, answer: call(message) });
  } catch (error) {
    // `call` answers every Python failure itself; what comes through is the engine's own, after which it is not to be trusted.
    self.postMessage({ broken: `the engine broke down: ${String(error)}` });
  }
};
