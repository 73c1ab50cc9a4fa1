/** The workshop's checks: those shipped, and its own. A shipped one is copied before it is changed. */

import { useLocation } from "preact-iso";
import type { CheckDefinition } from "../../kernel/types";
import { said } from "../../languages/spoken";
import { keep } from "../../store/drafts";
import { words } from "../../words";
import { useChecks } from "../loading";
import { Page } from "../shell/page";
import { runsWorkshop } from "../who";
import { blankCheck, copyOf, isOwn } from "./definition";
import { DRAFT } from "./edit";
import "./checks.css";

export function Book() {
  const checks = useChecks();
  const { route } = useLocation();
  const edit = async (made: CheckDefinition) => {
    await keep.set(DRAFT + made.check, made);
    route(`/checks/${made.check}`);
  };
  const own = (checks ?? []).filter(isOwn);
  const shipped = (checks ?? []).filter((one) => !isOwn(one));
  return (
    <Page
      place="bikes"
      title={words.book.title}
      from={[{ href: "/", text: words.places.bikes }]}
      foot={
        runsWorkshop() ? (
          <div class="foot-act">
            <button type="button" class="button" onClick={() => void edit(blankCheck())}>
              {words.book.blank}
            </button>
          </div>
        ) : null
      }
    >
      {checks === undefined ? <p class="quiet">{words.reading}</p> : null}
      <section class="part">
        <h2>{words.book.own}</h2>
        {own.length === 0 ? <p>{words.book.noneOwn}</p> : null}
        <ul class="ruled">
          {own.map((check) => (
            <li key={check.check}>
              <a class="book-line" href={`/checks/${check.check}`}>
                <strong>{said(check.title)}</strong>
                <span class="figure">{words.book.version(check.version, check.items.length)}</span>
                <span class="quiet">{said(check.purpose)}</span>
              </a>
            </li>
          ))}
        </ul>
      </section>
      <section class="part">
        <h2>{words.book.shipped}</h2>
        <ul class="ruled">
          {shipped.map((check) => (
            <li key={check.check} class="book-line">
              <strong>{said(check.title)}</strong>
              {runsWorkshop() && check.items.length > 0 ? (
                <button type="button" class="button small" onClick={() => void edit(copyOf(check))}>
                  {words.book.copy}
                  <span class="unseen"> {said(check.title)}</span>
                </button>
              ) : null}
              <span class="quiet">{said(check.purpose)}</span>
            </li>
          ))}
        </ul>
      </section>
    </Page>
  );
}
