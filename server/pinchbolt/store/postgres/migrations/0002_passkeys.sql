-- An owner's passkeys (WebAuthn): public keys only. A challenge is good once, for minutes.
CREATE TABLE passkeys (
  credential text COLLATE "C" PRIMARY KEY,
  person uuid NOT NULL REFERENCES people (id),
  key text NOT NULL,
  uses bigint NOT NULL,
  added_at bigint NOT NULL
);
CREATE TABLE challenges (challenge text COLLATE "C" PRIMARY KEY, expires_at bigint NOT NULL);
