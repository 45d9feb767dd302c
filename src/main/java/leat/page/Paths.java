package leat.page;

import java.util.Optional;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import leat.store.StoredStartup;

/** Where each thing is found. */
final class Paths {

    static final String PAGE = "/";
    static final String EVENTS = "/events";
    static final String HEALTH = "/health";
    static final String METRICS = "/metrics";
    static final String SIGN_IN = "/sign-in";

    private static final Pattern START = Pattern.compile("/start/([a-z0-9-]{1,64})/([0-9]{1,9})");

    private Paths() {}

    /**
     * Which startup.
     *
     * @param machine its machine
     * @param number counts from 1
     */
    record Start(String machine, long number) {}

    /** Empty where no startup is meant. */
    static Optional<Start> start(String path) {
        Matcher found = START.matcher(path);
        return found.matches()
                ? Optional.of(new Start(found.group(1), Long.parseLong(found.group(2))))
                : Optional.empty();
    }

    static String start(StoredStartup stored) {
        return stored.name();
    }
}
