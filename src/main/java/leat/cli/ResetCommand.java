package leat.cli;

import java.util.List;
import java.util.concurrent.Callable;
import leat.signal.Instruction;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
        name = "reset",
        mixinStandardHelpOptions = true,
        description =
                "Lets an alarm go that has latched: its condition is gone, and it has been acknowledged.")
final class ResetCommand implements Callable<Integer> {

    @Mixin private SiteChoice site;

    @Parameters(
            arity = "1..*",
            paramLabel = "ALARM",
            description = "number or id, as leat alerts shows them")
    private List<String> alarms;

    @Mixin private Who who;

    @Spec private CommandSpec spec;

    @Override
    public Integer call() throws InterruptedException {
        String by = who.name();
        long now = Who.nowMicros();
        return AlarmOrder.leave(
                spec, site.chosen(), alarms, id -> new Instruction.Reset(now, by, id));
    }
}
