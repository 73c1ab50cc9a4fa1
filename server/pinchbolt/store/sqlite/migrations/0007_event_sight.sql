-- A checker may be let in for one event: the code says which, then the device. They see what is granted to the event itself.
ALTER TABLE codes ADD COLUMN event TEXT;
ALTER TABLE devices ADD COLUMN event TEXT;
INSERT OR IGNORE INTO grants (audience, subject, at)
  SELECT subject, subject, at FROM grants WHERE audience = 'checkers' AND subject LIKE 'event/%';
INSERT OR IGNORE INTO grants (audience, subject, at)
  SELECT e.subject, 'bike/' || json_extract(CAST(e.bytes AS TEXT), '$.body.bike'), e.seq FROM entries e
  WHERE e.kind = 'start' AND json_extract(CAST(e.bytes AS TEXT), '$.body.bike') IS NOT NULL;
