/** A field whose text cannot be taken holds nothing, and what it belongs to must not go on record as if it had been left empty. */

/** The label of the first such field in what is uppermost, brought into sight; null when there is none. */
export function unreadField(): string | null {
  // A question about a form is no form of its own.
  const over = [...document.querySelectorAll("dialog[open]:not(:has([data-of-form]))")].at(-1) ?? document;
  const field = over.querySelector<HTMLElement>("[data-unread]");
  field?.scrollIntoView({ block: "center" });
  return field?.dataset.unread ?? null;
}
