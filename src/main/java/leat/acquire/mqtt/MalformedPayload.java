package leat.acquire.mqtt;

/** A payload from which no value can be read; the message says why, in plain words. */
public final class MalformedPayload extends Exception {

    private static final long serialVersionUID = 1L;

    MalformedPayload(String why) {
        super(why, null, false, false);
    }
}
