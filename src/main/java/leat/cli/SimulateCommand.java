package leat.cli;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.concurrent.Callable;
import leat.bench.Bench;
import leat.bench.panel.ModbusPanel;
import leat.bench.panel.MqttPanel;
import leat.bench.panel.MqttSettings;
import leat.bench.panel.Panel;
import leat.bench.scenario.Catalogue;
import leat.bench.scenario.Scenario;
import leat.bench.scenario.ScenarioException;
import leat.bench.scenario.ScenarioLoader;
import leat.signal.PlainText;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Model.CommandSpec;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import picocli.CommandLine.Spec;

@Command(
        name = "simulate",
        mixinStandardHelpOptions = true,
        description = {
            "Plays invented machines on a Modbus TCP server and, if asked, to an MQTT broker, in real time;"
                    + " or writes a recording of one as fast as the computer goes (--record).",
            "Without a scenario it lists those there are, what each shows and how to tell it apart."
        })
final class SimulateCommand implements Callable<Integer> {

    private static final Duration LOOK = Duration.ofMillis(500);

    @Parameters(
            arity = "0..1",
            paramLabel = "SCENARIO",
            description = "such as worn-booster, or a file.yaml of your own")
    private String scenario;

    @Option(
            names = "--port",
            paramLabel = "PORT",
            defaultValue = "1502",
            description = "Modbus TCP port on 127.0.0.1, 0 for any free one (default: 1502)")
    private int port;

    @Option(
            names = "--mqtt",
            paramLabel = "URL",
            description = "also publish to this broker, such as tcp://127.0.0.1:1883")
    private String broker;

    @Option(
            names = "--write-site",
            paramLabel = "FILE",
            description = "write a site.yaml that reads this bench")
    private Path siteFile;

    @Option(
            names = "--stay",
            description = "go on showing the last values when the scenario is over")
    private boolean stay;

    @Option(
            names = "--seed",
            paramLabel = "N",
            description =
                    "another seed: the same things happen, with other noise and other moments")
    private Integer seed;

    @Mixin private RecordChoice recording;

    @Option(
            names = "--json",
            description = "list the scenarios as one JSON document (config/scenarios.schema.json)")
    private boolean asJson;

    @Spec private CommandSpec spec;

    @Override
    public Integer call() throws IOException, InterruptedException {
        PrintWriter out = spec.commandLine().getOut();
        if (scenario == null) {
            out.print(asJson ? ScenarioList.json() : ScenarioList.text());
            return ExitCode.DONE;
        }
        refuseWhatDoesNotFit();
        Optional<Scenario> own = ownFile();
        Scenario chosen =
                own.or(() -> Catalogue.find(scenario))
                        .orElseThrow(
                                () ->
                                        CommandFailure.Expected.worded(
                                                ExitCode.WRONG,
                                                "There is no scenario "
                                                        + scenario
                                                        + "; there are "
                                                        + Catalogue.names()));
        Scenario seeded = seed == null ? chosen : chosen.withSeed(seed);
        if (recording.isAsked()) {
            return recording.write(seeded, spec);
        }
        play(seeded, out);
        return ExitCode.DONE;
    }

    private void refuseWhatDoesNotFit() {
        if (!recording.isAsked() && recording.hasMore()) {
            throw CommandFailure.Expected.worded(
                    ExitCode.WRONG,
                    "--weeks, --days, --for, --rate, --rest-rate, --machine, --from and --force go with"
                            + " --record FILE.csv");
        }
        boolean onWire =
                broker != null
                        || siteFile != null
                        || stay
                        || spec.commandLine().getParseResult().hasMatchedOption("--port");
        if (recording.isAsked() && onWire) {
            throw CommandFailure.Expected.worded(
                    ExitCode.WRONG,
                    "--record writes a file and opens nothing: leave out --port, --mqtt, --write-site"
                            + " and --stay");
        }
    }

    /** A scenario file of the user's own. */
    private Optional<Scenario> ownFile() throws IOException {
        if (!scenario.endsWith(".yaml")) {
            return Optional.empty();
        }
        try {
            return Optional.of(ScenarioLoader.load(Path.of(scenario)));
        } catch (ScenarioException e) {
            String problems = String.join(System.lineSeparator(), Mistakes.shown(e.problems()));
            throw CommandFailure.Expected.worded(ExitCode.WRONG, problems);
        }
    }

    private void play(Scenario chosen, PrintWriter out) throws IOException, InterruptedException {
        ModbusPanel modbus = modbusPanel(chosen);
        List<Panel> panels = new ArrayList<>(List.of(modbus));
        if (broker != null) {
            MqttSettings settings =
                    MqttSettings.of(broker, "yard", MqttSettings.Payload.JSON, 1, chosen);
            panels.add(new MqttPanel("broker", settings, chosen));
        }
        try (Bench bench = Bench.start(chosen, panels)) {
            Runtime.getRuntime().addShutdownHook(new Thread(bench::close, "bench-end"));
            out.println(PlainText.harmless(chosen.name() + ": " + chosen.description()));
            out.printf(
                    "Modbus TCP on 127.0.0.1:%d, unit ids from 1: %s%n",
                    modbus.port(), chosen.machineNames());
            if (siteFile != null) {
                Files.writeString(siteFile, bench.siteYaml());
                String name = PlainText.harmless(siteFile.toString());
                out.printf("Written: %s. Watch it with: leat run %s%n", name, name);
            }
            if (chosen.isLong()) {
                out.printf(
                        "This one takes %s in real time; --record FILE.csv plays it faster.%n",
                        RecordProgress.words(chosen.duration()));
            }
            out.println("Every signal here is invented. Ctrl-C ends it.");
            out.flush();
            while (stay || !bench.isOver()) {
                bench.awaitEnd(LOOK);
                if (stay && bench.isOver()) {
                    Thread.sleep(LOOK.toMillis());
                }
            }
        }
    }

    private ModbusPanel modbusPanel(Scenario chosen) {
        try {
            return new ModbusPanel("cabinet-1", port, chosen);
        } catch (IOException e) {
            throw CommandFailure.Expected.worded(
                    ExitCode.FAILED,
                    "Port "
                            + port
                            + " cannot be opened ("
                            + e.getMessage()
                            + "); choose another with --port, or 0.");
        }
    }
}
