package leat.cli;

import java.io.PrintWriter;
import java.util.Optional;
import java.util.concurrent.Callable;
import leat.config.Site;
import leat.report.Glyphs;
import leat.screen.Display;
import leat.screen.Picture;
import leat.screen.SiteView;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
        name = "watch",
        mixinStandardHelpOptions = true,
        description = {
            "Shows what is so now, anew each second: whether leat runs, each machine in a line, and one in full with"
                    + " both gauges, what they should be, what stands with the first check, and the curve of the"
                    + " start that climbs or of the last one. q or Ctrl-C ends it; a number or an arrow chooses a"
                    + " machine.",
            "It looks into the store, beside a leat that runs or after it. Where the output is no terminal, each"
                    + " change is a line: time, machine, what is so.",
            "NO_COLOR turns colours off; what they say stands there in words too. leat only reads: this is no safety"
                    + " device."
        })
final class WatchCommand implements Callable<Integer> {

    @Parameters(
            arity = "0..1",
            paramLabel = "MACHINE",
            description = "this machine alone (default: all)")
    private Optional<String> machine;

    @Mixin private SiteChoice choice;

    @Option(names = "--lines", description = "a line for each change, on a terminal too")
    private boolean lines;

    @Option(names = "--ascii", description = "draw with plain characters")
    private boolean ascii;

    @Spec private CommandSpec spec;

    @Override
    public Integer call() throws InterruptedException {
        SiteChoice.Chosen chosen = choice.chosen();
        Site all = MachineChoice.all(chosen);
        Site site = machine.map(name -> MachineChoice.one(all, name)).orElse(all);
        try (SiteView view = new SiteView(chosen.database(), site)) {
            view.now(Who.nowMicros());
            Picture picture = new Picture(site.name(), choice.shown(all), Glyphs.of(ascii));
            Display display = new Display(view, picture, Who::nowMicros);
            if (lines || !display.onTerminal(isColourWanted())) {
                PrintWriter out = spec.commandLine().getOut();
                display.inLines(out);
            }
        }
        return ExitCode.DONE;
    }

    /** As no-color.org asks: any value that is not empty turns them off. */
    private static boolean isColourWanted() {
        return Optional.ofNullable(System.getenv("NO_COLOR")).orElse("").isEmpty();
    }
}
