/** What was found at a place: fine, care or stop, in words, with a sign by shape. */

import { words } from "../words";
import "./finding.css";

export type Level = "fine" | "care" | "stop" | "open" | "coming";

export function Finding({ level, text }: { level: Level; text: string }) {
  return (
    <p class={`finding finding-${level}`}>
      <LevelSign level={level} />
      <span>
        <span class="unseen">{words.levels[level]}: </span>
        {text}
      </span>
    </p>
  );
}

/** A filled bar stops, a gap warns, a ring is fine, dashes are open. */
export function LevelSign({ level }: { level: Level }) {
  return (
    <svg class={`level-sign level-${level}`} width="20" height="20" viewBox="0 0 20 20" aria-hidden="true" focusable="false">
      {level === "stop" && <path d="M10 2 A8 8 0 1 1 9.9 2 M3 10 H17" />}
      {level === "care" && <path d="M14.6 3.4 A8 8 0 1 1 5.4 3.4" />}
      {level === "fine" && <circle cx="10" cy="10" r="8" />}
      {(level === "open" || level === "coming") && <circle cx="10" cy="10" r="8" stroke-dasharray="4.2 4.2" />}
    </svg>
  );
}
