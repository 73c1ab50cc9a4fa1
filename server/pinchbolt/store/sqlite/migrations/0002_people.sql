-- People and devices are personal data: beside the log, never in it, so that they can be erased.
CREATE TABLE people (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  role TEXT NOT NULL CHECK (role IN ('owner', 'mechanic', 'checker', 'rider')),
  added_at TEXT NOT NULL
) WITHOUT ROWID;

CREATE TABLE devices (
  id TEXT PRIMARY KEY,
  name TEXT NOT NULL,
  person TEXT NOT NULL REFERENCES people (id),
  token TEXT UNIQUE,
  paired_at INTEGER NOT NULL,
  used_at INTEGER NOT NULL,
  revoked_at INTEGER
) WITHOUT ROWID;

CREATE TABLE codes (
  hash TEXT PRIMARY KEY,
  person TEXT NOT NULL REFERENCES people (id),
  expires_at INTEGER NOT NULL
) WITHOUT ROWID;
