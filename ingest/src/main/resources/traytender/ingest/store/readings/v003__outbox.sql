-- Readings on their way to the long-term database, in order of arrival. A row goes when the server has taken it, so the first
-- row is the cursor. The value is copied: what the site's own store drops early must still be sent.
CREATE TABLE outbox (
    place   INTEGER PRIMARY KEY AUTOINCREMENT,
    probe   INTEGER NOT NULL REFERENCES probe (number),
    time_ms INTEGER NOT NULL,
    raw     REAL    NOT NULL,
    marks   INTEGER NOT NULL
);

-- Where they are sent to; no row: nowhere.
CREATE TABLE outbox_target (
    target TEXT PRIMARY KEY
) WITHOUT ROWID;

-- What was on disk before the target was named, still to be sent: of each probe the readings from next_ms up to and with last_ms.
CREATE TABLE outbox_history (
    probe   INTEGER PRIMARY KEY REFERENCES probe (number),
    next_ms INTEGER NOT NULL,
    last_ms INTEGER NOT NULL
);

-- What the server refused for good, and its words.
CREATE TABLE outbox_refused (
    probe   INTEGER NOT NULL REFERENCES probe (number),
    time_ms INTEGER NOT NULL,
    raw     REAL    NOT NULL,
    marks   INTEGER NOT NULL,
    reason  TEXT    NOT NULL,
    PRIMARY KEY (probe, time_ms)
) WITHOUT ROWID;
