package leat.service;

import java.time.Instant;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import leat.signal.ClockStep;
import leat.signal.PressureUnit;
import leat.words.Language;
import leat.words.Numbers;

/** How far the computer's clock was set, for the log. */
final class ClockStepWords {

    private static final Numbers NUMBERS =
            new Numbers(Language.ENGLISH, PressureUnit.PSI, ZoneOffset.UTC);

    private ClockStepWords() {}

    /** Such as {@code back by 2.0 h, from 2026-01-05T08:00:00Z to 2026-01-05T06:00:00Z}. */
    static String of(ClockStep step) {
        double seconds = (step.atMicros() - step.fromMicros()) / 1e6;
        return (seconds < 0 ? "back by " : "forward by ")
                + NUMBERS.span(Math.abs(seconds))
                + ", from "
                + time(step.fromMicros())
                + " to "
                + time(step.atMicros());
    }

    private static Instant time(long micros) {
        return Instant.EPOCH.plus(micros, ChronoUnit.MICROS).truncatedTo(ChronoUnit.SECONDS);
    }
}
