package leat.cli;

import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import leat.diagnose.Answer;
import leat.instruct.Refused;
import leat.store.JournalLine;
import leat.store.StoreReader;
import leat.store.StoredStartup;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
        name = "answer",
        mixinStandardHelpOptions = true,
        description = {
            "Says what a check showed, such as: leat answer 3 recovers. The causes are ranked anew by it.",
            "It counts for the machine until somebody works on it, at most for a week, and stands in the journal."
        })
final class AnswerCommand implements Callable<Integer> {

    @Parameters(
            index = "0",
            paramLabel = "WHAT",
            description = "a machine, a startup such as jet-1/17, or the number of an alarm")
    private String about;

    @Parameters(index = "1", paramLabel = "ANSWER", description = "such as recovers or stays-low")
    private String answer;

    @Option(names = "--note", paramLabel = "TEXT", description = "more about it, for the journal")
    private String note = "";

    @Mixin private Asking asking;

    @Spec private CommandSpec spec;

    @Override
    public Integer call() throws Refused, InterruptedException {
        try (StoreReader reader = StoreReader.open(asking.site().database())) {
            if (!reader.machines().contains(about) && about.contains("/")) {
                StartupNumber.of(about).ifPresent(number -> requireOfNow(reader, number));
            }
        }
        return asking.ask(
                spec,
                "answer about " + about,
                requests -> requests.answer(about, answer, note, List.<Answer>of()));
    }

    /** What is found out now says nothing of a start before the machine was worked on. */
    private static void requireOfNow(StoreReader reader, StartupNumber number) {
        StoredStartup startup = number.in(reader);
        Optional<JournalLine> since =
                reader.journal(Optional.of(startup.machine()), Integer.MAX_VALUE).stream()
                        .filter(line -> line.entry().entry().beginsAnew())
                        .filter(line -> line.seq() > startup.seq())
                        .findFirst();
        if (since.isPresent()) {
            throw new CommandFailure.Expected(
                    ExitCode.WRONG,
                    startup.machine()
                            + " was worked on after that start ("
                            + since.get().entry().entry().key()
                            + "). What a check shows now is of a later one.");
        }
    }
}
