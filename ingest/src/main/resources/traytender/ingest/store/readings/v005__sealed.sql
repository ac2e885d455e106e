-- Days that are over: a run of one probe's readings in one row, as the README of ingest draws it. Runs of one probe never
-- overlap; a late reading stays in the table reading until its day is sealed anew.
CREATE TABLE sealed (
    number   INTEGER PRIMARY KEY,
    probe    INTEGER NOT NULL REFERENCES probe (number),
    first_ms INTEGER NOT NULL,
    last_ms  INTEGER NOT NULL,
    readings INTEGER NOT NULL,
    content  BLOB    NOT NULL
);
CREATE UNIQUE INDEX sealed_in_order ON sealed (probe, last_ms);
