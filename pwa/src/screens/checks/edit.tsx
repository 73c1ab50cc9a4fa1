/** A check of the workshop's own: its name and purpose, its items in walking order. Half an edit is kept until it is recorded. */

import { useEffect, useState } from "preact/hooks";
import { useLocation, useRoute } from "preact-iso";
import { Choice } from "../../controls/choice";
import { TextField } from "../../controls/text-field";
import type { CheckDefinition, CheckItem } from "../../kernel/types";
import { said } from "../../languages/spoken";
import { keep } from "../../store/drafts";
import { words } from "../../words";
import { useChecks } from "../loading";
import { Page } from "../shell/page";
import { runsWorkshop } from "../who";
import { useWriting } from "../writing";
import { blankItem, bodyOf, checkProblem, isOwn, itemProblem } from "./definition";
import { ItemSheet } from "./item-sheet";
import "./checks.css";
import { Problem } from "../../controls/problem";

export const DRAFT = "check-draft ";

export function EditCheck() {
  const { check = "" } = useRoute().params;
  const { route } = useLocation();
  const checks = useChecks();
  const { write, busy, problem } = useWriting();
  const [draft, setDraft] = useState<CheckDefinition | null>(null);
  const [looked, setLooked] = useState(false);
  const [at, setAt] = useState<number | null>(null);
  const recorded = checks?.find((one) => one.check === check && isOwn(one));
  useEffect(() => {
    if (draft !== null || checks === undefined) return;
    void keep.get<CheckDefinition>(DRAFT + check).then((kept) => {
      setDraft(kept ?? recorded ?? null);
      setLooked(true);
    });
  }, [check, checks, recorded, draft]);
  const from = [
    { href: "/", text: words.places.bikes },
    { href: "/checks", text: words.book.title },
  ];
  if (draft === null || !runsWorkshop()) {
    return (
      <Page place="bikes" title={looked ? words.failed.noSuchSheet : words.reading} from={from}>
        {null}
      </Page>
    );
  }
  const change = (next: CheckDefinition) => {
    setDraft(next);
    void keep.set(DRAFT + check, next);
  };
  const put = (items: CheckItem[]) => change({ ...draft, items });
  const record = async () => {
    const version = (recorded?.version ?? 0) + 1;
    const made = await write(
      [{ subject: "workshop", kind: "check-define", body: bodyOf(draft, version) }],
      words.book.recorded(draft.title, version),
    );
    if (made === null) return;
    await keep.drop(DRAFT + check);
    route("/checks", true);
  };
  const lacking = checkProblem(draft);
  const { items } = draft;
  const shown = at === null ? undefined : items[at];
  return (
    <Page
      place="bikes"
      title={draft.title || words.book.blank}
      from={from}
      foot={
        <div class="foot-act">
          <Problem text={problem} />
          {lacking === "" ? null : <p class="quiet">{lacking}</p>}
          <button type="button" class="button main" disabled={busy || lacking !== ""} onClick={() => void record()}>
            {words.book.record((recorded?.version ?? 0) + 1)}
          </button>
        </div>
      }
    >
      <div class="form">
        <TextField label={words.bikes.name} value={draft.title} onChange={(title) => change({ ...draft, title })} />
        <TextField
          label={words.book.purpose}
          value={draft.purpose}
          onChange={(purpose) => change({ ...draft, purpose })}
          lines
          optional
        />
        <Choice
          label={words.book.who}
          options={[
            { value: "mechanic", label: words.book.mechanic },
            { value: "rider", label: words.roles.rider },
          ]}
          value={draft.who}
          onChange={(who) => change({ ...draft, who, scope: who === "rider" ? "part" : draft.scope })}
        />
        {draft.who === "mechanic" ? (
          <Choice
            label={words.book.scope}
            options={[
              { value: "whole", label: words.book.whole },
              { value: "part", label: words.book.part },
            ]}
            value={draft.scope}
            onChange={(scope) => change({ ...draft, scope })}
          />
        ) : null}
        {draft.scope === "whole" ? <p class="quiet">{words.book.wholeHelp}</p> : null}
      </div>
      <section class="part">
        <h2>{words.checks.items(items.length)}</h2>
        <ol class="ruled">
          {items.map((item, i) => (
            <li key={item.item} class="book-item">
              <button type="button" class="line-button book-open" onClick={() => setAt(i)}>
                <span class="quiet">
                  {said(item.area)}
                  {item.essential ? "" : ` · ${words.check.notEssential}`}
                </span>
                <strong>{said(item.title) || words.book.unnamedItem}</strong>
                {itemProblem(item) === "" ? null : <span class="book-lacks">{itemProblem(item)}</span>}
              </button>
              <button type="button" class="button small" disabled={i === 0} onClick={() => put(moved(items, i))}>
                {words.book.up}
                <span class="unseen"> {said(item.title)}</span>
              </button>
            </li>
          ))}
        </ol>
        <button
          type="button"
          class="button"
          onClick={() => {
            put([...items, blankItem(items.at(-1)?.area ?? "")]);
            setAt(items.length);
          }}
        >
          {words.book.addItem}
        </button>
      </section>
      {shown === undefined || at === null ? null : (
        <ItemSheet
          item={shown}
          areas={[...new Set(items.map((item) => item.area))]}
          onChange={(next) => put(items.map((one, i) => (i === at ? next : one)))}
          onTake={() => {
            setAt(null);
            put(items.filter((_, i) => i !== at));
          }}
          onClose={() => setAt(null)}
        />
      )}
    </Page>
  );
}

/** The item at `i` one step up the walk. */
function moved(items: CheckItem[], i: number): CheckItem[] {
  const next = [...items];
  next.splice(i - 1, 0, ...next.splice(i, 1));
  return next;
}
