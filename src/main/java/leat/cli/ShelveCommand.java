package leat.cli;

import java.util.concurrent.Callable;
import leat.instruct.Refused;
import leat.instruct.Request;
import leat.report.Shown;
import leat.signal.Order;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Spec;

@Command(
        name = "shelve",
        mixinStandardHelpOptions = true,
        description = {
            "Puts an alarm aside for a while: it is watched and written down, but nobody is called for"
                    + " it.",
            "It comes back when the time is over, or at once if it gets graver than it has been."
        })
final class ShelveCommand implements Callable<Integer> {

    @Mixin private AlarmOrder order;

    @Option(
            names = "--for",
            required = true,
            paramLabel = "TIME",
            description = "how long from now, such as 30min or 8h")
    private String time;

    @Option(
            names = "--why",
            required = true,
            paramLabel = "TEXT",
            description = "the reason, for whoever comes next")
    private String why;

    @Spec private CommandSpec spec;

    @Override
    public Integer call() throws Refused, InterruptedException {
        return order.ask(
                spec, (requests, alarm) -> requests.shelve(alarm, time, why), ShelveCommand::until);
    }

    private static String until(Request request, Shown shown) {
        long until = ((Order.Shelve) request.instruction().order()).untilMicros();
        return " " + shown.say("cli.shelved-until", shown.time(until));
    }
}
