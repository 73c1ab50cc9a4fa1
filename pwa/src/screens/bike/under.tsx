/** A sheet beneath a bike's Now: its way back leads there. */

import type { ComponentChildren } from "preact";
import { words } from "../../words";
import { type BikeNow, useBike } from "../loading";
import { Page } from "../shell/page";
import { useBikeId } from "./frame";

interface Props {
  title: string;
  foot?: (bike: BikeNow) => ComponentChildren;
  children: (bike: BikeNow) => ComponentChildren;
}

export function UnderBike({ title, foot, children }: Props) {
  const id = useBikeId();
  const bike = useBike(id);
  const from = [
    { href: "/", text: words.places.bikes },
    { href: `/bike/${id}`, text: bike?.state.described.name ?? words.bikes.unnamed },
  ];
  return (
    <Page place="bikes" title={title} from={from} foot={bike ? foot?.(bike) : undefined}>
      {bike ? children(bike) : bike === null ? <p>{words.bikes.notHereHelp}</p> : <p class="quiet">{words.reading}</p>}
    </Page>
  );
}
