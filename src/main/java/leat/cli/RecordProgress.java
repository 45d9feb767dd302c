package leat.cli;

import java.time.Duration;
import java.util.Locale;
import leat.bench.recording.Recorder;

/**
 * How far a long recording is, in words.
 *
 * @param length of the whole recording
 * @param begunNanos monotonic time at which it was begun
 */
record RecordProgress(Duration length, long begunNanos) {

    /** Played so far, and how long the rest will take if it goes on like this. */
    String words(Recorder.Done done, long nowNanos) {
        double share = (double) done.played().toMillis() / length.toMillis();
        long left = Math.round((nowNanos - begunNanos) / 1e9 * (1 - share) / share);
        return String.format(
                Locale.ROOT,
                "%s of %s, %d starts, %d MB, about %s left",
                words(done.played()),
                words(length),
                done.starts(),
                done.bytes() / 1_000_000,
                words(Duration.ofSeconds(left)));
    }

    /** A length of time in its two largest units. */
    static String words(Duration time) {
        if (time.compareTo(Duration.ofMinutes(2)) < 0) {
            return time.toSeconds() + " s";
        }
        if (time.compareTo(Duration.ofHours(1)) < 0) {
            int seconds = time.toSecondsPart();
            return time.toMinutes() + " min" + (seconds > 0 ? " " + seconds + " s" : "");
        }
        if (time.compareTo(Duration.ofDays(1)) < 0) {
            return time.toHours() + " h " + time.toMinutesPart() + " min";
        }
        return time.toDays()
                + " d"
                + (time.toHoursPart() > 0 ? " " + time.toHoursPart() + " h" : "");
    }
}
