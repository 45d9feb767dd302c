-- The store of leat, schema 1.
-- Times end in _us: microseconds since 1970-01-01T00:00:00Z. Pressures are gauge psi.
-- Columns of type ANY hold a number whose every bit must survive (negative zero included), or
-- free text; a text that is no valid Unicode is kept as a blob of UTF-16BE.
-- A measured figure takes two columns: the number, or NULL and the reason in ..._absent.

CREATE TABLE config (
    hash          TEXT PRIMARY KEY,
    text          ANY NOT NULL,
    first_used_us INTEGER NOT NULL
) STRICT, WITHOUT ROWID;

CREATE TABLE run (
    id          INTEGER PRIMARY KEY AUTOINCREMENT,
    started_us  INTEGER NOT NULL,
    ended_us    INTEGER,
    version     TEXT NOT NULL,
    config_hash TEXT NOT NULL REFERENCES config (hash)
) STRICT;

-- samples: readings kept at present. Kept up to date by the writer, for a count without a scan.
CREATE TABLE machine (
    id      INTEGER PRIMARY KEY,
    name    ANY NOT NULL UNIQUE,
    samples INTEGER NOT NULL DEFAULT 0
) STRICT;

-- Words for codes. The writer fills them; they are here for people.
CREATE TABLE input_kind (
    kind    INTEGER PRIMARY KEY,
    word    TEXT NOT NULL,
    channel TEXT NOT NULL
) STRICT;

CREATE TABLE quality (
    code   INTEGER PRIMARY KEY,
    word   TEXT NOT NULL,
    trust  TEXT NOT NULL,
    reason TEXT NOT NULL
) STRICT;

-- Everything that a machine's watch was fed, in the order of feeding.
-- kind: see input_kind. value: a reading's number (NULL when bad), a clock step's former time.
-- detail: reason of a loss, alarm of an acknowledgement, text of a journal entry.
CREATE TABLE input (
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
CREATE INDEX input_tick ON input (machine, at_us) WHERE kind = 100;

CREATE TABLE phase_change (
    machine     INTEGER NOT NULL REFERENCES machine (id),
    seq         INTEGER NOT NULL,
    nth         INTEGER NOT NULL,
    config_hash TEXT NOT NULL REFERENCES config (hash),
    at_us       INTEGER NOT NULL,
    from_phase  TEXT NOT NULL,
    to_phase    TEXT NOT NULL,
    reason      ANY NOT NULL,
    PRIMARY KEY (machine, seq, nth)
) STRICT, WITHOUT ROWID;

CREATE TABLE startup (
    machine                        INTEGER NOT NULL REFERENCES machine (id),
    seq                            INTEGER NOT NULL,
    nth                            INTEGER NOT NULL,
    config_hash                    TEXT NOT NULL REFERENCES config (hash),
    started_us                     INTEGER NOT NULL,
    measured_us                    INTEGER NOT NULL,
    base_psi                       ANY,
    base_psi_absent                ANY,
    top_psi                        ANY,
    top_psi_absent                 ANY,
    inlet_rest_psi                 ANY,
    inlet_rest_psi_absent          ANY,
    inlet_running_psi              ANY,
    inlet_running_psi_absent       ANY,
    dead_seconds                   ANY,
    dead_seconds_absent            ANY,
    rise_seconds                   ANY,
    rise_seconds_absent            ANY,
    rise_from_inlet_seconds        ANY,
    rise_from_inlet_seconds_absent ANY,
    start_to_90_seconds            ANY,
    start_to_90_seconds_absent     ANY,
    overshoot_percent              ANY,
    overshoot_percent_absent       ANY,
    ratio                          ANY,
    ratio_absent                   ANY,
    double_seconds                 ANY,
    double_seconds_absent          ANY,
    risen                          INTEGER NOT NULL,
    verdict                        TEXT NOT NULL,
    note                           ANY NOT NULL,
    PRIMARY KEY (machine, seq, nth)
) STRICT, WITHOUT ROWID;

CREATE INDEX startup_time ON startup (started_us);

CREATE TABLE steady (
    machine                 INTEGER NOT NULL REFERENCES machine (id),
    seq                     INTEGER NOT NULL,
    nth                     INTEGER NOT NULL,
    config_hash             TEXT NOT NULL REFERENCES config (hash),
    from_us                 INTEGER NOT NULL,
    to_us                   INTEGER NOT NULL,
    samples                 INTEGER NOT NULL,
    inlet_psi               ANY,
    inlet_psi_absent        ANY,
    boosted_psi             ANY,
    boosted_psi_absent      ANY,
    boosted_low_psi         ANY,
    boosted_low_psi_absent  ANY,
    boosted_high_psi        ANY,
    boosted_high_psi_absent ANY,
    ratio                   ANY,
    ratio_absent            ANY,
    PRIMARY KEY (machine, seq, nth)
) STRICT, WITHOUT ROWID;

CREATE TABLE rest (
    machine            INTEGER NOT NULL REFERENCES machine (id),
    seq                INTEGER NOT NULL,
    nth                INTEGER NOT NULL,
    config_hash        TEXT NOT NULL REFERENCES config (hash),
    stopped_us         INTEGER NOT NULL,
    measured_us        INTEGER NOT NULL,
    boosted_psi        ANY,
    boosted_psi_absent ANY,
    inlet_psi          ANY,
    inlet_psi_absent   ANY,
    settled            INTEGER NOT NULL,
    PRIMARY KEY (machine, seq, nth)
) STRICT, WITHOUT ROWID;

-- How each alarm stands. number is what people are shown and type; it is never used again.
CREATE TABLE alarm (
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

CREATE INDEX alarm_standing ON alarm (number) WHERE state <> 'normal';

-- The whole history of each alarm.
CREATE TABLE alarm_event (
    machine     INTEGER NOT NULL REFERENCES machine (id),
    seq         INTEGER NOT NULL,
    nth         INTEGER NOT NULL,
    config_hash TEXT NOT NULL REFERENCES config (hash),
    alarm_id    ANY NOT NULL REFERENCES alarm (id),
    revision    INTEGER NOT NULL,
    event       TEXT NOT NULL,
    from_state  TEXT NOT NULL,
    to_state    TEXT NOT NULL,
    at_us       INTEGER NOT NULL,
    raised_us   INTEGER NOT NULL,
    by_whom     ANY NOT NULL,
    rule        TEXT NOT NULL,
    channel     TEXT NOT NULL,
    grade       TEXT NOT NULL,
    since_us    INTEGER NOT NULL,
    found_us    INTEGER NOT NULL,
    quantity    TEXT NOT NULL,
    measured    ANY NOT NULL,
    limit_value ANY NOT NULL,
    sense       TEXT NOT NULL,
    inlet_psi          ANY,
    inlet_psi_absent   ANY,
    boosted_psi        ANY,
    boosted_psi_absent ANY,
    detail      ANY NOT NULL,
    PRIMARY KEY (machine, seq, nth),
    UNIQUE (alarm_id, revision)
) STRICT, WITHOUT ROWID;

-- Instructions that could not be followed.
CREATE TABLE refusal (
    machine     INTEGER NOT NULL REFERENCES machine (id),
    seq         INTEGER NOT NULL,
    nth         INTEGER NOT NULL,
    config_hash TEXT NOT NULL REFERENCES config (hash),
    at_us       INTEGER NOT NULL,
    kind        TEXT NOT NULL,
    by_whom     ANY NOT NULL,
    detail      ANY NOT NULL,
    reason      ANY NOT NULL,
    PRIMARY KEY (machine, seq, nth)
) STRICT, WITHOUT ROWID;

-- What people did to the machine.
CREATE TABLE journal (
    machine INTEGER NOT NULL REFERENCES machine (id),
    seq     INTEGER NOT NULL,
    at_us   INTEGER NOT NULL,
    entry   TEXT NOT NULL,
    by_whom ANY NOT NULL,
    text    ANY NOT NULL,
    PRIMARY KEY (machine, seq)
) STRICT, WITHOUT ROWID;

-- Left by the command line, waiting until the daemon takes it up (taken_us, taken_seq).
CREATE TABLE instruction (
    number    INTEGER PRIMARY KEY AUTOINCREMENT,
    machine   ANY NOT NULL,
    kind      TEXT NOT NULL,
    by_whom   ANY NOT NULL,
    detail    ANY NOT NULL,
    left_us   INTEGER NOT NULL,
    taken_us  INTEGER,
    taken_seq INTEGER,
    refused   ANY
) STRICT;

CREATE INDEX instruction_waiting ON instruction (number) WHERE taken_us IS NULL;

-- Messages owed to somebody: committed with what they tell of, delivered after.
CREATE TABLE outbox (
    number       INTEGER PRIMARY KEY AUTOINCREMENT,
    message_id   ANY NOT NULL,
    route        ANY NOT NULL,
    machine      ANY NOT NULL,
    alarm_id     ANY NOT NULL,
    grade        TEXT NOT NULL,
    at_us        INTEGER NOT NULL,
    topic        ANY NOT NULL,
    text         ANY NOT NULL,
    json         ANY NOT NULL,
    attempts     INTEGER NOT NULL DEFAULT 0,
    delivered_us INTEGER,
    UNIQUE (message_id, route)
) STRICT;

CREATE INDEX outbox_alarm ON outbox (alarm_id);

CREATE INDEX outbox_due ON outbox (route, number) WHERE delivered_us IS NULL;

-- The state of a watch after it took the input seq; the newest two of each machine.
CREATE TABLE snapshot (
    machine INTEGER NOT NULL REFERENCES machine (id),
    seq     INTEGER NOT NULL,
    at_us   INTEGER NOT NULL,
    format  INTEGER NOT NULL,
    state   BLOB NOT NULL,
    PRIMARY KEY (machine, seq)
) STRICT;

-- Views for people.

CREATE VIEW sample AS
SELECT m.name AS machine, k.channel, {utc i.at_us} AS utc, i.value, q.word AS quality, q.reason,
       i.at_us, i.seq
FROM input i
JOIN machine m ON m.id = i.machine
JOIN input_kind k ON k.kind = i.kind
JOIN quality q ON q.code = i.quality
WHERE i.kind < 100;

CREATE VIEW happening AS
SELECT m.name AS machine, {utc i.at_us} AS utc, k.word AS kind, k.channel, i.detail, i.by_whom,
       i.at_us, i.seq
FROM input i
JOIN machine m ON m.id = i.machine
JOIN input_kind k ON k.kind = i.kind
WHERE i.kind > 100;

CREATE VIEW phases AS
SELECT m.name AS machine, {utc p.at_us} AS utc, p.from_phase, p.to_phase, p.reason
FROM phase_change p JOIN machine m ON m.id = p.machine;

CREATE VIEW startups AS
SELECT m.name AS machine, {utc s.started_us} AS started, s.verdict, s.note, s.base_psi, s.top_psi,
       s.inlet_rest_psi, s.inlet_running_psi, s.ratio, s.dead_seconds, s.rise_seconds,
       s.rise_from_inlet_seconds, s.start_to_90_seconds, s.double_seconds, s.overshoot_percent,
       s.config_hash
FROM startup s JOIN machine m ON m.id = s.machine;

CREATE VIEW steady_spells AS
SELECT m.name AS machine, {utc s.from_us} AS since, {utc s.to_us} AS until, s.samples,
       s.inlet_psi, s.boosted_psi, s.boosted_low_psi, s.boosted_high_psi, s.ratio
FROM steady s JOIN machine m ON m.id = s.machine;

CREATE VIEW rest_spells AS
SELECT m.name AS machine, {utc r.stopped_us} AS stopped, {utc r.measured_us} AS measured,
       r.boosted_psi, r.inlet_psi, r.settled
FROM rest r JOIN machine m ON m.id = r.machine;

CREATE VIEW alarms AS
SELECT a.number, m.name AS machine, a.grade, a.rule, a.channel, a.state,
       {utc a.raised_us} AS raised, {utc a.changed_us} AS changed, a.id, a.config_hash
FROM alarm a JOIN machine m ON m.id = a.machine;

CREATE VIEW alarm_history AS
SELECT a.number, m.name AS machine, {utc e.at_us} AS utc, e.event, e.from_state, e.to_state,
       e.grade, e.rule, e.channel, e.measured, e.sense, e.limit_value, e.quantity,
       e.inlet_psi, e.boosted_psi, e.by_whom, e.detail, e.revision
FROM alarm_event e
JOIN alarm a ON a.id = e.alarm_id
JOIN machine m ON m.id = e.machine;

CREATE VIEW journal_entries AS
SELECT m.name AS machine, {utc j.at_us} AS utc, j.entry, j.by_whom, j.text
FROM journal j JOIN machine m ON m.id = j.machine;

CREATE VIEW messages AS
SELECT o.number, o.route, o.machine, o.grade, {utc o.at_us} AS utc,
       {utc o.delivered_us} AS delivered, o.attempts, o.alarm_id, o.topic, o.text
FROM outbox o;

CREATE VIEW runs AS
SELECT id, {utc started_us} AS started, {utc ended_us} AS ended, version, config_hash FROM run;
