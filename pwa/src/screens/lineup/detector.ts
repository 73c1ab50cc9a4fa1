/** What reads codes: the browser's own, else zxing compiled to WebAssembly, served from here and kept for working offline. */

import wasmAddress from "zxing-wasm/reader/zxing_reader.wasm?url";

interface Reader {
  detect(source: CanvasImageSource): Promise<{ rawValue: string }[]>;
}

interface ReaderMaker {
  new (options: { formats: string[] }): Reader;
  getSupportedFormats(): Promise<string[]>;
}

let made: Promise<Reader> | null = null;

export function detector(): Promise<Reader> {
  made ??= make().catch((error: unknown) => {
    made = null;
    throw error;
  });
  return made;
}

async function native(): Promise<ReaderMaker | null> {
  const own = (globalThis as { BarcodeDetector?: ReaderMaker }).BarcodeDetector;
  if (own === undefined) return null;
  const formats = await own.getSupportedFormats().catch((): string[] => []);
  return formats.includes("qr_code") ? own : null;
}

async function make(): Promise<Reader> {
  const own = await native();
  if (own !== null) return new own({ formats: ["qr_code"] });
  const { BarcodeDetector, prepareZXingModule } = await import("barcode-detector/ponyfill");
  prepareZXingModule({
    overrides: { locateFile: (path: string, prefix: string) => (path.endsWith(".wasm") ? wasmAddress : prefix + path) },
    fireImmediately: false,
  });
  return new BarcodeDetector({ formats: ["qr_code"] }) as Reader;
}

/** On a phone without a reader of its own, fetch the app's while there is a signal: the service worker keeps it. */
export async function warmDetector(): Promise<void> {
  if ((await native()) !== null) return;
  try {
    // Whole before the reader asks for it too: two that ask at once fetch it twice.
    await (await fetch(wasmAddress)).arrayBuffer();
    await detector();
  } catch {
    // There is no signal just now; the next opening tries again.
  }
}
