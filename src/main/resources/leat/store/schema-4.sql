-- Schema 4: the state of the fold that decides who is told when, as of the last commit that changed it.

CREATE TABLE annunciator (
    id    INTEGER PRIMARY KEY CHECK (id = 1),
    state BLOB NOT NULL
) STRICT;
