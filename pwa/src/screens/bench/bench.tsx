/** The bench: calculations in drawers by family. */

import { useEffect, useState } from "preact/hooks";
import { TextField } from "../../controls/text-field";
import { kernel } from "../../kernel/client";
import type { Calculation } from "../../kernel/types";
import { keep } from "../../store/drafts";
import { words } from "../../words";
import { spaced } from "../names";
import { Page } from "../shell/page";
import "../../controls/drawer.css";
import "./bench.css";

const open = keep.kept<Record<string, boolean>>("bench drawers", {});

export function Bench() {
  const calculations = useCalculations();
  const [search, setSearch] = useState("");
  const sought = search.trim().toLocaleLowerCase();
  const found = (calculations ?? []).filter((one) =>
    `${one.title} ${one.question} ${one.family} ${one.inputs.map((input) => input.label).join(" ")}`
      .toLocaleLowerCase()
      .includes(sought),
  );
  const families = [...new Set((calculations ?? []).map((one) => one.family))];
  return (
    <Page place="bench" title={words.places.bench}>
      <TextField label={words.bench.search} type="search" value={search} onChange={setSearch} hideLabel />
      {calculations === undefined ? <p class="quiet">{words.bench.starting}</p> : null}
      {sought !== "" ? (
        <>
          <Drawer calculations={found} />
          {found.length === 0 ? <p>{words.bench.noneFound(search)}</p> : null}
        </>
      ) : (
        <div class="drawers">
          {families.map((family) => {
            const inside = (calculations ?? []).filter((one) => one.family === family);
            return (
              <details
                key={family}
                class="drawer"
                open={open.value[family] ?? false}
                onToggle={(event) => {
                  const shown = event.currentTarget.open;
                  if ((open.peek()[family] ?? false) !== shown) open.value = { ...open.peek(), [family]: shown };
                }}
              >
                <summary>
                  <span class="drawer-name">{words.families[family] ?? spaced(family)}</span>
                  <span class="figure">{inside.length}</span>
                </summary>
                <Drawer calculations={inside} />
              </details>
            );
          })}
        </div>
      )}
    </Page>
  );
}

function Drawer({ calculations }: { calculations: Calculation[] }) {
  return (
    <ul class="ruled">
      {calculations.map((one) => (
        <li key={one.id}>
          <a class="drawer-line" href={`/bench/${one.id}`}>
            <strong>{one.title}</strong>
            <span class="quiet">{one.question}</span>
          </a>
        </li>
      ))}
    </ul>
  );
}

export function useCalculations(): Calculation[] | undefined {
  const [found, setFound] = useState<Calculation[] | undefined>(undefined);
  const [failed, setFailed] = useState<unknown>(null);
  useEffect(() => {
    let over = false;
    kernel.declarations().then(
      (all) => {
        if (!over) setFound(all);
      },
      (error: unknown) => {
        if (!over) setFailed(error);
      },
    );
    return () => {
      over = true;
    };
  }, []);
  if (failed !== null) throw failed;
  return found;
}
