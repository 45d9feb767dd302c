package leat.cli;

import java.util.concurrent.Callable;
import leat.instruct.Refused;
import leat.signal.Order;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

@Command(
        name = "ack",
        mixinStandardHelpOptions = true,
        description = {
            "Says that an alarm has been seen and somebody looks after it.",
            "Of channels that fell silent together it is enough to name one: all of them that nobody has"
                    + " acknowledged are, each with an instruction of its own, and leat says which."
        })
final class AckCommand implements Callable<Integer> {

    @Mixin private AlarmOrder order;

    @Spec private CommandSpec spec;

    @Override
    public Integer call() throws Refused, InterruptedException {
        return order.askOfWhole(
                spec, (requests, alarm) -> requests.about(alarm, Order.Acknowledge::new));
    }
}
