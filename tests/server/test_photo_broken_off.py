"""An upload that breaks off leaves nothing behind, holds no entry up, and goes through the next time."""

import socket
from pathlib import Path
from urllib.parse import urlsplit

from pinchbolt.workshop import PHOTOS, Workshop
from pinchbolt.writer import Writer, batch
from tests.server import running
from tests.server.hands import BENCH, note
from tests.server.test_photos import naming, picture, sha


def test_a_photo_broken_off_halfway_is_sent_again(tmp_path: Path):
    data = tmp_path / "data"
    shot = picture()
    log = tmp_path / "log"
    with running.server(data, log=log) as served:
        client = running.pair(served.url, served.code, BENCH)
        pen = Writer(BENCH, client.get("/api/me").json()["person"]["id"])
        assert running.push(client, batch(BENCH, [naming(pen, shot)]))["answers"][0]["outcome"] == "stored"
        address = urlsplit(served.url)
        cookie = "; ".join(f"{c.name}={c.value}" for c in client.cookies.jar)
        head = f"PUT /api/photos/{sha(shot)} HTTP/1.1\r\nHost: {address.netloc}\r\nCookie: {cookie}\r\n"
        head += f"Pinchbolt-Protocol: 1\r\nContent-Type: image/jpeg\r\nContent-Length: {len(shot)}\r\n\r\n"
        with socket.create_connection((address.hostname or "", address.port or 0)) as wire:
            wire.sendall(head.encode() + shot[: len(shot) // 2])
        assert client.get("/api/photos/" + sha(shot)).status_code == 404
        assert not [file for file in (data / PHOTOS).rglob("*") if file.is_file()]
        assert running.push(client, batch(BENCH, [note(pen)]))["answers"][0]["outcome"] == "stored"
        assert client.put("/api/photos/" + sha(shot), content=shot).json() == {"outcome": "stored"}
        assert client.get("/api/photos/" + sha(shot)).content == shot
        client.close()
    # Somebody went out of reach: that is nobody's error.
    assert "unexpected error" not in log.read_text(encoding="utf-8")


def test_verify_names_a_photo_that_is_not_what_its_name_says(tmp_path: Path):
    shot = picture()
    with Workshop(tmp_path) as workshop:
        assert workshop.photos.put(sha(shot), shot)
        assert list(workshop.verify()) == []
        (file,) = (f for f in (tmp_path / PHOTOS).rglob("*") if f.is_file())
        file.write_bytes(shot[:-1] + bytes([shot[-1] ^ 1]))
        assert [broken.where for broken in workshop.verify()] == [f"photo {sha(shot)}"]
