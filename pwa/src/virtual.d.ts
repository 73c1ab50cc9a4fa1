declare module "@micropython/micropython-webassembly-pyscript/micropython.mjs" {
  interface Engine {
    FS: { mkdir(path: string): void; writeFile(path: string, data: Uint8Array): void };
    globals: { get(name: string): (message: string) => string };
    runPython(code: string): unknown;
  }
  export function loadMicroPython(options: {
    url?: string;
    heapsize?: number;
    linebuffer?: boolean;
    stdout?: (line: string) => void;
    stderr?: (line: string) => void;
  }): Promise<Engine>;
}

/** The program's version, from pyproject.toml. */
declare const __VERSION__: string;

/** Background Sync, where the browser has it; not yet in TypeScript's own declarations. */
interface SyncManager {
  register(tag: string): Promise<void>;
}

interface ServiceWorkerRegistration {
  readonly sync?: SyncManager;
}
