"""Whether every language has every sentence of the kernel; what is missing, for whoever translates.

    python pwa/build/languages.py            fails and lists what is missing, unknown or put together otherwise
    python pwa/build/languages.py todo de    what de still lacks, as JSON in the kernel's order, to be filled in
    python pwa/build/languages.py all        every sentence, as JSON: for the language of the tests

The app's own words need no such list: their files are typed, and the compiler refuses a missing one.
"""

import json
import re
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))

from sentences import kernel_sentences

LANGUAGES = Path(__file__).resolve().parents[1] / "src" / "languages"
HOLE = re.compile(r"\{(\d+)\}")


def faults(kernel: dict[str, str], told: dict[str, str]) -> list[str]:
    """What is wrong with one language's sentences, a line each."""
    wrong = [f"missing ({where}): {template}" for template, where in kernel.items() if not told.get(template)]
    for template, translation in told.items():
        if template not in kernel:
            wrong.append(f"the kernel does not say: {template}")
        elif translation and set(HOLE.findall(template)) != set(HOLE.findall(translation)):
            wrong.append(f"other places to put in: {template} -> {translation}")
    return wrong


def read(language: str) -> dict[str, str]:
    """The kernel's sentences in a language; empty when it has none yet. A sentence given twice is refused."""

    def once(pairs: list[tuple[str, str]]) -> dict[str, str]:
        told = dict(pairs)
        if len(told) < len(pairs):
            twice = sorted({key for key, _ in pairs if [k for k, _ in pairs].count(key) > 1})
            raise SystemExit(f"{language}/kernel.json: given twice: {twice}")
        return told

    path = LANGUAGES / language / "kernel.json"
    return json.loads(path.read_text(encoding="utf-8"), object_pairs_hook=once) if path.is_file() else {}


def shipped() -> list[str]:
    """The languages there are beside English: a folder each."""
    return sorted(path.parent.name for path in LANGUAGES.glob("*/index.ts"))


def main(arguments: list[str]) -> int:
    # The same on machines whose own encoding is another.
    sys.stdout.reconfigure(encoding="utf-8")  # type: ignore[union-attr]
    kernel = kernel_sentences()
    match arguments:
        case []:
            found = {language: faults(kernel, read(language)) for language in shipped()}
            for language, wrong in found.items():
                sys.stdout.writelines(f"{language}: {line}\n" for line in wrong)
            return 1 if any(found.values()) else 0
        case ["todo", language]:
            told = read(language)
            missing = {template: "" for template in kernel if not told.get(template)}
            sys.stdout.write(json.dumps(missing, ensure_ascii=False, indent=2) + "\n")
            return 0
        case ["all"]:
            sys.stdout.write(json.dumps(list(kernel), ensure_ascii=False) + "\n")
            return 0
        case _:
            sys.stderr.write(__doc__ or "")
            return 2


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
