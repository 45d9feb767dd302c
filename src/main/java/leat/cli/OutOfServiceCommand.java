package leat.cli;

import java.util.concurrent.Callable;
import leat.instruct.Refused;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

@Command(
        name = "out-of-service",
        mixinStandardHelpOptions = true,
        description = {
            "Takes an alarm itself out of service: nobody is called for it, however grave it gets, until"
                    + " --back puts it back. For an alarm that is known to be wrong, such as one about a"
                    + " transducer that is being replaced.",
            "For work on a machine there is leat service; to put an alarm aside for a while, leat shelve."
        })
final class OutOfServiceCommand implements Callable<Integer> {

    @Mixin private AlarmOrder order;

    @Option(names = "--back", description = "puts the alarm back into service")
    private boolean back;

    @Option(
            names = "--why",
            paramLabel = "TEXT",
            description = "the reason, for whoever comes next; needed unless --back")
    private String why = "";

    @Spec private CommandSpec spec;

    @Override
    public Integer call() throws Refused, InterruptedException {
        return order.ask(spec, (requests, alarm) -> requests.outOfService(alarm, !back, why));
    }
}
