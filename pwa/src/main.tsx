import { effect } from "@preact/signals";
import { render } from "preact";
import { App } from "./app";
import { guardUnsent, startDevice, startServiceWorker } from "./device";
import { kernel } from "./kernel/client";
import { startLanguage } from "./languages/chosen";
import { startNotices } from "./notices";
import { refreshIdentity } from "./store/pairing";
import { startPhotos } from "./store/photos";
import { startSync, waiting } from "./store/sync";

/** Milliseconds after which the start is over and what is only wanted later may begin. */
const AT_REST = 1500;

/** Kept while there is a signal, so that codes can be read where there is none. */
async function warmReader(): Promise<void> {
  const { warmDetector } = await import("./screens/lineup/detector");
  await warmDetector();
}

const root = document.getElementById("app");
if (root === null) throw new Error("the page has no #app");
kernel.warm();

/** In a task of its own: reading the program and drawing the first sheet together would hold up a touch twice as long. */
function begin(within: Element): void {
  setTimeout(() => {
    render(<App />, within);
    startDevice();
    afterFirstPaint();
  });
}

/** Two frames on, the first paint is done; everything after may take its time. */
function afterFirstPaint(): void {
  requestAnimationFrame(() => requestAnimationFrame(startRest));
}

function startRest(): void {
  startSync();
  effect(() => {
    if (waiting() > 0) void guardUnsent();
  });
  startPhotos();
  startNotices();
  const serving = startServiceWorker();
  void refreshIdentity();
  setTimeout(() => {
    // The sheet most wanted next is fetched before it is asked for.
    void import("./screens/bike/now").catch(() => undefined);
    void serving.then(warmReader);
  }, AT_REST);
}

const words = startLanguage();
if (words === null) begin(root);
else void words.then(() => begin(root));
