package leat.config;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.Optional;

/**
 * What came of loading a {@code site.yaml}: either a site, or the problems that stand in its way.
 *
 * @param site present exactly when there is no problem
 * @param problems everything that is wrong, in the order of the file
 * @param warnings what is allowed but doubtful, in the order of the file; stops nothing
 */
public record LoadedSite(Optional<Site> site, List<Problem> problems, List<Problem> warnings) {

    public LoadedSite {
        requireNonNull(site, "site");
        problems = List.copyOf(problems);
        warnings = List.copyOf(warnings);
        if (site.isPresent() != problems.isEmpty()) {
            throw new IllegalArgumentException("a site, or problems: " + problems);
        }
    }
}
