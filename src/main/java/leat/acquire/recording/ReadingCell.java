package leat.acquire.recording;

import java.util.Locale;
import java.util.Map;
import java.util.function.Function;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import leat.signal.Quality;
import leat.signal.Reading;

/**
 * A reading as it stands in a cell of leat's own: {@code 41.2}, {@code 41.2?loop_below_band} when
 * it is UNCERTAIN, {@code !loop_broken} when it is BAD. What a sensor claims follows, as in {@code
 * 41.2@2026-01-05T06:00:00.250000Z}.
 */
final class ReadingCell {

    static final char UNCERTAIN = '?';
    static final char BAD = '!';
    static final char CLAIM = '@';

    private static final Map<String, Quality> BY_WORD =
            Stream.of(Quality.values())
                    .filter(quality -> quality != Quality.GOOD)
                    .collect(Collectors.toMap(ReadingCell::word, Function.identity()));

    private ReadingCell() {}

    private static String word(Quality quality) {
        return quality.name().toLowerCase(Locale.ROOT);
    }

    static void write(Reading reading, StringBuilder out) {
        if (reading.quality().isUsable() || isNegativeZero(reading.value())) {
            number(reading, out);
        }
        switch (reading.quality().trust()) {
            case GOOD -> {
                // the number says it all
            }
            case UNCERTAIN -> out.append(UNCERTAIN).append(word(reading.quality()));
            case BAD -> out.append(BAD).append(word(reading.quality()));
        }
        reading.claimedMicros().ifPresent(micros -> out.append(CLAIM).append(IsoTime.text(micros)));
    }

    private static void number(Reading reading, StringBuilder out) {
        double value = reading.value();
        if (!reading.channel().isPressure() && (value == 1 || Double.compare(value, 0) == 0)) {
            out.append((int) value);
        } else {
            out.append(value);
        }
    }

    private static boolean isNegativeZero(double value) {
        return Double.doubleToRawLongBits(value) == Double.doubleToRawLongBits(-0.0);
    }

    /** Index of the mark that ends the number, or the end. */
    static int mark(char[] cell, int from, int end) {
        for (int i = from; i < end; i++) {
            if (cell[i] == UNCERTAIN || cell[i] == BAD) {
                return i;
            }
        }
        return end;
    }

    /** Index of the mark before what the sensor claims, or the end. */
    static int claim(char[] cell, int from, int end) {
        for (int i = from; i < end; i++) {
            if (cell[i] == CLAIM) {
                return i;
            }
        }
        return end;
    }

    /**
     * @param time what stands behind the mark
     * @throws BadCell when it is none
     */
    static long claimed(String time) {
        return IsoTime.parse(time)
                .orElseThrow(
                        () ->
                                new BadCell(
                                        "time " + BadCell.quoted(time) + " cannot be read",
                                        "allowed is one as 2026-01-05T06:00:00.250000Z"));
    }

    /**
     * @throws BadCell for a word that no quality has, or one that does not go with the mark
     */
    static Quality quality(String markAndWord) {
        Quality quality = BY_WORD.getOrDefault(markAndWord.substring(1), Quality.GOOD);
        boolean fits =
                switch (quality.trust()) {
                    case GOOD -> false;
                    case UNCERTAIN -> markAndWord.charAt(0) == UNCERTAIN;
                    case BAD -> markAndWord.charAt(0) == BAD;
                };
        if (!fits) {
            throw new BadCell(
                    "quality " + BadCell.quoted(markAndWord) + " is not known",
                    "allowed are "
                            + Stream.of(Quality.values())
                                    .filter(q -> q != Quality.GOOD)
                                    .map(q -> (q.isUsable() ? "?" : "!") + word(q))
                                    .collect(Collectors.joining(", ")));
        }
        return quality;
    }
}
