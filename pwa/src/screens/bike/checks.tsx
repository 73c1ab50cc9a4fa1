/** The checks of a bike: to start one, to go on with one, and what the past ones came to. */

import { useEffect, useState } from "preact/hooks";
import { LevelSign } from "../../controls/finding";
import { Mark } from "../../controls/mark";
import type { BikeState, CheckState } from "../../kernel/types";
import { said } from "../../languages/spoken";
import { words } from "../../words";
import { draftsOf, type HalfDone } from "../check/half-done";
import { useChecks } from "../loading";
import { spaced } from "../names";
import { nameOf, whenOf } from "../when";
import { answers, runsWorkshop } from "../who";
import "./checks.css";
import { Shown } from "../check/shots";
import { BikePage, useBikeId } from "./frame";
import { Trend } from "./rider";

export function Checks() {
  const id = useBikeId();
  const checks = useChecks();
  const [half, setHalf] = useState<Record<string, HalfDone>>({});
  useEffect(() => {
    void draftsOf(`bike/${id}`).then(setHalf);
  }, [id]);
  return (
    <BikePage tab="checks">
      {({ state }) => (
        <>
          <section class="part">
            <h2>{words.checks.start}</h2>
            <ul class="ruled check-kinds">
              {(checks ?? []).filter(answers).map((check) => {
                const begun = half[check.check];
                const joints = Object.keys(state.joints).length;
                const items = check.items.length === 0 ? joints : check.items.length;
                return (
                  <li key={check.check}>
                    <a class="check-kind" href={`/bike/${id}/check/${check.check}`}>
                      <strong>{said(check.title)}</strong>
                      <span class="figure">{words.checks.items(items)}</span>
                      <span class="quiet">{said(check.purpose)}</span>
                      {begun === undefined ? null : (
                        <span class="check-begun">
                          {words.checks.begun(whenOf(begun.startedAt), Object.keys(begun.answers).length)}
                        </span>
                      )}
                    </a>
                  </li>
                );
              })}
            </ul>
          </section>
          {runsWorkshop() ? (
            <div class="buttons">
              <a class="button small" href={`/bike/${id}/rider`}>
                {words.rider.letIn}
              </a>
              <a class="button small" href="/checks">
                {words.book.title}
              </a>
            </div>
          ) : null}
          <Trend state={state} />
          <section class="part">
            <h2>{words.checks.past}</h2>
            {state.checks.length === 0 ? <p>{words.checks.nonePast}</p> : null}
            <ul class="ruled">
              {state.checks.map((check) => (
                <Past key={check.entry} check={check} photos={state.photos.filter((photo) => photo.about === check.entry)} />
              ))}
            </ul>
          </section>
        </>
      )}
    </BikePage>
  );
}

function Past({ check, photos }: { check: CheckState; photos: BikeState["photos"] }) {
  return (
    <li class="past-check">
      <div class="past-head">
        <strong>{check.title === undefined ? spaced(check.check) : said(check.title)}</strong>
        <Mark verdict={check.verdict} scope={check.scope} />
      </div>
      <p class="quiet">
        {whenOf(check.at)} · {nameOf(check.by)}
      </p>
      {check.reasons.length > 0 && (
        <ul class="reasons">
          {check.reasons.map((reason) => (
            <li key={reason.text}>
              <LevelSign level={reason.level} />
              {said(reason.text)}
            </li>
          ))}
        </ul>
      )}
      {photos.length > 0 && (
        <div class="shots">
          {photos.map((photo) => (
            <Shown key={photo.entry} sha256={String(photo.sha256)} alt={words.photo.of(String(photo.caption ?? ""))} />
          ))}
        </div>
      )}
    </li>
  );
}
