/** Speech to text, where the phone has it. What it hears goes through the same reading as what is typed. */

import { locale } from "../../languages/chosen";

interface Heard {
  results: ArrayLike<ArrayLike<{ transcript: string }> & { isFinal: boolean }>;
}

interface Recognition {
  lang: string;
  interimResults: boolean;
  maxAlternatives: number;
  onresult: ((event: Heard) => void) | null;
  onerror: ((event: { error: string }) => void) | null;
  onend: (() => void) | null;
  start(): void;
  abort(): void;
}

type Maker = new () => Recognition;

function maker(): Maker | null {
  const all = globalThis as typeof globalThis & { SpeechRecognition?: Maker; webkitSpeechRecognition?: Maker };
  return all.SpeechRecognition ?? all.webkitSpeechRecognition ?? null;
}

export function canListen(): boolean {
  return maker() !== null;
}

export type Deaf = "nothing" | "not-allowed" | "fails";

/** Listen to one sentence. `heard` gets it as it grows; `over` is called once, with what went wrong if anything did. Returns how to stop. */
export function listen(heard: (text: string, final: boolean) => void, over: (why: Deaf | null) => void): () => void {
  const Made = maker();
  if (Made === null) {
    over("fails");
    return () => undefined;
  }
  const recognition = new Made();
  recognition.lang = locale;
  recognition.interimResults = true;
  recognition.maxAlternatives = 1;
  let why: Deaf | null = "nothing";
  recognition.onresult = (event) => {
    const parts = Array.from(event.results);
    why = null;
    heard(
      parts
        .map((part) => part[0]?.transcript ?? "")
        .join(" ")
        .trim(),
      parts.at(-1)?.isFinal ?? false,
    );
  };
  recognition.onerror = ({ error }) => {
    if (error === "not-allowed" || error === "service-not-allowed") why = "not-allowed";
    else if (error !== "no-speech" && error !== "aborted") why = "fails";
  };
  recognition.onend = () => over(why);
  try {
    recognition.start();
  } catch {
    over("fails");
  }
  return () => {
    why = null;
    recognition.abort();
  };
}
