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
        say(change, aim.gauge());
        if (!consent.says("Is that right, and is it to be written into " + aim.file() + "?")) {
            width.say("Nothing was changed.");
            return ExitCode.FAILED;
        }
        Path kept = change.write();
        width.say(
                "Written. The file as it was: "
                        + PlainText.harmless(kept.getFileName().toString()));
        double truth = aim.gauge().map(TypedPressure::psi).orElse(0.0);
        String note =
                new CorrectionNote(aim.role(), seen.meanPsi(), truth)
                        .text(change.before(), change.after());
        int code =
                asking.ask(
                        spec,
                        "journal of " + machine,
                        requests ->
                                requests.journal(
                                        machine, Order.Entry.TRANSDUCER_CHANGED, note, ""));
        width.say("Restart leat now: it reads site.yaml when it starts.");
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
                    ExitCode.FAILED, words.of(objection.get()) + " Nothing was changed.");
        }
    }

    private Channel channel() {
        return Channel.byKey(channel)
                .filter(Channel::isPressure)
                .orElseThrow(() -> wrong("CHANNEL is inlet, boosted or filtered, not " + channel));
    }

    private Transducer transducer(Site site, Channel role) {
        MachineSettings settings =
                site.machine(machine)
                        .orElseThrow(
                                () ->
                                        wrong(
                                                "There is no machine "
                                                        + machine
                                                        + "; known are "
                                                        + site.machines().stream()
                                                                .map(MachineSettings::name)
                                                                .toList()));
        return Optional.ofNullable(settings.byChannel().get(role))
                .map(c -> (Transducer) c.conversion())
                .orElseThrow(() -> wrong(machine + " has no channel " + channel + " wired"));
    }

    private Steadiness seen(Site site, Channel role, Shown shown) {
        Duration time =
                LengthOfTime.read(over)
                        .filter(t -> t.toSeconds() >= 1 && t.toMinutes() <= LONGEST_MINUTES)
                        .orElseThrow(() -> wrong("--over is a time from 1s to 10min, such as 10s"));
        try (StoreReader reader = StoreReader.open(asking.site().database())) {
            LatestReadings latest = new LatestReadings(reader, machine, role);
            Steadiness seen = latest.over(time, Who.nowMicros(), site.hash());
            width.say(
                    String.format(
                            "%s %s: %s, mean of %d readings in the last %s; from lowest to highest %s.",
                            machine,
                            role.key(),
                            shown.pressure(seen.meanPsi()),
                            seen.count(),
                            shown.span(time.toMillis() / 1000.0),
                            shown.pressure(seen.spreadPsi())));
            return seen;
        }
    }

    private void say(ScaleChange change, Optional<TypedPressure> gauge) {
        width.say(
                gauge.map(g -> "This is to read " + g + "; the zero stays.")
                        .orElse("This is to be zero."));
        spec.commandLine().getOut().println("  now:  " + change.before());
        spec.commandLine().getOut().println("  then: " + change.after());
        width.say(
                "The journal notes it as transducer-changed: leat learns anew what is usual for "
                        + machine
                        + ". What was judged stays as it was judged.");
        width.say(
                gauge.isPresent()
                        ? "Caution: read the hand gauge on the same line, at the same height, with"
                                + " the pressure held still. Follow the site's procedure."
                        : "Caution: only a vented transducer reads zero. Stop the machine, isolate"
                                + " water and electricity, lock out, and relieve the pressure by"
                                + " the site's procedure; water shut in behind a valve is not"
                                + " zero. A number on this screen does not prove that "
                                + machine
                                + " is without pressure.");
    }

    private static CommandFailure.Expected wrong(String why) {
        return new CommandFailure.Expected(ExitCode.WRONG, why);
    }
}
