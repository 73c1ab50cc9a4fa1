/** A sheet laid over the work from below: one thing to answer, then it is gone. */

import type { ComponentChildren } from "preact";
import { useId, useLayoutEffect, useRef } from "preact/hooks";
import { words } from "../words";
import { useBack } from "./back";
import "./sheet.css";

interface Props {
  title: string;
  onClose: () => void;
  children: ComponentChildren;
  onKeyDown?: (event: KeyboardEvent) => void;
}

export function Sheet({ title, onClose, children, onKeyDown }: Props) {
  const dialog = useRef<HTMLDialogElement>(null);
  const id = useId();
  useBack(onClose);
  useLayoutEffect(() => {
    const shown = dialog.current;
    shown?.showModal();
    return () => shown?.close();
  }, []);
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: a touch beside the sheet closes it; the keyboard has Escape
    <dialog
      class="laid"
      ref={dialog}
      aria-labelledby={id}
      {...(onKeyDown ? { onKeyDown } : {})}
      onCancel={(event) => {
        event.preventDefault();
        onClose();
      }}
      onClick={(event) => {
        if (event.target === dialog.current) onClose();
      }}
    >
      <div class="laid-inside">
        <header class="laid-head">
          <h2 id={id}>{title}</h2>
          <button type="button" class="plain" onClick={onClose}>
            {words.close}
          </button>
        </header>
        {children}
      </div>
    </dialog>
  );
}
