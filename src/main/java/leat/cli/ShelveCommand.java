package leat.cli;

import java.time.Duration;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import leat.config.MachineSettings;
import leat.rule.Limit;
import leat.signal.Instruction;
import leat.store.StoreReader;
import leat.store.StoredAlarm;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
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

    @Mixin private SiteChoice site;

    @Parameters(
            arity = "1..*",
            paramLabel = "ALARM",
            description = "number or id, as leat alerts shows them")
    private List<String> alarms;

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

    @Mixin private Who who;

    @Spec private CommandSpec spec;

    @Override
    public Integer call() throws InterruptedException {
        String by = who.name();
        AlarmOrder.requireReason(why);
        Duration duration = TimeWords.duration("--for", time);
        SiteChoice.Chosen chosen = site.chosen();
        alarms.forEach(alarm -> requireShortEnough(chosen, alarm, duration));
        long now = Who.nowMicros();
        long until = now + duration.toMillis() * 1_000;
        int code =
                AlarmOrder.leave(
                        spec,
                        chosen,
                        alarms,
                        id -> new Instruction.Shelve(now, by, id, until, why));
        if (code == Main.DONE) {
            spec.commandLine()
                    .getOut()
                    .println("Shelved until " + chosen.shown().time(until) + " at the latest.");
        }
        return code;
    }

    /** Said here too, because a leat that is down could only say so when nobody looks any more. */
    private static void requireShortEnough(
            SiteChoice.Chosen chosen, String alarm, Duration duration) {
        Optional<MachineSettings> machine = machine(chosen, alarm);
        if (machine.isEmpty()) {
            return;
        }
        double longest = machine.get().limits().get(Limit.ALARM_LONGEST_HOLD);
        if (duration.toMillis() / 1e3 > longest) {
            throw new Trouble.Expected(
                    Main.WRONG,
                    "--for: an alarm of "
                            + machine.get().name()
                            + " can be shelved for "
                            + words(Duration.ofSeconds(Math.round(longest)))
                            + " at a time (alarm.longest_hold in site.yaml).");
        }
    }

    private static String words(Duration longest) {
        return longest.toMinutes() % 60 == 0
                ? longest.toHours() + " h"
                : longest.toMinutes() + " min";
    }

    private static Optional<MachineSettings> machine(SiteChoice.Chosen chosen, String alarm) {
        try (StoreReader reader = StoreReader.open(chosen.database())) {
            Optional<StoredAlarm> stored = reader.alarm(alarm);
            return chosen.site()
                    .flatMap(
                            s ->
                                    s.machines().stream()
                                            .filter(
                                                    m ->
                                                            stored.isPresent()
                                                                    && m.name()
                                                                            .equals(
                                                                                    stored.get()
                                                                                            .machine()))
                                            .findFirst());
        }
    }
}
