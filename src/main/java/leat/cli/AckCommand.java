package leat.cli;

import java.time.Instant;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.concurrent.Callable;
import leat.signal.Instruction;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
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

    @Option(
            names = "--by",
            paramLabel = "NAME",
            description = "who has seen it (default: the user logged in)")
    private String by = System.getProperty("user.name");

    @Spec private CommandSpec spec;

    @Override
    public Integer call() throws InterruptedException {
        requireName(by);
        long now = nowMicros();
        return AlarmOrder.leave(
                spec, site.chosen(), alarms, id -> new Instruction.Acknowledge(now, by, id));
    }

    static void requireName(String by) {
        if (by == null || by.isBlank()) {
            throw new Trouble.Expected(Main.WRONG, "Say who it is: --by NAME");
        }
    }

    static long nowMicros() {
        return ChronoUnit.MICROS.between(Instant.EPOCH, Instant.now());
    }
}
