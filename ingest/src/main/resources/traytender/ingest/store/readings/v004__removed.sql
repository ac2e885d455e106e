-- Before this time readings may have been removed here; a long-term database, where there is one, has them. One row at most.
CREATE TABLE removed (
    before_ms INTEGER PRIMARY KEY
);
