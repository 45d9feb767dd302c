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
import leat.config.Site;
import leat.words.Language;
import leat.words.Numbers;
import leat.words.Phrases;

/**
 * How much a site reads, and the disk that it takes until the oldest readings go.
 *
 * @param polled readings a second by Modbus
 * @param sent channels whose sensors send by MQTT, as often as they please
 * @param kept running time for which readings are kept
 */
record DiskNeed(double polled, long sent, Duration kept) {

    /** As src/docs/data.md has it. */
    private static final double BYTES_A_READING = 37.5;

    private static final double SECONDS_A_DAY = 86_400;

    DiskNeed {
        requireNonNull(kept, "kept");
    }

    static DiskNeed of(Site site) {
        List<ConnectionSettings> delivering =
                site.machines().stream()
                        .flatMap(machine -> machine.channels().stream())
                        .map(ChannelSettings::connection)
                        .flatMap(name -> site.connection(name).stream())
                        .toList();
        double polled = 0;
        long sent = 0;
        for (ConnectionSettings connection : delivering) {
            if (connection instanceof ConnectionSettings.ModbusTcp modbus) {
                polled += 1e3 / modbus.poll().toMillis();
            } else {
                sent++;
            }
        }
        return new DiskNeed(polled, sent, site.store().keepSamples());
    }

    /** Two lines for a person. */
    List<String> lines(OptionalLong free, Phrases phrases) {
        Language language = phrases.language();
        if (sent == 0) {
            return List.of(
                    phrases.say("cli.disk.readings", number(polled, language)),
                    phrases.say("cli.disk", need(polled, free, phrases)));
        }

        return polled == 0
                ? List.of(
                        phrases.say("cli.disk.readings.sent", sent),
                        phrases.say("cli.disk.one", need(1, free, phrases)))
                : List.of(
                        phrases.say("cli.disk.readings.both", number(polled, language), sent),
                        phrases.say("cli.disk.without", need(polled, free, phrases)));
    }

    private String need(double perSecond, OptionalLong free, Phrases phrases) {
        Language language = phrases.language();
        return phrases.say(
                free.isPresent() ? "cli.disk.need.free" : "cli.disk.need",
                size(aDay(perSecond), language),
                size(aDay(perSecond) * days(), language),
                span(language),
                size(free.orElse(0), language));
    }

    /**
     * What is to be said when the disk is too small for what is known of it.
     *
     * @param free bytes that are free for the store, or that it has already
     */
    Optional<String> shortage(OptionalLong free, Phrases phrases) {
        if (free.isEmpty() || aDay(polled) * days() <= free.getAsLong()) {
            return Optional.empty();
        }
        Language language = phrases.language();
        String enough = number(free.getAsLong() / aDay(polled), language) + " d";
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

    private static double aDay(double perSecond) {
        return perSecond * BYTES_A_READING * SECONDS_A_DAY;
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
