import { render } from "preact";
import { App } from "./app";
import { startDevice, startServiceWorker } from "./device";
import { kernel } from "./kernel/client";
import { refreshIdentity } from "./store/pairing";
import { startSync } from "./store/sync";

const root = document.getElementById("app");
if (root === null) throw new Error("the page has no #app");
render(<App />, root);
startDevice();
kernel.warm();

// Two frames on, the first paint is done; everything after may take its time.
requestAnimationFrame(() =>
  requestAnimationFrame(() => {
    startSync();
    void startServiceWorker();
    void refreshIdentity();
  }),
);
