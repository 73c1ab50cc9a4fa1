/** Giving a file out of the app: shared where the phone can, else saved. */

/** False when the person called it off. */
export async function handOver(file: File, title: string): Promise<boolean> {
  // A desk has a folder for it; a share sheet there is in the way.
  if (!matchMedia("(pointer: fine)").matches && navigator.canShare?.({ files: [file] })) {
    try {
      await navigator.share({ files: [file], title });
      return true;
    } catch (problem) {
      if (problem instanceof DOMException && problem.name === "AbortError") return false;
    }
  }
  const link = document.createElement("a");
  link.href = URL.createObjectURL(file);
  link.download = file.name;
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), 60_000);
  return true;
}
