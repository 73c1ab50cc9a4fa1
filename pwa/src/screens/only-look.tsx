/** What only the workshop's people change: others see it all, with a word why nothing in it can be touched. */

import type { ComponentChildren } from "preact";
import { words } from "../words";
import { runsWorkshop } from "./who";
import "./only-look.css";

export function OnlyLook({ children }: { children: ComponentChildren }) {
  if (runsWorkshop()) return <>{children}</>;
  return (
    <>
      <p class="notice">{words.onlyLook}</p>
      <fieldset class="only-look" disabled>
        {children}
      </fieldset>
    </>
  );
}
