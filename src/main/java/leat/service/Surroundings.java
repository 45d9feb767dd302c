package leat.service;

import static java.util.Objects.requireNonNull;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.Map;
import java.util.concurrent.ThreadLocalRandom;
import java.util.function.DoubleSupplier;
import java.util.function.LongSupplier;
import leat.acquire.Intake;
import leat.acquire.Source;
import leat.config.Site;
import leat.mqtt.MqttLink;

/**
 * What a daemon takes from the world around it: the time, chance, and sources that read the field.
 * Immutable; what it holds is thread-safe.
 *
 * @param wallMicros wall clock, microseconds UTC
 * @param nanos monotonic clock, nanoseconds, as {@code System::nanoTime}; the pauses of couriers
 *     are measured by it
 * @param chance numbers from 0 to below 1
 * @param field makes the sources
 */
record Surroundings(
        LongSupplier wallMicros, LongSupplier nanos, DoubleSupplier chance, Field field) {

    /** The clocks of this computer, and the connections of the site. */
    static final Surroundings REAL =
            new Surroundings(
                    () -> ChronoUnit.MICROS.between(Instant.EPOCH, Instant.now()),
                    System::nanoTime,
                    () -> ThreadLocalRandom.current().nextDouble(),
                    Sources::of);

    /** Makes sources. */
    @FunctionalInterface
    interface Field {
        /**
         * The sources of a site; none is started.
         *
         * @param links to its brokers, by the name of the connection
         * @param intake where they put what they read
         */
        List<Source> sources(Site site, Map<String, MqttLink> links, Intake intake);
    }

    Surroundings {
        requireNonNull(wallMicros, "wallMicros");
        requireNonNull(nanos, "nanos");
        requireNonNull(chance, "chance");
        requireNonNull(field, "field");
    }
}
