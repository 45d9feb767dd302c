package leat.config;

import static java.util.Objects.requireNonNull;

import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;

/**
 * Where and how long data are kept.
 *
 * @param folder holds {@code leat.db}; a relative one is taken from the folder of {@code site.yaml}
 * @param keepSamples running time for which samples are kept; startups, spells, alarms and the
 *     journal stay
 * @param group that may read the database too
 */
public record StoreSettings(Path folder, Duration keepSamples, Optional<String> group) {

    public StoreSettings {
        requireNonNull(folder, "folder");
        requireNonNull(keepSamples, "keepSamples");
        requireNonNull(group, "group");
    }

    /** For the user alone that leat runs as. */
    public StoreSettings(Path folder, Duration keepSamples) {
        this(folder, keepSamples, Optional.empty());
    }

    public Path file() {
        return folder.resolve("leat.db");
    }
}
