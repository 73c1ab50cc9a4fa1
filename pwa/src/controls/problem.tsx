/** Why something was not done, said aloud to who cannot see it; nothing while there is nothing to say. */

export function Problem({ text }: { text: string | null }) {
  return text === null ? null : (
    <p class="problem" role="alert">
      {text}
    </p>
  );
}
