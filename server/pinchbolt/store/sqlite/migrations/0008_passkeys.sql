-- An owner's passkeys (WebAuthn): public keys only. A challenge is good once, for minutes.
CREATE TABLE passkeys (
  credential TEXT PRIMARY KEY,
  person TEXT NOT NULL REFERENCES people (id),
  key TEXT NOT NULL,
  uses INTEGER NOT NULL,
  added_at INTEGER NOT NULL
) WITHOUT ROWID;
CREATE TABLE challenges (challenge TEXT PRIMARY KEY, expires_at INTEGER NOT NULL) WITHOUT ROWID;
