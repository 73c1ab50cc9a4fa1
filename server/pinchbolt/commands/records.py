"""`pinchbolt export`, `import`, `verify`: the log as lines of a file, and whether it is whole."""

import sys
from collections.abc import Iterator
from pathlib import Path

import click
import msgspec
from msgspec import Raw, Struct

from pinchbolt.access.people import Device
from pinchbolt.commands.opening import opened, workshop_of
from pinchbolt.commands.options import FOUND_WRONG, refuse, setting_options, settings_from
from pinchbolt.entries.batch import MOST_ENTRIES
from pinchbolt.kernel.errors import InputError
from pinchbolt.kernel.errors import refuse as refusal
from pinchbolt.store.log import Placed
from pinchbolt.store.pulling import one
from pinchbolt.workshop import Workshop


@click.command()
@click.option("--subject", help="Only this one: bike/UUID, event/UUID or workshop.")
@click.option("--proof", is_flag=True, help="With what an outsider needs to check it: refused links, keys, signatures.")
@setting_options("data", "database")
def export(subject: str | None, proof: bool, **options: str | None) -> None:
    """Write the entries to standard output, one a line, their bytes as the devices wrote them."""
    if proof and subject is not None:
        raise click.UsageError("--proof is of the whole log: a chain runs through all subjects")
    out = sys.stdout.buffer
    with opened(options) as workshop:
        for held in workshop.log.everything(subject):
            out.write(one(held) + b"\n")
        if proof:
            out.writelines(proof_lines(workshop))


def proof_lines(workshop: Workshop) -> Iterator[bytes]:
    """What stands beside the entries: refused ones that keep a place in a chain, the keys, the signed heads."""
    for held in workshop.log.refused():
        yield b'{"received_at":"%s","refused":%s}\n' % (held.received_at.encode(), held.raw)
    keys, heads = workshop.keys.everything()
    for key in keys:
        yield msgspec.json.encode({"key": key}) + b"\n"
    for signed in heads:
        head = {"device": signed.device, "kid": signed.kid, **msgspec.structs.asdict(signed.head)}
        yield msgspec.json.encode({"head": {**head, "received_at": signed.received_at}}) + b"\n"


class _Line(Struct):
    """A line of a file: an entry, an entry with its place (as exported), or a batch (as a phone saves its queue)."""

    entry: Raw = Raw()
    refused: Raw = Raw()
    # A device makes its key known itself; a file cannot speak for it.
    key: Raw = Raw()
    head: Raw = Raw()
    entries: list[Raw] = []


class _Writer(Struct):
    device: str
    by: str


_read_line = msgspec.json.Decoder(_Line).decode
_read_writer = msgspec.json.Decoder(_Writer).decode


@click.command("import")
@click.argument("file", type=click.Path(exists=True, dir_okay=False, path_type=Path))
@click.option("--adopt", is_flag=True, help="Take in devices not known here, and their people as mechanics without a name.")
@setting_options("data", "database")
def import_(file: Path, adopt: bool, **options: str | None) -> None:
    """Take in entries from FILE, one a line, of any device, with the same rules as a push.

    Lines are entries, lines of an export, or batches such as a phone saves when it cannot send. Each entry is taken if the
    person of the device that wrote it might push it now, also when the device was shut out since: the file is your decision.
    What is known already is passed over. With --adopt nothing but the file says who wrote it: only for a file you trust.
    Exit code 1 when an entry was refused.
    """
    counts = {"stored": 0, "known": 0, "refused": 0}
    with workshop_of(settings_from(**options)) as workshop:
        try:
            for device, batch in _batches(file):
                pushed = workshop.take(_writing(workshop, device, batch[0], adopt), batch).result()
                for answer in pushed.answers:
                    counts[answer.outcome] += 1
                    _tell(device, answer)
        except InputError as error:
            refuse(error)
    click.echo(", ".join(f"{count} {outcome}" for outcome, count in counts.items()))
    if counts["refused"]:
        raise SystemExit(FOUND_WRONG)


def _batches(file: Path) -> Iterator[tuple[str, list[bytes]]]:
    """The entries of the file in runs of one device."""
    device, run = "", list[bytes]()
    for number, text in enumerate(file.read_bytes().splitlines(), start=1):
        for raw in _entries(text, number):
            writer = _writer(raw, number).device
            if run and (writer != device or len(run) >= MOST_ENTRIES):
                yield device, run
                run = []
            device = writer
            run.append(raw)
    if run:
        yield device, run


def _entries(text: bytes, number: int) -> list[bytes]:
    if not text.strip():
        return []
    try:
        line = _read_line(text)
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError):
        raise refusal(f"line {number}", text[:60].decode("utf-8", "replace"), "an entry in JSON") from None
    if line.entries:
        return [bytes(raw) for raw in line.entries]
    if bytes(line.key) or bytes(line.head):
        return []
    return [bytes(line.entry) or bytes(line.refused) or text.strip()]


def _writer(raw: bytes, number: int) -> _Writer:
    try:
        return _read_writer(raw)
    except (msgspec.MsgspecError, UnicodeDecodeError, RecursionError):
        raise refusal(f"line {number}", raw[:60].decode("utf-8", "replace"), "an entry with device and by") from None


def _writing(workshop: Workshop, id: str, raw: bytes, adopt: bool) -> Device:
    """Whose hand the entries are: the import lends them no right that their device and its person have not themselves."""
    device = workshop.people.device(id)
    if device is None:
        if not adopt:
            raise refusal("device", id, "a device known here; --adopt takes in others")
        device = _adopted(workshop, id, _read_writer(raw).by)
    return device


def _adopted(workshop: Workshop, id: str, by: str) -> Device:
    if workshop.people.person(by) is None:
        workshop.people.add_person("Unknown " + by[:8], "mechanic", by)
    return workshop.people.add_device(id, "Imported " + id[:8], by)


def _tell(device: str, answer: Placed) -> None:
    for error in answer.errors or []:
        where = f"device {device}, n {answer.n}"
        click.echo(f"refused: {where}: {error['field']}: given {error['given']}; wanted {error['wanted']}", err=True)


@click.command()
@setting_options("data", "database")
def verify(**options: str | None) -> None:
    """Walk every chain, signature and photo and name what is wrong. Exit code 1 when something is."""
    with opened(options) as workshop:
        for one in workshop.log.vouched():
            older = f", up to n {one.before} from before its key" if one.before else ""
            click.echo(f"device {one.device}: signed up to n {one.signed} of {one.top}{older}")
        wrong = 0
        for broken in workshop.verify():
            wrong += 1
            click.echo(f"{broken.where}: {broken.what}")
        if wrong:
            click.echo(f"{wrong} found wrong", err=True)
            raise SystemExit(FOUND_WRONG)
        click.echo(f"whole, up to seq {workshop.log.top()}")
