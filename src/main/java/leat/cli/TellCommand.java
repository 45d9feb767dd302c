package leat.cli;

import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import leat.config.RouteSettings;
import leat.config.Site;
import leat.config.Spelling;
import leat.service.RouteTrial;
import leat.service.WayInWords;
import leat.signal.PlainText;
import leat.words.Language;
import leat.words.Phrases;
import leat.words.Saying;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
        name = "tell",
        mixinStandardHelpOptions = true,
        description = {
            "Sends one test message by one route, at once, and says step by step what happens.",
            "It begins with TEST and asks for nothing. It opens no alarm, leaves what stands at a broker"
                    + " alone, and needs no running leat. A program is run as for any message, with"
                    + " LEAT_EVENT=test: a siren sounds.",
            "Call it as the user that leat runs as, with the same environment: else a secret may be"
                    + " missing."
        })
final class TellCommand implements Callable<Integer>, Speaking {

    @Parameters(
            arity = "0..1",
            paramLabel = "ROUTE",
            description = "its name in site.yaml; without one, all of them are listed")
    private String name;

    @Option(names = "--test", description = "send a test message")
    private boolean test;

    @Option(
            names = {"-s", "--site"},
            paramLabel = "FILE",
            description = "the site's configuration (default: $LEAT_SITE, or site.yaml here)")
    private Path file;

    @Spec private CommandSpec spec;

    /** The site's own. */
    @Override
    public Optional<Language> language() {
        return SiteChoice.languageOf(SiteChoice.orUsual(file));
    }

    @Override
    public Integer call() throws InterruptedException {
        Site site = SiteChoice.load(SiteChoice.orUsual(file));
        if (name == null) {
            throw wrong(Saying.of("cli.tell.which"), site);
        }
        RouteSettings route =
                site.routes().stream()
                        .filter(r -> r.name().equals(name))
                        .findFirst()
                        .orElseThrow(() -> unknown(site));
        if (!test) {
            throw wrong(Saying.of("cli.tell.test", name), site);
        }
        boolean taken = new RouteTrial(site, route, Who.nowMicros(), this::say).run();
        return taken ? ExitCode.DONE : ExitCode.FAILED;
    }

    private CommandFailure.Expected unknown(Site site) {
        List<String> known = site.routes().stream().map(RouteSettings::name).toList();
        Saying none =
                Spelling.closest(name, known)
                        .map(meant -> Saying.of("cli.tell.meant", name, meant))
                        .orElseGet(() -> Saying.of("cli.tell.none", name));
        return wrong(none, site);
    }

    private static CommandFailure.Expected wrong(Saying what, Site site) {
        StringBuilder text = new StringBuilder();
        for (RouteSettings route : site.routes()) {
            text.append("\n  ").append(route.name()).append(": ");
            text.append(route.tell(new WayInWords(Phrases.in(site.language()))));
        }
        return new CommandFailure.Expected(
                ExitCode.WRONG, "cli.tell.routes", what, "\n", text.toString());
    }

    private void say(String step) {
        spec.commandLine().getOut().println(PlainText.harmless(step));
        spec.commandLine().getOut().flush();
    }
}
