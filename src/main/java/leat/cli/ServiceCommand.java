package leat.cli;

import java.util.concurrent.Callable;
import leat.signal.Instruction;
import leat.store.InstructionBox;
import leat.store.InstructionFate;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
        name = "service",
        mixinStandardHelpOptions = true,
        description = {
            "Says that somebody works on a machine: while the service is on, nobody is called for its"
                    + " pressures. Channels that fall silent are still told.",
            "When it is off again, the line counts as opened: the next starts may be slow, and what"
                    + " is usual for the machine is learned anew. A service that nobody ends is ended after alarm.longest_hold (24 h)."
        })
final class ServiceCommand implements Callable<Integer> {

    @Mixin private SiteChoice site;

    @Parameters(index = "0", paramLabel = "MACHINE", description = "such as jet-1")
    private String machine;

    @Parameters(index = "1", paramLabel = "on|off", description = "work begins, or has ended")
    private String turn;

    @Option(names = "--why", paramLabel = "TEXT", description = "what is done, for the journal")
    private String why = "";

    @Mixin private Who who;

    @Spec private CommandSpec spec;

    @Override
    public Integer call() throws InterruptedException {
        String by = who.name();
        Instruction.Entry entry = entry(turn);
        SiteChoice.Chosen chosen = site.chosen();
        JournalCommand.requireKnown(chosen, machine);
        try (InstructionBox box = InstructionBox.open(chosen.database())) {
            long now = Who.nowMicros();
            long number = box.journal(machine, new Instruction.Journal(now, by, entry, why));
            InstructionFate fate = Waiting.fate(box, number);
            spec.commandLine()
                    .getOut()
                    .println("service of " + machine + " " + turn + ": " + Waiting.words(fate));
            return Waiting.code(fate);
        }
    }

    private static Instruction.Entry entry(String turn) {
        return switch (turn) {
            case "on" -> Instruction.Entry.SERVICE_ON;
            case "off" -> Instruction.Entry.SERVICE_OFF;
            default ->
                    throw new Trouble.Expected(
                            Main.WRONG, "Say whether it begins or has ended: on or off.");
        };
    }
}
