package leat.cli;

import java.util.concurrent.Callable;
import leat.instruct.Refused;
import leat.signal.Order;
import leat.words.Saying;
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
                    + " is usual for the machine is learned anew. A service that nobody ends is ended after alarm.longest_hold (24 h).",
            "--did and --found, with off, say what was done and what was the matter, as with leat journal."
        })
final class ServiceCommand implements Callable<Integer> {

    @Parameters(index = "0", paramLabel = "MACHINE", description = "such as jet-1")
    private String machine;

    @Parameters(index = "1", paramLabel = "on|off", description = "work begins, or has ended")
    private String turn;

    @Option(names = "--why", paramLabel = "TEXT", description = "what is done, for the journal")
    private String why = "";

    @Mixin private WorkWords work;

    @Mixin private Asking asking;

    @Spec private CommandSpec spec;

    @Override
    public Integer call() throws Refused, InterruptedException {
        Saying about = Saying.of("cli.about.service", machine, turn);
        if (work.did().isEmpty() && work.found().isEmpty()) {
            return asking.ask(spec, about, requests -> requests.service(machine, turn, why));
        }
        if (!turn.equals("off")) {
            throw new CommandFailure.Expected(ExitCode.WRONG, "cli.service.only-off");
        }
        Order.Entry did = work.did().orElse(Order.Entry.NOTE);
        int code =
                asking.ask(
                        spec,
                        Saying.of("cli.about.journal", machine),
                        requests -> requests.journal(machine, did, why, work.found()));
        return code == ExitCode.DONE
                ? asking.ask(spec, about, requests -> requests.service(machine, turn, ""))
                : code;
    }
}
