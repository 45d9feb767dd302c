package leat.cli;

import java.util.concurrent.Callable;
import leat.instruct.Refused;
import leat.signal.Order;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Spec;

@Command(
        name = "unshelve",
        mixinStandardHelpOptions = true,
        description =
                "Brings a shelved alarm back before its time: if it is active, people are called again.")
final class UnshelveCommand implements Callable<Integer> {

    @Mixin private AlarmOrder order;

    @Spec private CommandSpec spec;

    @Override
    public Integer call() throws Refused, InterruptedException {
        return order.ask(spec, (requests, alarm) -> requests.about(alarm, Order.Unshelve::new));
    }
}
