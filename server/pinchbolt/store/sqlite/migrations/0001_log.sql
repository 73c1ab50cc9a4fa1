CREATE TABLE entries (
  seq INTEGER PRIMARY KEY AUTOINCREMENT,
  id TEXT NOT NULL UNIQUE,
  subject TEXT NOT NULL,
  device TEXT NOT NULL,
  n INTEGER NOT NULL,
  kind TEXT NOT NULL,
  stamp TEXT NOT NULL,
  hash TEXT NOT NULL,
  received_at TEXT NOT NULL,
  bytes BLOB NOT NULL,
  UNIQUE (device, n)
);
-- The rowid stands behind the subject in this index, so one subject's entries are a range in the order of seq.
CREATE INDEX entries_subject ON entries (subject);

-- Refused entries. With `placed`, the entry keeps its place in the chain of its device.
CREATE TABLE quarantine (
  number INTEGER PRIMARY KEY,
  device TEXT NOT NULL,
  n INTEGER,
  hash TEXT NOT NULL,
  placed INTEGER NOT NULL,
  received_at TEXT NOT NULL,
  problems TEXT NOT NULL,
  bytes BLOB NOT NULL,
  UNIQUE (device, hash)
);
CREATE UNIQUE INDEX quarantine_place ON quarantine (device, n) WHERE placed = 1;

CREATE VIEW places AS
  SELECT device, n, hash, seq, bytes FROM entries
  UNION ALL
  SELECT device, n, hash, NULL AS seq, bytes FROM quarantine WHERE placed = 1;

-- The highest n held of each device, and the numbers missing below it.
CREATE TABLE chains (device TEXT PRIMARY KEY, top INTEGER NOT NULL) WITHOUT ROWID;
CREATE TABLE gaps (
  device TEXT NOT NULL,
  low INTEGER NOT NULL,
  high INTEGER NOT NULL,
  PRIMARY KEY (device, low)
) WITHOUT ROWID;

-- Who sees a subject beside those who see everything: a person, or 'checkers'. `at` is the seq that brought the grant.
CREATE TABLE grants (
  audience TEXT NOT NULL,
  subject TEXT NOT NULL,
  at INTEGER NOT NULL,
  PRIMARY KEY (audience, subject)
) WITHOUT ROWID;
CREATE INDEX grants_subject ON grants (subject);
