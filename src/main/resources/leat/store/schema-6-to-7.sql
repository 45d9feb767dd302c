-- From version 6 to 7: inputs that are older than an hour are kept in segments. What an older leat has
-- stored is sealed little by little while this one runs.
ALTER TABLE machine ADD COLUMN sealed_ticks INTEGER NOT NULL DEFAULT 0;
ALTER TABLE machine ADD COLUMN sealed_seq INTEGER NOT NULL DEFAULT 0;
{fresh}
