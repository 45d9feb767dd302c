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
        name = "ack",
        mixinStandardHelpOptions = true,
        description = "Says that an alarm has been seen and somebody looks after it.")
final class AckCommand implements Callable<Integer> {

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
                spec, site.chosen(), alarms, id -> new Instruction.Acknowledge(now, by, id));
    }
}
