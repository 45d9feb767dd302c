-- From version 5 to 6: the writer counts seconds, so that none is deleted because of a clock.
ALTER TABLE machine ADD COLUMN ticks INTEGER NOT NULL DEFAULT 0;
ALTER TABLE machine ADD COLUMN idle_s INTEGER NOT NULL DEFAULT 0;
UPDATE machine SET ticks = (SELECT count(*) FROM input INDEXED BY input_tick
                            WHERE input.machine = machine.id AND kind = 100);

CREATE INDEX IF NOT EXISTS startup_sequence ON outcome (kind) WHERE kind = 'startup-measured';
