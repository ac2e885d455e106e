-- Times are RFC 3339 text in UTC, to the nanosecond. Nothing is ever deleted here: a corrected entry stays and names the entry
-- that took its place, a withdrawn one is marked.
CREATE TABLE entry (
    number      INTEGER PRIMARY KEY AUTOINCREMENT,
    time        TEXT    NOT NULL,
    tray        TEXT    NOT NULL,
    kind        TEXT    NOT NULL,
    detail      TEXT    NOT NULL, -- JSON object, keys in order
    note        TEXT    NOT NULL,
    withdrawn   INTEGER NOT NULL DEFAULT 0,
    replaced_by INTEGER REFERENCES entry (number),
    UNIQUE (time, tray, kind, detail, note)
);

CREATE TABLE alert (
    id        TEXT    PRIMARY KEY,
    kind      TEXT    NOT NULL,
    tray      TEXT,
    room      TEXT,
    zone      TEXT,
    urgency   TEXT    NOT NULL,
    opened    TEXT    NOT NULL,
    closed    TEXT,
    reason    TEXT,
    value     REAL,
    threshold REAL,
    unit      TEXT    NOT NULL,
    probes    TEXT    NOT NULL, -- JSON array of ids
    sowing    TEXT,
    says      TEXT    NOT NULL,
    does      TEXT    NOT NULL,
    expected  TEXT,
    earliest  TEXT,
    latest    TEXT,
    withdrawn INTEGER NOT NULL DEFAULT 0,
    seen      TEXT
) WITHOUT ROWID;
