package leat.cli;

import java.nio.file.Path;
import java.time.ZoneId;
import java.util.Optional;
import leat.config.LoadedSite;
import leat.config.Site;
import leat.config.SiteFile;
import leat.report.Shown;
import leat.signal.PressureUnit;
import picocli.CommandLine.Option;

/** Which site a command is about: its {@code site.yaml}, or directly a store. */
final class SiteChoice {

    @Option(
            names = {"-s", "--site"},
            paramLabel = "FILE",
            description = "the site's configuration (default: $LEAT_SITE, or site.yaml here)")
    private Path file;

    @Option(
            names = "--store",
            paramLabel = "FILE",
            description = "a leat.db to look into without a configuration")
    private Path store;

    /** The database, how to show what is in it, and the site where one was chosen. */
    record Chosen(Path database, Shown shown, Optional<Site> site) {}

    Chosen chosen() {
        if (store != null) {
            Shown shown = new Shown(ZoneId.systemDefault(), PressureUnit.PSI);
            return new Chosen(store, shown, Optional.empty());
        }
        Site site = load(file());
        Shown shown = new Shown(site.zone(), site.shownIn());
        return new Chosen(site.store().file(), shown, Optional.of(site));
    }

    /** The site of this very command line; none is looked for. */
    Optional<Site> given() {
        return Optional.ofNullable(file).map(SiteChoice::load);
    }

    /** The configuration, where no store was named in its place. */
    Path siteFile() {
        if (store != null) {
            throw new CommandFailure.Expected(
                    ExitCode.WRONG, "This needs the configuration: --site, and no --store.");
        }
        return file();
    }

    private Path file() {
        return orUsual(file);
    }

    /**
     * The file that was named, or the usual one.
     *
     * @param named may be null, as picocli leaves it
     */
    static Path orUsual(Path named) {
        return Optional.ofNullable(named)
                .or(() -> Optional.ofNullable(System.getenv("LEAT_SITE")).map(Path::of))
                .orElse(Path.of("site.yaml"));
    }

    /** The site that a file describes, or every mistake in it as one message with exit code 2. */
    static Site load(Path file) {
        return loaded(file).site().orElseThrow();
    }

    /** Likewise, with what is doubtful in the file. */
    static LoadedSite loaded(Path file) {
        LoadedSite loaded = SiteFile.load(file, name -> Optional.ofNullable(System.getenv(name)));
        if (loaded.site().isEmpty()) {
            throw new CommandFailure.Expected(ExitCode.WRONG, listed(loaded));
        }
        return loaded;
    }

    static String listed(LoadedSite loaded) {
        StringBuilder text = new StringBuilder();
        for (String mistake : Mistakes.shown(loaded.problems())) {
            text.append(mistake).append(System.lineSeparator());
        }
        int count = loaded.problems().size();
        return text.append(count == 1 ? "1 mistake" : count + " mistakes")
                .append("; nothing was started.")
                .toString();
    }
}
