package leat.cli;

import java.util.List;
import java.util.Optional;
import leat.config.MachineSettings;
import leat.config.Site;
import leat.config.SiteFile;
import leat.store.StoreReader;

/** The machines that a person wants to see as they are now: a site of these alone. */
final class MachineChoice {

    private MachineChoice() {}

    /**
     * All machines: those of {@code site.yaml}, or where only a store is named, of its last run.
     */
    static Site all(SiteChoice.Chosen chosen) {
        return known(chosen)
                .orElseThrow(
                        () ->
                                new CommandFailure.Expected(
                                        ExitCode.WRONG,
                                        "cli.machines-unknown",
                                        chosen.database().toString()));
    }

    /** Likewise; empty where nothing tells. */
    static Optional<Site> known(SiteChoice.Chosen chosen) {
        return chosen.site().or(() -> lastRun(chosen));
    }

    private static Optional<Site> lastRun(SiteChoice.Chosen chosen) {
        try (StoreReader reader = StoreReader.open(chosen.database())) {
            return reader.runs(1).stream()
                    .flatMap(run -> reader.configText(run.configHash()).stream())
                    .flatMap(text -> SiteFile.archived(text).site().stream())
                    .findFirst();
        }
    }

    /** One of them. */
    static Site one(Site site, String name) {
        MachineSettings machine =
                site.machine(name)
                        .orElseThrow(
                                () ->
                                        new CommandFailure.Expected(
                                                ExitCode.WRONG,
                                                "cli.no-machine",
                                                name,
                                                names(site).toString()));
        return new Site(
                site.name(),
                site.zone(),
                site.language(),
                site.shownIn(),
                site.store(),
                site.connections(),
                List.of(machine),
                site.routes(),
                site.instructions(),
                site.page(),
                site.hash(),
                site.text());
    }

    private static List<String> names(Site site) {
        return site.machines().stream().map(MachineSettings::name).toList();
    }
}
