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
import leat.words.Language;
import leat.words.Phrases;
import picocli.CommandLine.Command;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
        name = "check",
        mixinStandardHelpOptions = true,
        description = "Reads a site.yaml and reports every mistake in it; starts nothing.")
final class CheckCommand implements Callable<Integer>, Speaking {

    @Parameters(
            paramLabel = "SITE.YAML",
            defaultValue = "site.yaml",
            description = "default: ${DEFAULT-VALUE}")
    private Path file;

    @Spec private CommandSpec spec;

    /** The site's own. */
    @Override
    public Optional<Language> language() {
        return SiteChoice.languageOf(file);
    }

    @Override
    public Integer call() {
        LoadedSite loaded = SiteFile.load(file, name -> Optional.ofNullable(System.getenv(name)));
        Phrases phrases = Phrases.in(loaded.site().map(Site::language).orElse(Language.ENGLISH));
        Mistakes.shown(loaded.warnings()).forEach(warning -> warn(warning, phrases));
        if (loaded.site().isEmpty()) {
            spec.commandLine().getErr().println(SiteChoice.listed(loaded));
            return ExitCode.WRONG;
        }
        Site site = loaded.site().get();
        spec.commandLine()
                .getOut()
                .println(PlainText.harmless(phrases.say("cli.check.good", file.toString())));
        for (MachineSettings machine : site.machines()) {
            spec.commandLine()
                    .getOut()
                    .printf(
                            "  %s: %s%n",
                            machine.name(),
                            machine.channels().stream()
                                    .map(
                                            c ->
                                                    phrases.say(
                                                            "cli.check.from",
                                                            c.channel().key(),
                                                            c.connection()))
                                    .toList());
            NoInlet.note(machine.byChannel().keySet())
                    .ifPresent(
                            note -> spec.commandLine().getOut().println("    " + note.in(phrases)));
        }
        sayDisk(DiskNeed.of(site), DiskNeed.free(site.store().file()), phrases);
        return ExitCode.DONE;
    }

    private void sayDisk(DiskNeed need, OptionalLong free, Phrases phrases) {
        need.lines(free, phrases).forEach(spec.commandLine().getOut()::println);
        need.shortage(free, phrases).ifPresent(words -> warn(words, phrases));
    }

    private void warn(String words, Phrases phrases) {
        spec.commandLine().getErr().println(phrases.say("cli.check.warning", words));
    }
}
