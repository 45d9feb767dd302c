package leat.cli;

import java.nio.file.Path;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.concurrent.Callable;
import leat.config.LoadedSite;
import leat.config.MachineSettings;
import leat.config.Site;
import leat.config.SiteFile;
import leat.signal.PlainText;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
        name = "check",
        mixinStandardHelpOptions = true,
        description = "Reads a site.yaml and reports every mistake in it; starts nothing.")
final class CheckCommand implements Callable<Integer> {

    @Parameters(
            paramLabel = "SITE.YAML",
            defaultValue = "site.yaml",
            description = "default: ${DEFAULT-VALUE}")
    private Path file;

    @Spec private CommandSpec spec;

    @Override
    public Integer call() {
        LoadedSite loaded = SiteFile.load(file, name -> Optional.ofNullable(System.getenv(name)));
        Mistakes.shown(loaded.warnings())
                .forEach(warning -> spec.commandLine().getErr().println("warning: " + warning));
        if (loaded.site().isEmpty()) {
            spec.commandLine().getErr().println(SiteChoice.listed(loaded));
            return ExitCode.WRONG;
        }
        Site site = loaded.site().get();
        spec.commandLine().getOut().println(PlainText.harmless(file + " is in order."));
        for (MachineSettings machine : site.machines()) {
            spec.commandLine()
                    .getOut()
                    .printf(
                            "  %s: %s%n",
                            machine.name(),
                            machine.channels().stream()
                                    .map(c -> c.channel().key() + " from " + c.connection())
                                    .toList());
            NoInlet.note(machine.byChannel().keySet())
                    .ifPresent(note -> spec.commandLine().getOut().println("    " + note));
        }
        sayDisk(DiskNeed.of(site), DiskNeed.free(site.store().file()));
        return ExitCode.DONE;
    }

    private void sayDisk(DiskNeed need, OptionalLong free) {
        need.lines(free).forEach(spec.commandLine().getOut()::println);
        need.shortage(free)
                .ifPresent(words -> spec.commandLine().getErr().println("warning: " + words));
    }
}
