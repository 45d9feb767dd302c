package leat.cli;

import java.time.Duration;
import leat.store.InstructionBox;
import leat.store.InstructionFate;
import leat.words.AlarmWords;
import leat.words.Phrases;

/** Waits a moment for the daemon to take up an instruction, and says what became of it. */
final class Waiting {

    private static final Duration LONGEST = Duration.ofSeconds(4);
    private static final long LOOK_MILLIS = 100;

    private Waiting() {}

    static InstructionFate fate(InstructionBox box, long number) throws InterruptedException {
        long end = System.nanoTime() + LONGEST.toNanos();
        if (box.hasLeatEnded()) {
            return box.fate(number);
        }
        InstructionFate fate = box.fate(number);
        while (fate.state() == InstructionFate.State.WAITING && System.nanoTime() < end) {
            Thread.sleep(LOOK_MILLIS);
            fate = box.fate(number);
        }
        return fate;
    }

    /** One line for the person, and the exit code. */
    static String words(InstructionFate fate, Phrases phrases) {
        return switch (fate.state()) {
            case TAKEN -> phrases.say("cli.fate.taken");
            case WAITING -> phrases.say("cli.fate.waiting");
            case REFUSED ->
                    phrases.say(
                            "cli.fate.refused",
                            fate.reason().map(new AlarmWords(phrases)::refusal).orElse(""));
        };
    }

    static int code(InstructionFate fate) {
        return fate.state() == InstructionFate.State.REFUSED ? ExitCode.FAILED : ExitCode.DONE;
    }
}
