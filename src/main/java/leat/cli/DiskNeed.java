package leat.cli;

import static java.util.Objects.requireNonNull;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.OptionalLong;
import leat.config.ChannelSettings;
import leat.config.ConnectionSettings;
import leat.config.Site;

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
    List<String> lines(OptionalLong free) {
        String room = free.isPresent() ? "; free for it: " + size(free.getAsLong()) : "";
        if (sent == 0) {
            return List.of(
                    "Readings: " + number(polled) + " a second.", "Disk: " + need(polled, room));
        }
        String sensors = "as many as the sensors of " + sent + " MQTT channels send";
        return polled == 0
                ? List.of("Readings: " + sensors + ".", "Disk for 1 a second: " + need(1, room))
                : List.of(
                        "Readings: " + number(polled) + " a second by Modbus, and " + sensors + ".",
                        "Disk without MQTT: " + need(polled, room));
    }

    private String need(double perSecond, String room) {
        return "about %s a day, %s in %s of running (store.keep_samples)%s."
                .formatted(size(aDay(perSecond)), size(aDay(perSecond) * days()), span(), room);
    }

    /**
     * What is to be said when the disk is too small for what is known of it.
     *
     * @param free bytes that are free for the store, or that it has already
     */
    Optional<String> shortage(OptionalLong free) {
        if (free.isEmpty() || aDay(polled) * days() <= free.getAsLong()) {
            return Optional.empty();
        }
        return Optional.of(
                "store.keep_samples: %s of readings are more than the disk has room for\n"
                                .formatted(span())
                        + "    make room, or keep less: %s fill what is free"
                                .formatted(number(free.getAsLong() / aDay(polled)) + " d"));
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

    private String span() {
        return days() < 1 ? number(days() * 24) + " h" : number(days()) + " d";
    }

    private static String size(double bytes) {
        return bytes < 1e9
                ? String.format(Locale.ROOT, "%.0f MB", bytes / 1e6)
                : String.format(Locale.ROOT, "%.1f GB", bytes / 1e9);
    }

    private static String number(double value) {
        return String.format(Locale.ROOT, "%.1f", value).replaceAll("\\.0$", "");
    }
}
