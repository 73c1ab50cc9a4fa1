/** When a screen cannot be shown: what happened, and that nothing recorded is lost. */

import { words } from "../../words";
import "../../controls/buttons.css";
import "./page.css";
import { Page } from "./page";

export function Failed({ error }: { error: Error }) {
  return (
    <main id="work">
      <h1>{words.failed.title}</h1>
      <p>{words.failed.kept}</p>
      <p class="problem">{error.message || error.name}</p>
      <a class="button main" href="/" onClick={leave}>
        {words.failed.again}
      </a>
    </main>
  );
}

/** A whole new page: whatever state led here goes with the old one. */
function leave(event: MouseEvent): void {
  event.preventDefault();
  location.assign("/");
}

export function NotFound() {
  return (
    <Page place="bikes" title={words.failed.noSuchSheet} from={[{ href: "/", text: words.places.bikes }]}>
      <p>{words.failed.noSuchSheetHelp}</p>
    </Page>
  );
}
