package leat.acquire.mqtt;

import leat.words.FaultWords;

/** A payload from which no value can be read; the message says why, in plain words. */
public final class MalformedPayload extends Exception {

    private static final long serialVersionUID = 1L;

    MalformedPayload(String key, Object... values) {
        super(FaultWords.english("payload." + key, values), null, false, false);
    }
}
