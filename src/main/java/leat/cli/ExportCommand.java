package leat.cli;

import java.io.IOException;
import java.io.Writer;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardCopyOption;
import java.time.ZoneId;
import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.Callable;
import leat.acquire.recording.RecordingHead;
import leat.acquire.recording.RecordingWriter;
import leat.config.Site;
import leat.config.SiteFile;
import leat.replay.StoredSpan;
import leat.report.Shown;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.PlainText;
import leat.signal.Reading;
import leat.store.StoreReader;
import leat.store.StoredStartup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
        name = "export",
        mixinStandardHelpOptions = true,
        description = {
            "Writes a stored startup, from a minute before it until it was measured, or a span of time as one"
                    + " CSV file with the configuration that it was judged under.",
            "leat replay reads it back anywhere and says what leat said; so do spreadsheets, which read the"
                    + " lines that start with # as text. Pressures are psi gauge, times UTC."
        })
final class ExportCommand implements Callable<Integer> {

    @Mixin private SiteChoice site;
    @Mixin private SpanChoice span;

    @Parameters(
            arity = "0..1",
            paramLabel = "NUMBER",
            description = "a startup as leat startups shows it, such as jet-1/17")
    private String number;

    @Option(
            names = {"-o", "--out"},
            paramLabel = "FILE",
            required = true,
            description = "the file to write")
    private Path out;

    @Option(names = "--force", description = "write over a file that is there")
    private boolean force;

    @Spec private CommandSpec spec;

    @Override
    public Integer call() throws IOException {
        if (number == null && !span.isGiven()) {
            throw new CommandFailure.Expected(ExitCode.WRONG, "cli.export.what");
        }
        if (Files.exists(out) && !force) {
            throw new CommandFailure.Expected(ExitCode.FAILED, "cli.there-already", out.toString());
        }
        SiteChoice.Chosen chosen = site.chosen();
        try (StoreReader reader = StoreReader.open(chosen.database())) {
            StoredSpan past = past(reader, chosen);
            RecordingHead head = head(reader, past, chosen);
            write(past, head, chosen.shown());
        }
        return ExitCode.DONE;
    }

    private StoredSpan past(StoreReader reader, SiteChoice.Chosen chosen) {
        if (number == null) {
            return span.between(reader, chosen.shown().zone());
        }
        StoredStartup startup =
                StartupNumber.of(number)
                        .orElseThrow(
                                () ->
                                        new CommandFailure.Expected(
                                                ExitCode.WRONG, "cli.export.no-number", number))
                        .in(reader);
        return span.of(reader, startup);
    }

    private static RecordingHead head(
            StoreReader reader, StoredSpan past, SiteChoice.Chosen chosen) {
        String text = reader.configText(past.configHash()).orElse("");
        Optional<Site> then = SiteFile.archived(text).site().or(chosen::site);
        ZoneId zone = then.map(Site::zone).orElse(chosen.shown().zone());
        return new RecordingHead(
                Version.text(),
                then.map(Site::name).orElse(""),
                past.machine(),
                zone,
                past.configHash(),
                text);
    }

    /** The file appears only when it is whole. */
    private void write(StoredSpan past, RecordingHead head, Shown shown) throws IOException {
        Path part = out.resolveSibling(out.getFileName() + ".part");
        long[] count = new long[1];
        try {
            Writer file = Files.newBufferedWriter(part);
            try (RecordingWriter writer = new RecordingWriter(file, head, channels(past, head))) {
                past.read(
                        input -> {
                            writer.write(input);
                            count[0]++;
                        });
            }
            Files.move(part, out, StandardCopyOption.REPLACE_EXISTING);
        } finally {
            Files.deleteIfExists(part);
        }
        spec.commandLine()
                .getOut()
                .println(
                        PlainText.harmless(
                                shown.say(
                                        "cli.export.done",
                                        out.toString(),
                                        Long.toString(count[0]),
                                        past.machine())));
    }

    /** Those that the machine has, and any other of which there is a reading. */
    private static Set<Channel> channels(StoredSpan past, RecordingHead head) {
        Set<Channel> channels = EnumSet.of(Channel.BOOSTED);
        channels.addAll(
                SiteFile.archived(head.configText())
                        .site()
                        .flatMap(s -> s.machine(past.machine()))
                        .map(machine -> machine.byChannel().keySet())
                        .orElse(Set.of(Channel.INLET)));
        past.read((Input input) -> addChannel(input, channels));
        return channels;
    }

    private static void addChannel(Input input, Set<Channel> channels) {
        if (input instanceof Reading reading) {
            channels.add(reading.channel());
        }
    }
}
