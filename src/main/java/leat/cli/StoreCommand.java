package leat.cli;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import java.util.concurrent.Callable;
import leat.config.Site;
import leat.json.IfThere;
import leat.json.Published;
import leat.report.Json;
import leat.report.Shown;
import leat.report.TextTable;
import leat.signal.PlainText;
import leat.store.HeldReadings;
import leat.store.StoreReader;
import leat.words.Language;
import leat.words.Numbers;
import leat.words.Phrases;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
        name = "store",
        mixinStandardHelpOptions = true,
        description = {
            "Shows what the store holds: readings of each machine, since when, and the disk that they take.",
            "leat store backup FILE writes a sound copy of all of it, while leat runs or not."
        })
final class StoreCommand implements Callable<Integer> {

    private static final double SECONDS_A_DAY = 86_400;

    @Mixin private SiteChoice site;

    @Option(names = "--json", description = "show as one JSON document (config/store.schema.json)")
    private boolean asJson;

    @Mixin private TableWidth width;

    @Spec private CommandSpec spec;

    @Override
    public Integer call() {
        SiteChoice.Chosen chosen = site.chosen();
        try (StoreReader reader = StoreReader.open(chosen.database())) {
            Told told = Told.of(reader, chosen);
            if (asJson) {
                spec.commandLine().getOut().println(Json.print(told));
            } else {
                print(told, chosen.shown());
            }
        }
        return ExitCode.DONE;
    }

    private void print(Told told, Shown shown) {
        Phrases phrases = shown.phrases();
        Language language = phrases.language();
        TextTable table =
                new TextTable()
                        .soft(phrases.say("held.machine"), 12)
                        .firm(phrases.say("held.since"))
                        .firm(phrases.say("held.days"))
                        .firm(phrases.say("held.readings"))
                        .firm(phrases.say("held.packed"))
                        .firm(phrases.say("held.each"))
                        .spare(phrases.say("held.a-day"));
        for (Machine machine : told.machines()) {
            table.row(
                    machine.machine(),
                    machine.sinceMicros().isPresent()
                            ? shown.time(machine.sinceMicros().getAsLong())
                            : "-",
                    Numbers.number(language, machine.seconds() / SECONDS_A_DAY, 1),
                    Long.toString(machine.readings()),
                    machine.packedReadings() == 0 ? "-" : size(machine.packedBytes(), language),
                    machine.packedReadings() == 0
                            ? "-"
                            : Numbers.number(
                                    language,
                                    (double) machine.packedBytes() / machine.packedReadings(),
                                    2),
                    machine.packedSeconds() == 0 ? "-" : size(machine.packedADay(), language));
        }
        width.print(table);
        width.say(
                phrases.say(
                        "held.file",
                        size(told.fileBytes(), language),
                        size(told.freeWithinBytes(), language),
                        told.freeOnDiskBytes().map(free -> size(free, language)).orElse("?")));
        told.keptDays()
                .ifPresent(
                        days ->
                                width.say(
                                        phrases.say(
                                                told.packedADay() == 0
                                                        ? "held.kept.none"
                                                        : "held.kept",
                                                Numbers.number(language, days, 0),
                                                size(told.packedADay() * days, language))));
    }

    private static String size(double bytes, Language language) {
        return bytes < 1e5
                ? Numbers.number(language, bytes / 1e3, 1) + " kB"
                : bytes < 1e9
                        ? Numbers.number(language, bytes / 1e6, 1) + " MB"
                        : Numbers.number(language, bytes / 1e9, 1) + " GB";
    }

    @Command(
            name = "backup",
            mixinStandardHelpOptions = true,
            description = {
                "Writes all that the store holds at this moment into FILE and proves that it is sound.",
                "To go back to it: end leat, move leat.db, leat.db-wal and leat.db-shm away, and put FILE"
                        + " in the place of leat.db, owned by leat's user."
            })
    int backup(
            @Mixin SiteChoice which,
            @Parameters(paramLabel = "FILE", description = "a file that is not there yet")
                    Path file)
            throws IOException {
        SiteChoice.Chosen chosen = which.chosen();
        Phrases phrases = chosen.shown().phrases();
        if (Files.exists(file)) {
            throw new CommandFailure.Expected(
                    ExitCode.FAILED, "held.there-already", file.toString());
        }
        try (StoreReader reader = StoreReader.open(chosen.database())) {
            reader.copyTo(file);
        }
        spec.commandLine()
                .getOut()
                .println(
                        PlainText.harmless(
                                phrases.say(
                                        "held.backed-up",
                                        file.toString(),
                                        size(Files.size(file), phrases.language()))));
        return ExitCode.DONE;
    }

    /** The document. */
    @Published("leat.store/1")
    record Told(
            long fileBytes,
            long freeWithinBytes,
            @IfThere Optional<Long> freeOnDiskBytes,
            @IfThere Optional<Double> keptDays,
            List<Machine> machines) {

        static Told of(StoreReader reader, SiteChoice.Chosen chosen) {
            return new Told(
                    reader.summary().bytes(),
                    reader.freeBytes(),
                    DiskNeed.free(chosen.database()).stream().boxed().findFirst(),
                    chosen.site()
                            .map(Site::store)
                            .map(store -> store.keepSamples().toSeconds() / SECONDS_A_DAY),
                    reader.held().stream().map(Machine::of).toList());
        }

        double packedADay() {
            return machines.stream().mapToDouble(Machine::packedADay).sum();
        }
    }

    /** One machine's readings. */
    record Machine(
            String machine,
            @IfThere OptionalLong sinceMicros,
            long readings,
            long seconds,
            long packedReadings,
            long packedSeconds,
            long packedBytes) {

        static Machine of(HeldReadings held) {
            return new Machine(
                    held.machine(),
                    held.sinceMicros(),
                    held.readings(),
                    held.seconds(),
                    held.packedReadings(),
                    held.packedSeconds(),
                    held.packedBytes());
        }

        double packedADay() {
            return packedSeconds == 0 ? 0 : packedBytes * SECONDS_A_DAY / packedSeconds;
        }
    }
}
