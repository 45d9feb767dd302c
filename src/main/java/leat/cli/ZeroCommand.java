package leat.cli;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.util.Optional;
import java.util.concurrent.Callable;
import leat.config.MachineSettings;
import leat.config.Site;
import leat.instruct.Refused;
import leat.report.Shown;
import leat.signal.Channel;
import leat.signal.LengthOfTime;
import leat.signal.Order;
import leat.signal.PlainText;
import leat.signal.Transducer;
import leat.signal.TwoPoint;
import leat.store.StoreReader;
import leat.wiring.Correction;
import leat.wiring.CorrectionNote;
import leat.wiring.Steadiness;
import leat.wiring.TypedPressure;
import leat.words.Saying;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
        name = "zero",
        mixinStandardHelpOptions = true,
        description = {
            "Takes what a vented transducer reads for zero: shows the last seconds, asks, and writes the"
                    + " channel's scale into site.yaml. Everything else in the file stays, the old file"
                    + " stays beside it, and the journal has both.",
            "--against sets the gain by a hand gauge instead and keeps the zero. --look only shows what the"
                    + " channel reads, --history what was corrected over the years.",
            "Relieve the pressure by the site's procedure before a line is vented. leat only reads."
        })
final class ZeroCommand implements Callable<Integer> {

    private static final int LONGEST_MINUTES = 10;

    @Parameters(index = "0", paramLabel = "MACHINE", description = "such as jet-1")
    private String machine;

    @Parameters(index = "1", paramLabel = "CHANNEL", description = "inlet, boosted or filtered")
    private String channel;

    @Option(
            names = "--against",
            paramLabel = "PRESSURE",
            description = "what a hand gauge on the same line shows now: '100 psi'")
    private String against;

    @Option(names = "--look", description = "only show what it reads, and change nothing")
    private boolean look;

    @Option(names = "--history", description = "show the corrections so far, and the drift a year")
    private boolean history;

    @Option(
            names = "--over",
            paramLabel = "TIME",
            defaultValue = "10s",
            description = "readings of how long count (default: 10s)")
    private String over;

    @Mixin private YesOrNo consent;

    @Mixin private Asking asking;

    @Mixin private TableWidth width;

    @Spec private CommandSpec spec;

    /** What is to be corrected, by what. */
    private record Aim(
            Path file,
            Site site,
            Shown shown,
            Channel role,
            Transducer transducer,
            Optional<TypedPressure> gauge) {

        TwoPoint corrected(double readPsi) {
            return gauge.map(g -> Correction.against(transducer.pressure(), readPsi, g.psi()))
                    .orElseGet(() -> Correction.zeroed(transducer.pressure(), readPsi));
        }
    }

    @Override
    public Integer call() throws IOException, Refused, InterruptedException {
        Path file = asking.siteFile();
        Site site = asking.site().site().orElseThrow();
        Channel role = channel();
        Transducer transducer = transducer(site, role);
        Optional<TypedPressure> gauge = Optional.ofNullable(against).map(ProbeWishes::pressure);
        Aim aim = new Aim(file, site, asking.site().shown(), role, transducer, gauge);
        if (history) {
            try (StoreReader reader = StoreReader.open(asking.site().database())) {
                new CorrectionHistory(machine, role, aim.shown(), width).print(reader);
            }
            return ExitCode.DONE;
        }
        Steadiness seen = seen(site, role, aim.shown());
        return look ? ExitCode.DONE : correct(aim, seen);
    }

    private int correct(Aim aim, Steadiness seen)
            throws IOException, Refused, InterruptedException {
        refuseWhatIsNoTruth(aim, seen);
        ScaleChange change =
                ScaleChange.of(
                        aim.file(), aim.site(), machine, aim.role(), aim.corrected(seen.meanPsi()));
        say(change, aim.gauge(), aim.shown());
        Shown shown = aim.shown();
        if (!consent.says(shown.say("cli.zero.right", aim.file().toString()), shown.phrases())) {
            width.say(shown.say("cli.zero.unchanged"));
            return ExitCode.FAILED;
        }
        Path kept = change.write();
        width.say(shown.say("cli.zero.written", PlainText.harmless(kept.getFileName().toString())));
        double truth = aim.gauge().map(TypedPressure::psi).orElse(0.0);
        String note =
                new CorrectionNote(aim.role(), seen.meanPsi(), truth)
                        .text(change.before(), change.after());
        int code =
                asking.ask(
                        spec,
                        Saying.of("cli.about.journal", machine),
                        requests ->
                                requests.journal(
                                        machine, Order.Entry.TRANSDUCER_CHANGED, note, ""));
        width.say(shown.say("cli.zero.restart"));
        return code;
    }

    private static void refuseWhatIsNoTruth(Aim aim, Steadiness seen) {
        double spanPsi = Correction.spanPsi(aim.transducer());
        Optional<Steadiness.Objection> objection =
                aim.gauge()
                        .map(g -> seen.toGauge(g.psi(), spanPsi))
                        .orElseGet(() -> seen.toZero(spanPsi));
        if (objection.isPresent()) {
            ObjectionWords words = new ObjectionWords(aim.shown(), seen, aim.gauge(), spanPsi);
            throw new CommandFailure.Expected(
                    ExitCode.FAILED, "cli.zero.refused", words.of(objection.get()));
        }
    }

    private Channel channel() {
        return Channel.byKey(channel)
                .filter(Channel::isPressure)
                .orElseThrow(() -> wrong("cli.zero.channel", channel));
    }

    private Transducer transducer(Site site, Channel role) {
        MachineSettings settings =
                site.machine(machine)
                        .orElseThrow(
                                () ->
                                        wrong(
                                                "cli.no-machine",
                                                machine,
                                                site.machines().stream()
                                                        .map(MachineSettings::name)
                                                        .toList()
                                                        .toString()));
        return Optional.ofNullable(settings.byChannel().get(role))
                .map(c -> (Transducer) c.conversion())
                .orElseThrow(() -> wrong("cli.zero.not-wired", machine, channel));
    }

    private Steadiness seen(Site site, Channel role, Shown shown) {
        Duration time =
                LengthOfTime.read(over)
                        .filter(t -> t.toSeconds() >= 1 && t.toMinutes() <= LONGEST_MINUTES)
                        .orElseThrow(() -> wrong("cli.zero.over"));
        try (StoreReader reader = StoreReader.open(asking.site().database())) {
            LatestReadings latest = new LatestReadings(reader, machine, role);
            Steadiness seen = latest.over(time, Who.nowMicros(), site.hash());
            width.say(
                    shown.say(
                            "cli.zero.seen",
                            machine,
                            role.key(),
                            shown.pressure(seen.meanPsi()),
                            seen.count(),
                            shown.span(time.toMillis() / 1000.0),
                            shown.pressure(seen.spreadPsi())));
            return seen;
        }
    }

    private void say(ScaleChange change, Optional<TypedPressure> gauge, Shown shown) {
        width.say(
                gauge.map(g -> shown.say("cli.zero.to-read", g.toString()))
                        .orElseGet(() -> shown.say("cli.zero.to-be-zero")));
        spec.commandLine().getOut().println(shown.say("cli.zero.now", change.before()));
        spec.commandLine().getOut().println(shown.say("cli.zero.then", change.after()));
        width.say(shown.say("cli.zero.journal", machine));
        width.say(
                shown.say(
                        gauge.isPresent() ? "cli.zero.caution.gauge" : "cli.zero.caution.vent",
                        machine));
    }

    private static CommandFailure.Expected wrong(String key, Object... values) {
        return new CommandFailure.Expected(ExitCode.WRONG, key, values);
    }
}
