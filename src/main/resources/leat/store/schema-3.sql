-- Schema 3: nonces of the signed instructions that came by MQTT, the newest thousand of each
-- person, so that none is followed twice, whatever happens to leat or to its clock in between.

CREATE TABLE nonce (
    person   TEXT NOT NULL,
    nonce    TEXT NOT NULL,
    signed_s INTEGER NOT NULL, -- when it was signed, by the sender's clock, seconds since 1970
    PRIMARY KEY (person, nonce)
) STRICT, WITHOUT ROWID;

CREATE INDEX nonce_age ON nonce (person, signed_s, nonce);
