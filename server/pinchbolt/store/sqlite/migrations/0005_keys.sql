-- A device's public key for signing, and up to which n its entries were held when the key was made known.
CREATE TABLE keys (
  device TEXT NOT NULL,
  kid TEXT NOT NULL,
  x TEXT NOT NULL,
  y TEXT NOT NULL,
  enrolled_at TEXT NOT NULL,
  after_n INTEGER NOT NULL,
  PRIMARY KEY (device, kid)
) WITHOUT ROWID;

-- Heads of chains as their devices signed them.
CREATE TABLE heads (
  device TEXT NOT NULL,
  n INTEGER NOT NULL,
  kid TEXT NOT NULL,
  hash TEXT NOT NULL,
  signature TEXT NOT NULL,
  received_at TEXT NOT NULL,
  PRIMARY KEY (device, n, kid)
) WITHOUT ROWID;
