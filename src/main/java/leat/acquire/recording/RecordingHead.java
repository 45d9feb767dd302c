package leat.acquire.recording;

import static java.util.Objects.requireNonNull;

import java.time.ZoneId;

/**
 * What stands above the rows of leat's own recordings: where they come from and what they were
 * judged under, so that the one file can be mailed.
 *
 * @param version of the leat that wrote it
 * @param site name of the site
 * @param machine name of the machine
 * @param zone time zone of the site, for showing; the rows are UTC
 * @param configHash SHA-256 of the configuration
 * @param configText the configuration; it never holds a secret
 */
public record RecordingHead(
        String version,
        String site,
        String machine,
        ZoneId zone,
        String configHash,
        String configText) {

    public RecordingHead {
        requireNonNull(version, "version");
        requireNonNull(site, "site");
        requireNonNull(machine, "machine");
        requireNonNull(zone, "zone");
        requireNonNull(configHash, "configHash");
        requireNonNull(configText, "configText");
    }
}
