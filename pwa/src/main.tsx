import { effect } from "@preact/signals";
import { render } from "preact";
import { App } from "./app";
import { guardUnsent, startDevice, startServiceWorker } from "./device";
import { kernel } from "./kernel/client";
import { startNotices } from "./notices";
import { refreshIdentity } from "./store/pairing";
import { startPhotos } from "./store/photos";
import { startSync, syncState } from "./store/sync";

/** Kept while there is a signal, so that codes can be read where there is none. */
async function warmReader(): Promise<void> {
  const { warmDetector } = await import("./screens/lineup/detector");
  await warmDetector();
}

const root = document.getElementById("app");
if (root === null) throw new Error("the page has no #app");
render(<App />, root);
startDevice();
kernel.warm();

// Two frames on, the first paint is done; everything after may take its time.
requestAnimationFrame(() =>
  requestAnimationFrame(() => {
    startSync();
    effect(() => {
      if (syncState.value.unsent > 0) void guardUnsent();
    });
    startPhotos();
    startNotices();
    // The sheet most wanted next is fetched before it is asked for.
    void import("./screens/bike/now").catch(() => undefined);
    void startServiceWorker().then(warmReader);
    void refreshIdentity();
  }),
);
