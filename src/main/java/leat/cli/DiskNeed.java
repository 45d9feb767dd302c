package leat.cli;

import static java.util.Objects.requireNonNull;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import leat.config.ChannelSettings;
import leat.config.ConnectionSettings;
import leat.config.MachineSettings;
import leat.config.Point;
import leat.config.Site;
import leat.words.Language;
import leat.words.Numbers;
import leat.words.Phrases;

/**
 * How much a site reads, and the disk that it takes until the oldest readings go.
 *
 * @param polled readings a second by Modbus
 * @param floats how many of them are numbers of 32 bits with a point
 * @param sent channels whose sensors send by MQTT, as often as they please
 * @param kept running time for which readings are kept
 */
record DiskNeed(double polled, double floats, long sent, Duration kept) {

    /** A reading of a converter's counts or of a contact, sealed; as src/docs/data.md has it. */
    private static final double COUNT_BYTES = 1;

    /** A number of which every bit may be another each time, sealed. */
    private static final double FLOAT_BYTES = 7;

    /** The newest are rows, until an hour and ten minutes have gathered. */
    private static final double ROW_BYTES = 37.5;

    private static final double ROW_SECONDS = 4_200;

    private static final double SECONDS_A_DAY = 86_400;

    DiskNeed {
        requireNonNull(kept, "kept");
    }

    static DiskNeed of(Site site) {
        double polled = 0;
        double floats = 0;
        long sent = 0;
        for (MachineSettings machine : site.machines()) {
            for (ChannelSettings channel : machine.channels()) {
                Optional<ConnectionSettings> by = site.connection(channel.connection());
                if (by.isPresent() && by.get() instanceof ConnectionSettings.ModbusTcp modbus) {
                    double rate = 1e3 / modbus.poll().toMillis();
                    polled += rate;
                    floats += isFloat(channel.point()) ? rate : 0;
                } else if (by.isPresent()) {
                    sent++;
                }
            }
        }
        return new DiskNeed(polled, floats, sent, site.store().keepSamples());
    }

    private static boolean isFloat(Point point) {
        return point instanceof Point.Register register
                && register.type() == Point.NumberType.FLOAT32
                && !register.table().isBits();
    }

    /** Two lines for a person. */
    List<String> lines(OptionalLong free, Phrases phrases) {
        Language language = phrases.language();
        if (sent == 0) {
            return List.of(
                    phrases.say("cli.disk.readings", number(polled, language)),
                    phrases.say("cli.disk", need(this, free, phrases)));
        }

        return polled == 0
                ? List.of(
                        phrases.say("cli.disk.readings.sent", sent),
                        phrases.say(
                                "cli.disk.one", need(new DiskNeed(1, 1, 0, kept), free, phrases)))
                : List.of(
                        phrases.say("cli.disk.readings.both", number(polled, language), sent),
                        phrases.say("cli.disk.without", need(this, free, phrases)));
    }

    private static String need(DiskNeed need, OptionalLong free, Phrases phrases) {
        Language language = phrases.language();
        return phrases.say(
                free.isPresent() ? "cli.disk.need.free" : "cli.disk.need",
                size(need.aDay(), language),
                size(need.all(), language),
                need.span(language),
                size(free.orElse(0), language));
    }

    /**
     * What is to be said when the disk is too small for what is known of it.
     *
     * @param free bytes that are free for the store, or that it has already
     */
    Optional<String> shortage(OptionalLong free, Phrases phrases) {
        if (free.isEmpty() || all() <= free.getAsLong()) {
            return Optional.empty();
        }
        Language language = phrases.language();
        String enough = number((free.getAsLong() - rows()) / aDay(), language) + " d";
        return Optional.of(
                phrases.say("cli.disk.short", span(language))
                        + "\n    "
                        + phrases.say("cli.disk.short.do", enough));
    }

    /** Free on the disk of a store, with what the store has already; empty where it is unknown. */
    static OptionalLong free(Path database) {
        Path there = database.toAbsolutePath();
        long own = there.toFile().length();
        while (there != null && !Files.exists(there)) {
            there = there.getParent();
        }
        try {
            return there == null
                    ? OptionalLong.empty()
                    : OptionalLong.of(Files.getFileStore(there).getUsableSpace() + own);
        } catch (IOException e) {
            return OptionalLong.empty();
        }
    }

    private double aDay() {
        return ((polled - floats) * COUNT_BYTES + floats * FLOAT_BYTES) * SECONDS_A_DAY;
    }

    private double rows() {
        return polled * ROW_BYTES * ROW_SECONDS;
    }

    private double all() {
        return aDay() * days() + rows();
    }

    private double days() {
        return kept.toMillis() / (SECONDS_A_DAY * 1e3);
    }

    private String span(Language language) {
        return days() < 1 ? number(days() * 24, language) + " h" : number(days(), language) + " d";
    }

    private static String size(double bytes, Language language) {
        return bytes < 1e9
                ? Numbers.number(language, bytes / 1e6, 0) + " MB"
                : Numbers.number(language, bytes / 1e9, 1) + " GB";
    }

    private static String number(double value, Language language) {
        return Numbers.number(language, value, 1).replaceAll("[.,]0$", "");
    }
}
