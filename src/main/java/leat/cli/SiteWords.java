package leat.cli;

import java.util.Optional;
import leat.config.Site;
import leat.report.Shown;
import leat.words.Language;
import picocli.CommandLine.Option;

/** How a site is shown: in its unit and zone, and in its language unless another is asked for. */
final class SiteWords {

    @Option(
            names = "--lang",
            paramLabel = "LANGUAGE",
            converter = LanguageChoice.class,
            description = "en or de (default: the site's)")
    private Language language;

    Shown of(Site site) {
        return new Shown(
                site.zone(), site.shownIn(), Optional.ofNullable(language).orElse(site.language()));
    }
}
