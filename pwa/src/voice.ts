/** Reading aloud, and a sound that says no: for hands that are busy and eyes that are on the bike. */

import { keep } from "./store/drafts";

/** Whether each item is read out as it comes up. Off until somebody asks for it. */
export const readsOut = keep.kept("voice", false);

export const canSpeak = "speechSynthesis" in globalThis;

/** Say it now; whatever is being said stops. */
export function say(text: string): void {
  if (!canSpeak) return;
  hush();
  const spoken = new SpeechSynthesisUtterance(text);
  spoken.lang = document.documentElement.lang || "en";
  speechSynthesis.speak(spoken);
}

export function hush(): void {
  if (canSpeak) speechSynthesis.cancel();
}

let sound: AudioContext | null = null;

/** Two low tones, for a fail. Only ever from a touch, which is when browsers let a page sound. */
export function soundFail(): void {
  try {
    sound ??= new AudioContext();
    void sound.resume();
    const now = sound.currentTime;
    for (const [at, pitch] of [
      [0, 330],
      [0.18, 220],
    ] as const) {
      const tone = sound.createOscillator();
      const loud = sound.createGain();
      tone.frequency.value = pitch;
      loud.gain.setValueAtTime(0.2, now + at);
      loud.gain.exponentialRampToValueAtTime(0.001, now + at + 0.16);
      tone.connect(loud).connect(sound.destination);
      tone.start(now + at);
      tone.stop(now + at + 0.17);
    }
  } catch {
    // No sound on this machine: the buzz, the mark and the words say it too.
  }
}
