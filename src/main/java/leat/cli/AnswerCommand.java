package leat.cli;

import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import leat.diagnose.Answer;
import leat.diagnose.Check;
import leat.diagnose.Diagnosis;
import leat.instruct.Refused;
import leat.replay.PastDiagnosis;
import leat.replay.WhyAbout;
import leat.store.JournalLine;
import leat.store.StoreReader;
import leat.store.StoredStartup;
import leat.words.Saying;
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
        List<Answer> asked;
        try (StoreReader reader = StoreReader.open(asking.site().database())) {
            Optional<WhyAbout> subject = subject(reader);
            asked = Answer.byKey(answer).isPresent() ? List.of() : asked(reader, subject);
        }
        return asking.ask(
                spec,
                Saying.of("cli.about.answer", about),
                requests -> requests.answer(about, answer, note, asked));
    }

    /** Empty where there is no such thing. */
    private Optional<WhyAbout> subject(StoreReader reader) {
        if (reader.machines().contains(about)) {
            return Optional.of(WhyAbout.machine(about, reader));
        }
        if (about.contains("/")) {
            Optional<StoredStartup> start =
                    StartupNumber.of(about).map(number -> number.in(reader));
            start.ifPresent(startup -> requireOfNow(reader, startup));
            return start.map(WhyAbout::start);
        }
        return reader.alarm(about).map(alarm -> WhyAbout.alarm(alarm, reader));
    }

    /** The answers to the check that is the best to make now. */
    private static List<Answer> asked(StoreReader reader, Optional<WhyAbout> subject) {
        return subject.map(each -> PastDiagnosis.of(reader, each).why())
                .flatMap(Diagnosis::check)
                .map(Check::answers)
                .orElse(List.of());
    }

    /** What is found out now says nothing of a start before the machine was worked on. */
    private static void requireOfNow(StoreReader reader, StoredStartup startup) {
        Optional<JournalLine> since =
                reader.journal(Optional.of(startup.machine()), Integer.MAX_VALUE).stream()
                        .filter(line -> line.entry().entry().beginsAnew())
                        .filter(line -> line.seq() > startup.seq())
                        .findFirst();
        since.ifPresent(
                line -> {
                    throw new CommandFailure.Expected(
                            ExitCode.WRONG,
                            "cli.answer.too-late",
                            startup.machine(),
                            line.entry().entry().key());
                });
    }
}
