-- Which life of the log this is: a restore begins a new one, and phones that see it offer again what they wrote.
CREATE TABLE lives (epoch TEXT NOT NULL);
INSERT INTO lives VALUES (lower(hex(randomblob(16))));
