/** A sheet that belongs to a bike's Build: its way back leads there. */

import type { ComponentChildren } from "preact";
import type { ShopState } from "../../kernel/types";
import { words } from "../../words";
import { useBikeId } from "../bike/frame";
import { type BikeNow, useBike, useShop } from "../loading";
import { OnlyLook } from "../only-look";
import { Page } from "../shell/page";
import { runsWorkshop } from "../who";
import { w } from "./words";

interface Props {
  title: string | ((bike: BikeNow) => string);
  /** Where it belongs to; the Build when left out. */
  under?: { href: string; text: string };
  foot?: ComponentChildren | ((bike: BikeNow, shop: ShopState) => ComponentChildren);
  /** Nothing on it is recorded, so everybody may use it. */
  everybodys?: boolean;
  children: (bike: BikeNow, shop: ShopState) => ComponentChildren;
}

export function SheetPage({ title, under, foot, everybodys = false, children }: Props) {
  const id = useBikeId();
  const bike = useBike(id);
  const shop = useShop();
  const name = bike?.state.described.name ?? words.bikes.unnamed;
  const from = [{ href: `/bike/${id}/build`, text: name }, ...(under === undefined ? [] : [under])];
  if (bike === null) {
    return (
      <Page place="bikes" title={words.bikes.notHere} from={[{ href: "/", text: words.places.bikes }]}>
        <p>{words.bikes.notHereHelp}</p>
      </Page>
    );
  }
  if (bike === undefined || shop === undefined) {
    return (
      <Page place="bikes" title={w.build} from={from}>
        <p class="quiet">{words.reading}</p>
      </Page>
    );
  }
  const may = everybodys || runsWorkshop();
  return (
    <Page
      place="bikes"
      title={typeof title === "function" ? title(bike) : title}
      from={from}
      foot={may ? (typeof foot === "function" ? foot(bike, shop) : foot) : undefined}
    >
      {everybodys ? children(bike, shop) : <OnlyLook>{children(bike, shop)}</OnlyLook>}
    </Page>
  );
}
