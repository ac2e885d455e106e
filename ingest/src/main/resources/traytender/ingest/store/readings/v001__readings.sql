-- A probe's id as the site file writes it, once; readings carry the small number.
CREATE TABLE probe (
    number INTEGER PRIMARY KEY,
    id     TEXT NOT NULL UNIQUE
);

-- One row a reading. The key is its identity, and keeps one probe's readings side by side in order of time.
CREATE TABLE reading (
    probe   INTEGER NOT NULL REFERENCES probe (number),
    time_ms INTEGER NOT NULL,
    raw     REAL    NOT NULL,
    marks   INTEGER NOT NULL,
    PRIMARY KEY (probe, time_ms)
) WITHOUT ROWID;
