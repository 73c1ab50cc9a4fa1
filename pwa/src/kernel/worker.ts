/** The kernel's worker: MicroPython with the kernel's compiled files, one JSON string in, one out. */

import { loadMicroPython } from "@micropython/micropython-webassembly-pyscript/micropython.mjs";
import wasm from "@micropython/micropython-webassembly-pyscript/micropython.wasm?url";
import packed from "../../../var/kernel/kernel.bin?url";
import { pagesOf, takeUp } from "./image";
import { prepare, prepared } from "./prepared";

declare const self: DedicatedWorkerGlobalScope;

// Tidying up walks over the whole heap, so it is small; the engine adds to it by itself for a long fold and gives that back.
const HEAP = 4 * 1024 * 1024;
// The engine tidies up before it hands out an answer, by itself after every 16 kB: a third of a call's time or more. Bytes.
const TIDY_AFTER = 2 * 1024 * 1024;

type Files = [name: string, bytes: Uint8Array][];

/** The engine hands out its memory to nobody; it is seen as the engine is made. */
function watchMemory(): () => Uint8Array | null {
  let seen: WebAssembly.Memory | null = null;
  const real = WebAssembly.instantiateStreaming;
  WebAssembly.instantiateStreaming = async (source, imports) => {
    const made = await real(source, imports);
    seen = Object.values(made.instance.exports).find((one) => one instanceof WebAssembly.Memory) ?? null;
    return made;
  };
  return () => (seen === null ? null : new Uint8Array(seen.buffer));
}

/**
 * The engine frees in its memory what the page let go of. Nothing is handed to the page here but `call`, and in a memory that was
 * taken up it would free what is not its own: so it is not to.
 */
class NoTidying {
  register(): void {}
  unregister(): boolean {
    return false;
  }
}

/** `hatch_build.py` packs them: a line of JSON with names and lengths, then the bytes. */
function unpacked(bytes: Uint8Array): Files {
  const line = bytes.indexOf(10);
  const lengths = JSON.parse(new TextDecoder().decode(bytes.subarray(0, line))) as Record<string, number>;
  let at = line + 1;
  return Object.entries(lengths).map(([name, length]) => {
    at += length;
    return [name, bytes.subarray(at - length, at)];
  });
}

async function fetchFiles(): Promise<Files> {
  const response = await fetch(packed);
  if (!response.ok) throw new Error(`${packed}: ${response.status}`);
  return unpacked(new Uint8Array(await response.arrayBuffer()));
}

async function start(): Promise<(message: string) => string> {
  const program = self.location.pathname;
  const memory = watchMemory();
  Object.assign(globalThis, { FinalizationRegistry: NoTidying });
  // The engine's files make errors as a matter of course; looking where each came from would have all of its script read again.
  Object.assign(Error, { stackTraceLimit: 0 });
  const [engine, image] = await Promise.all([loadMicroPython({ url: wasm, heapsize: HEAP }), prepared(program, "engine")]);
  const fresh = memory();
  if (image !== null && fresh !== null && takeUp(fresh, image)) return engine.globals.get("call");
  engine.FS.mkdir("/pinchbolt");
  engine.FS.mkdir("/pinchbolt/kernel");
  for (const [name, bytes] of await fetchFiles()) engine.FS.writeFile(`/pinchbolt/kernel/${name}`, bytes);
  engine.runPython(`import gc, sys\nsys.path.append('/pinchbolt')\nfrom kernel.calls import call\ngc.threshold(${TIDY_AFTER})`);
  const made = memory();
  if (made !== null) void prepare(program, "engine", pagesOf(made));
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
