-- What a device said waits on it, when its time ends, and the token it had when it was shut out (so that it can be told).
ALTER TABLE devices ADD COLUMN unsent INTEGER;
ALTER TABLE devices ADD COLUMN until INTEGER;
ALTER TABLE devices ADD COLUMN revoked_token TEXT;
CREATE INDEX devices_revoked ON devices (revoked_token);
-- When the time of the device that is paired with this code ends.
ALTER TABLE codes ADD COLUMN until INTEGER;
ALTER TABLE people ADD COLUMN forgotten_at INTEGER;
CREATE TABLE passphrases (
  person TEXT PRIMARY KEY REFERENCES people (id),
  hash TEXT NOT NULL,
  set_at INTEGER NOT NULL
) WITHOUT ROWID;
