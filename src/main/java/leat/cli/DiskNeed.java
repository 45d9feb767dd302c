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
import leat.config.MachineSettings;
import leat.config.Point;
import leat.config.Site;

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
    private static final double ROW_BYTES = 42;

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
    List<String> lines(OptionalLong free) {
        String room = free.isPresent() ? "; free for it: " + size(free.getAsLong()) : "";
        if (sent == 0) {
            return List.of(
                    "Readings: " + number(polled) + " a second.", "Disk: " + need(this, room));
        }
        String sensors = "as many as the sensors of " + sent + " MQTT channels send";
        return polled == 0
                ? List.of(
                        "Readings: " + sensors + ".",
                        "Disk for 1 a second: " + need(new DiskNeed(1, 1, 0, kept), room))
                : List.of(
                        "Readings: " + number(polled) + " a second by Modbus, and " + sensors + ".",
                        "Disk without MQTT: " + need(this, room));
    }

    private static String need(DiskNeed need, String room) {
        return "about %s a day, %s in %s of running (store.keep_samples)%s."
                .formatted(size(need.aDay()), size(need.all()), need.span(), room);
    }

    /**
     * What is to be said when the disk is too small for what is known of it.
     *
     * @param free bytes that are free for the store, or that it has already
     */
    Optional<String> shortage(OptionalLong free) {
        if (free.isEmpty() || all() <= free.getAsLong()) {
            return Optional.empty();
        }
        return Optional.of(
                "store.keep_samples: %s of readings are more than the disk has room for\n"
                                .formatted(span())
                        + "    make room, or keep less: %s fill what is free"
                                .formatted(number((free.getAsLong() - rows()) / aDay()) + " d"));
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
