package leat.config;

import static java.util.Objects.requireNonNull;

import java.nio.file.Path;
import java.time.Duration;

/**
 * Where and how long data are kept.
 *
 * @param folder holds {@code leat.db}; a relative one is taken from the folder of {@code site.yaml}
 * @param keepSamples running time for which samples are kept; startups, spells, alarms and the
 *     journal stay
 */
public record StoreSettings(Path folder, Duration keepSamples) {

    public StoreSettings {
        requireNonNull(folder, "folder");
        requireNonNull(keepSamples, "keepSamples");
    }

    public Path file() {
        return folder.resolve("leat.db");
    }
}
