/** To the next bike: its label under the camera, or its plate typed. A plate nobody knows can be checked all the same. */

import { useState } from "preact/hooks";
import { useLocation } from "preact-iso";
import { Problem } from "../../controls/problem";
import { Sheet } from "../../controls/sheet";
import { TextField } from "../../controls/text-field";
import { buzz } from "../../device";
import { words } from "../../words";
import { Camera } from "./camera";
import type { EventNow } from "./loading";
import { notStartingText } from "./not-starting";
import { readLabel } from "./plate-code";
import { MOST_PLATE, plateIn } from "./start-list-file";

interface Props {
  id: string;
  now: EventNow;
  way: "scan" | "type";
  onWay: (way: "scan" | "type" | null) => void;
}

export function FindPlate({ id, now, way, onWay }: Props) {
  const { route } = useLocation();
  const [typed, setTyped] = useState("");
  const [problem, setProblem] = useState<string | null>(null);
  const to = (plate: string) => route(`/lineup/${id}/plate/${encodeURIComponent(plate)}`);
  const plate = plateIn(typed);
  const known = now.lineup.rows.find((row) => row.plate === plate);
  const withdrawn = known === undefined ? now.event.withdrawn.find((one) => one.plate === plate) : undefined;
  const help = withdrawn === undefined ? words.lineup.unknownPlate : notStartingText(withdrawn);
  const heard = (text: string) => {
    const read = readLabel(text, id);
    if ("plate" in read) {
      buzz();
      to(read.plate);
    } else setProblem(words.lineup.labels[read.problem]);
  };
  return (
    <Sheet title={way === "scan" ? words.lineup.scan : words.lineup.typePlate} onClose={() => onWay(null)}>
      {way === "scan" ? (
        <>
          <Camera onText={heard} />
          <Problem text={problem} />
          <button type="button" class="button wide" onClick={() => onWay("type")}>
            {words.lineup.typePlate}
          </button>
        </>
      ) : (
        <form
          class="form"
          onSubmit={(event) => {
            event.preventDefault();
            if (plate !== "" && plate.length <= MOST_PLATE) to(plate);
          }}
        >
          <TextField
            label={words.lineup.plate}
            value={typed}
            onChange={setTyped}
            help={plate !== "" && known === undefined ? help : undefined}
            problem={plate.length > MOST_PLATE ? words.lineup.file.longPlate(plate.slice(0, MOST_PLATE)) : undefined}
          />
          <button type="submit" class="button main wide" disabled={plate === "" || plate.length > MOST_PLATE}>
            {known === undefined && withdrawn === undefined ? words.lineup.goUnknown : words.lineup.go}
          </button>
        </form>
      )}
    </Sheet>
  );
}
