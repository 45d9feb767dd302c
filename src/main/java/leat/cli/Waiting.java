package leat.cli;

import java.time.Duration;
import leat.store.InstructionBox;
import leat.store.InstructionFate;
import leat.words.AlarmWords;

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
    static String words(InstructionFate fate) {
        return switch (fate.state()) {
            case TAKEN -> "done.";
            case WAITING -> "it is written down; leat is not running and takes it up when it does.";
            case REFUSED ->
                    "refused: " + fate.reason().map(AlarmWords.ENGLISH::refusal).orElse("") + ".";
        };
    }

    static int code(InstructionFate fate) {
        return fate.state() == InstructionFate.State.REFUSED ? ExitCode.FAILED : ExitCode.DONE;
    }
}
