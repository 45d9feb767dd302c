package leat.cli;

import java.nio.file.Path;
import java.time.ZoneId;
import java.util.Optional;
import leat.config.LoadedSite;
import leat.config.Site;
import leat.config.SiteFile;
import leat.report.Shown;
import leat.signal.PressureUnit;
import leat.words.Language;
import picocli.CommandLine.Option;

/** Which site a command is about: its {@code site.yaml}, or directly a store. */
final class SiteChoice implements Speaking {

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

    @Option(
            names = "--lang",
            paramLabel = "LANGUAGE",
            converter = LanguageChoice.class,
            description = "en or de (default: the site's; with --store en)")
    private Language language;

    /** The database, how to show what is in it, and the site where one was chosen. */
    record Chosen(Path database, Shown shown, Optional<Site> site) {}

    Chosen chosen() {
        if (store != null) {
            Shown shown =
                    new Shown(ZoneId.systemDefault(), PressureUnit.PSI, language().orElseThrow());
            return new Chosen(store, shown, Optional.empty());
        }
        Site site = load(file());
        return new Chosen(site.store().file(), shown(site), Optional.of(site));
    }

    /**
     * How a site is shown: in its unit and zone, and in its language unless another is asked for.
     */
    Shown shown(Site site) {
        return new Shown(site.zone(), site.shownIn(), asked().orElse(site.language()));
    }

    /** The language that was asked for. */
    Optional<Language> asked() {
        return Optional.ofNullable(language);
    }

    /** Asked for, or of the site; a site that cannot be read has none. */
    @Override
    public Optional<Language> language() {
        return asked().or(() -> store == null ? languageOf(file()) : Optional.of(Language.ENGLISH));
    }

    /** Of the site that a file describes; empty where it describes none. */
    static Optional<Language> languageOf(Path file) {
        return SiteFile.load(file, name -> Optional.ofNullable(System.getenv(name)))
                .site()
                .map(Site::language);
    }

    /** The site of this very command line; none is looked for. */
    Optional<Site> given() {
        return Optional.ofNullable(file).map(SiteChoice::load);
    }

    /** The configuration, where no store was named in its place. */
    Path siteFile() {
        if (store != null) {
            throw new CommandFailure.Expected(ExitCode.WRONG, "cli.needs-site");
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
            throw CommandFailure.Expected.worded(ExitCode.WRONG, listed(loaded));
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
