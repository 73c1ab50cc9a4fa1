/** The camera looking for a code. The browser's own reader where there is one, else the one that is part of the app. */

import { useEffect, useRef, useState } from "preact/hooks";
import { words } from "../../words";
import { detector } from "./detector";

/** Between two looks: often enough for a steady hand, seldom enough for a warm phone. */
const EVERY = 180;

export function Camera({ onText }: { onText: (text: string) => void }) {
  const video = useRef<HTMLVideoElement>(null);
  const heard = useRef(onText);
  heard.current = onText;
  const [problem, setProblem] = useState<string | null>(null);
  const [ready, setReady] = useState(false);
  useEffect(() => {
    const over = new AbortController();
    let stream: MediaStream | null = null;
    const run = async () => {
      if (!navigator.mediaDevices?.getUserMedia) throw new DOMException("", "NotFoundError");
      stream = await navigator.mediaDevices.getUserMedia({ video: { facingMode: { ideal: "environment" } }, audio: false });
      const shown = video.current;
      if (over.signal.aborted || shown === null) return;
      shown.srcObject = stream;
      await shown.play();
      const reader = await detector();
      setReady(true);
      let last = "";
      while (!over.signal.aborted) {
        const [found] = await reader.detect(shown).catch(() => []);
        // The same text is told once, until something else has been seen.
        if (found !== undefined && found.rawValue !== last) {
          last = found.rawValue;
          if (!over.signal.aborted) heard.current(last);
        }
        await new Promise((resolve) => setTimeout(resolve, EVERY));
      }
    };
    run()
      .catch((error: unknown) => {
        if (!over.signal.aborted) setProblem(cameraSaid(error));
      })
      .finally(() => {
        if (over.signal.aborted) stop(stream);
      });
    return () => {
      over.abort();
      stop(stream);
    };
  }, []);
  if (problem !== null) return <p class="problem">{problem}</p>;
  return (
    <div class="camera">
      <video ref={video} muted playsInline aria-label={words.lineup.camera} />
      <p class="quiet" role="status">
        {ready ? words.lineup.hold : words.lineup.cameraComes}
      </p>
    </div>
  );
}

function stop(stream: MediaStream | null): void {
  for (const track of stream?.getTracks() ?? []) track.stop();
}

function cameraSaid(error: unknown): string {
  const name = error instanceof DOMException ? error.name : "";
  if (name === "NotAllowedError") return words.lineup.cameraNotAllowed;
  if (name === "NotFoundError" || name === "OverconstrainedError") return words.lineup.noCamera;
  return words.lineup.cameraFails;
}
