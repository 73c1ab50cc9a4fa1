/** Labels for the plates: the number, a QR code that opens the plate's sheet, the rider. On label sheets or plain A4. */

import { useState } from "preact/hooks";
import { useRoute } from "preact-iso";
import { Choice } from "../../controls/choice";
import { words } from "../../words";
import { Page } from "../shell/page";
import { tabsOf } from "./event";
import { useEvent } from "./loading";
import { labelText } from "./plate-code";
import { Qr } from "./qr";
import { nameIn, rowKey } from "./results";
import "./labels.css";
import "./lineup.css";

/** Label sheets by columns and rows on A4, with how many go on one; the sizes in mm follow in the style. */
const SHEETS = { "3x8": 24, "2x7": 14, "1x4": 4 } as const;
type SheetKind = keyof typeof SHEETS;

/** Each sheet of paper by itself: its margins begin anew. */
function sheetsOf<Row>(rows: Row[], most: number): Row[][] {
  const sheets: Row[][] = [];
  for (let from = 0; from < rows.length; from += most) sheets.push(rows.slice(from, from + most));
  return sheets;
}

export function Labels() {
  const id = useRoute().params.id ?? "";
  const now = useEvent(id);
  const [sheet, setSheet] = useState<SheetKind>("3x8");
  const rows = now?.lineup.rows ?? [];
  const name = now?.event.described.name ?? words.lineup.unnamed;
  return (
    <Page
      place="lineup"
      title={name}
      from={[{ href: "/lineup", text: words.places.lineup }]}
      tabs={tabsOf(id, "labels")}
      foot={
        <div class="foot-act">
          <button type="button" class="button main" disabled={rows.length === 0} onClick={() => print()}>
            {words.lineup.print}
          </button>
        </div>
      }
    >
      <div class="labels-choice">
        <Choice
          label={words.lineup.sheet}
          options={(Object.keys(SHEETS) as SheetKind[]).map((one) => ({ value: one, label: words.lineup.sheets[one] }))}
          value={sheet}
          onChange={setSheet}
        />
        <p class="quiet">{words.lineup.sheetHelp}</p>
      </div>
      {sheetsOf(rows, SHEETS[sheet]).map((some, i) => (
        <ul key={some[0]?.plate} class={`labels labels-${sheet}`} aria-label={words.lineup.labelSheet(i + 1)}>
          {some.map((row) => (
            <li key={rowKey(row)} class="label">
              <Qr text={labelText(location.origin, id, row.plate)} label={words.lineup.codeOf(row.plate)} />
              <div class="label-words">
                <strong class="figure">{row.plate}</strong>
                <span>{nameIn(row)}</span>
                <span class="label-event">{name}</span>
              </div>
            </li>
          ))}
        </ul>
      ))}
    </Page>
  );
}
