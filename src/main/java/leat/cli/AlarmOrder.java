package leat.cli;

import java.io.PrintWriter;
import java.util.List;
import java.util.OptionalLong;
import java.util.function.Function;
import leat.signal.Instruction;
import leat.store.InstructionBox;
import leat.store.InstructionFate;
import picocli.CommandLine.Model.CommandSpec;

/** Leaves one instruction for each of some alarms, and says what became of it. */
final class AlarmOrder {

    private AlarmOrder() {}

    /**
     * @param alarms numbers or ids
     * @param instruction made from the alarm's id
     * @return the exit code: the worst of all
     */
    static int leave(
            CommandSpec spec,
            SiteChoice.Chosen chosen,
            List<String> alarms,
            Function<String, Instruction.AboutAlarm> instruction)
            throws InterruptedException {
        PrintWriter out = spec.commandLine().getOut();
        int code = Main.DONE;
        try (InstructionBox box = InstructionBox.open(chosen.database())) {
            for (String alarm : alarms) {
                OptionalLong number = box.about(alarm, instruction);
                if (number.isEmpty()) {
                    spec.commandLine()
                            .getErr()
                            .println("There is no alarm " + alarm + ". See: leat alerts");
                    code = Math.max(code, Main.WRONG);
                } else {
                    InstructionFate fate = Waiting.fate(box, number.getAsLong());
                    out.println("alarm " + alarm + ": " + Waiting.words(fate));
                    code = Math.max(code, Waiting.code(fate));
                }
            }
        }
        return code;
    }

    static void requireReason(String why) {
        if (why == null || why.isBlank()) {
            throw new Trouble.Expected(Main.WRONG, "Say why: --why \"waiting for the new gauge\"");
        }
    }
}
