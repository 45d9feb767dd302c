-- The store of leat, as a new file is made; user_version says of which version.
-- Times end in _us: microseconds since 1970-01-01T00:00:00Z. Pressures are gauge psi.
-- Columns of type ANY hold a number whose every bit must survive (negative zero included), or
-- free text; a text that is no valid Unicode is kept as a blob of UTF-16BE.
-- A body is a record as JSON; a figure in it is [value] or [value, uncertainty], or the reason why
-- there is none: decision 0026.

CREATE TABLE IF NOT EXISTS config (
    hash          TEXT PRIMARY KEY,
    text          ANY NOT NULL,
    first_used_us INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE IF NOT EXISTS run (
    id          INTEGER PRIMARY KEY AUTOINCREMENT,
    started_us  INTEGER NOT NULL,
    ended_us    INTEGER,
    version     TEXT NOT NULL,
    config_hash TEXT NOT NULL REFERENCES config (hash)
) STRICT;

-- samples, ticks: readings and seconds kept at present. idle_s: seconds that the store has seen since
-- the machine was last fed. sealed_ticks, sealed_seq: seconds that are in segments, and the last input
-- that is. Kept up to date by the writer, for counts without a scan.
CREATE TABLE IF NOT EXISTS machine (
    id      INTEGER PRIMARY KEY,
    name    ANY NOT NULL UNIQUE,
    samples INTEGER NOT NULL DEFAULT 0,
    ticks   INTEGER NOT NULL DEFAULT 0,
    idle_s  INTEGER NOT NULL DEFAULT 0,
    sealed_ticks INTEGER NOT NULL DEFAULT 0,
    sealed_seq   INTEGER NOT NULL DEFAULT 0
) STRICT;

-- Words for codes. The writer fills them; they are here for people.
CREATE TABLE IF NOT EXISTS input_kind (
    kind    INTEGER PRIMARY KEY,
    word    TEXT NOT NULL,
    channel TEXT NOT NULL
) STRICT;

CREATE TABLE IF NOT EXISTS quality (
    code   INTEGER PRIMARY KEY,
    word   TEXT NOT NULL,
    trust  TEXT NOT NULL,
    reason TEXT NOT NULL
) STRICT;

-- Everything that a machine's watch was fed within the last hour or so, in the order of feeding.
-- kind: see input_kind. value: a reading's number (NULL when bad), a clock step's former time.
-- detail: the time that a sensor claims for a reading; reason of a loss; an instruction's order as
-- JSON, said by by_whom.
CREATE TABLE IF NOT EXISTS input (
    machine INTEGER NOT NULL REFERENCES machine (id),
    seq     INTEGER NOT NULL,
    kind    INTEGER NOT NULL,
    at_us   INTEGER NOT NULL,
    value   ANY,
    quality INTEGER,
    detail  ANY,
    by_whom ANY,
    PRIMARY KEY (machine, seq)
) STRICT, WITHOUT ROWID;

-- The sparse time index: one entry a second.
CREATE INDEX IF NOT EXISTS input_tick ON input (machine, at_us) WHERE kind = 100;

-- And what it was fed before: the inputs first_seq to last_seq, of the times from_us to to_us, as
-- one block of bytes; src/docs/segment.md says how to read it.
CREATE TABLE IF NOT EXISTS segment (
    machine   INTEGER NOT NULL REFERENCES machine (id),
    first_seq INTEGER NOT NULL,
    last_seq  INTEGER NOT NULL,
    from_us   INTEGER NOT NULL,
    to_us     INTEGER NOT NULL,
    samples   INTEGER NOT NULL,
    ticks     INTEGER NOT NULL,
    body      BLOB NOT NULL
) STRICT;

CREATE UNIQUE INDEX IF NOT EXISTS segment_order ON segment (machine, first_seq, last_seq, from_us, to_us);

-- Everything that a machine's watch has said: nth to the input seq, judged under config.
-- kind: which record body is. A new kind of outcome needs nothing here but, for people, a view.
CREATE TABLE IF NOT EXISTS outcome (
    machine INTEGER NOT NULL REFERENCES machine (id),
    seq     INTEGER NOT NULL,
    nth     INTEGER NOT NULL,
    at_us   INTEGER NOT NULL,
    kind    TEXT NOT NULL,
    config  TEXT NOT NULL REFERENCES config (hash),
    body    TEXT NOT NULL,
    UNIQUE (machine, seq, nth)
) STRICT;

CREATE INDEX IF NOT EXISTS outcome_kind ON outcome (kind, machine, seq, nth);

-- How each alarm stands. number is what people are shown and type; it is never used again.
CREATE TABLE IF NOT EXISTS alarm (
    number      INTEGER PRIMARY KEY AUTOINCREMENT,
    id          ANY NOT NULL UNIQUE,
    machine     INTEGER NOT NULL REFERENCES machine (id),
    config_hash TEXT NOT NULL REFERENCES config (hash),
    rule        TEXT NOT NULL,
    channel     TEXT NOT NULL,
    grade       TEXT NOT NULL,
    state       TEXT NOT NULL,
    revision    INTEGER NOT NULL,
    raised_us   INTEGER NOT NULL,
    changed_us  INTEGER NOT NULL
) STRICT;

CREATE INDEX IF NOT EXISTS alarm_standing ON alarm (number) WHERE state <> 'normal';

-- What people did to the machine; body is the order.
CREATE TABLE IF NOT EXISTS journal (
    machine INTEGER NOT NULL REFERENCES machine (id),
    seq     INTEGER NOT NULL,
    at_us   INTEGER NOT NULL,
    by_whom ANY NOT NULL,
    body    TEXT NOT NULL,
    PRIMARY KEY (machine, seq)
) STRICT, WITHOUT ROWID;

-- Left by the command line, waiting until the daemon takes it up (taken_us, taken_seq); body is
-- the order.
CREATE TABLE IF NOT EXISTS instruction (
    number    INTEGER PRIMARY KEY AUTOINCREMENT,
    machine   ANY NOT NULL,
    by_whom   ANY NOT NULL,
    body      TEXT NOT NULL,
    left_us   INTEGER NOT NULL,
    taken_us  INTEGER,
    taken_seq INTEGER,
    refused   ANY
) STRICT;

CREATE INDEX IF NOT EXISTS instruction_waiting ON instruction (number) WHERE taken_us IS NULL;

-- Messages owed to somebody: committed with what they tell of, delivered after. In a flood a
-- message is not told itself: folded_into names the one of its route that stands for it.
CREATE TABLE IF NOT EXISTS outbox (
    number           INTEGER PRIMARY KEY AUTOINCREMENT,
    message_id       ANY NOT NULL,
    route            ANY NOT NULL,
    machine          ANY NOT NULL,
    alarm_id         ANY NOT NULL,
    grade            TEXT NOT NULL,
    at_us            INTEGER NOT NULL,
    topic            ANY NOT NULL,
    text             ANY NOT NULL,
    json             ANY NOT NULL,
    attempts         INTEGER NOT NULL DEFAULT 0,
    delivered_us     INTEGER,
    kind             TEXT NOT NULL DEFAULT 'call',
    event            ANY NOT NULL DEFAULT '',
    subject          ANY NOT NULL DEFAULT '',
    given_up_us      INTEGER,
    given_up_because ANY,
    folded_into      ANY,
    UNIQUE (message_id, route)
) STRICT;

CREATE INDEX IF NOT EXISTS outbox_alarm ON outbox (alarm_id);

CREATE INDEX IF NOT EXISTS outbox_folded ON outbox (folded_into) WHERE folded_into IS NOT NULL;

CREATE INDEX IF NOT EXISTS outbox_time ON outbox (at_us);

CREATE INDEX IF NOT EXISTS outbox_due ON outbox (route, number)
WHERE delivered_us IS NULL AND given_up_us IS NULL AND folded_into IS NULL;

-- The state of the fold that decides who is told when, as of the last commit that changed it.
CREATE TABLE IF NOT EXISTS annunciator (
    id    INTEGER PRIMARY KEY CHECK (id = 1),
    state BLOB NOT NULL
) STRICT;

-- The state of a watch after it took the input seq; the newest two of each machine.
CREATE TABLE IF NOT EXISTS snapshot (
    machine INTEGER NOT NULL REFERENCES machine (id),
    seq     INTEGER NOT NULL,
    at_us   INTEGER NOT NULL,
    format  INTEGER NOT NULL,
    state   BLOB NOT NULL,
    PRIMARY KEY (machine, seq)
) STRICT;

-- Nonces of the signed instructions that came by MQTT, the newest thousand of each person, so that
-- none is followed twice, whatever happens to leat or to its clock in between.
CREATE TABLE IF NOT EXISTS nonce (
    person   TEXT NOT NULL,
    nonce    TEXT NOT NULL,
    signed_s INTEGER NOT NULL, -- when it was signed, by the sender's clock, seconds since 1970
    PRIMARY KEY (person, nonce)
) STRICT, WITHOUT ROWID;

CREATE INDEX IF NOT EXISTS nonce_age ON nonce (person, signed_s, nonce);

-- What a search for startups asks for comes from these, not from the bodies.
CREATE INDEX IF NOT EXISTS startup_newest ON outcome (body ->> '$.startup.started_at_us' DESC, machine, seq DESC,
    body ->> '$.verdict.outcome', nth) WHERE kind = 'startup-measured';

-- In the order in which they were measured, whatever the clock said.
CREATE INDEX IF NOT EXISTS startup_sequence ON outcome (kind) WHERE kind = 'startup-measured';

CREATE INDEX IF NOT EXISTS startup_slowest ON outcome (body ->> '$.verdict.outcome' = 'not-risen' DESC,
    body ->> '$.startup.figures.rise_s[0]' DESC, body ->> '$.startup.started_at_us' DESC,
    machine, seq, nth, body ->> '$.verdict.outcome') WHERE kind = 'startup-measured';

CREATE UNIQUE INDEX IF NOT EXISTS alarm_event_revision
ON outcome (body ->> '$.change.alarm_id', body ->> '$.change.revision')
WHERE kind = 'alarm-changed';

CREATE INDEX IF NOT EXISTS alarm_event_time ON outcome (at_us) WHERE kind = 'alarm-changed';
