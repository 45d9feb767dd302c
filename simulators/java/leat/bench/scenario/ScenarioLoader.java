package leat.bench.scenario;

import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Collectors;
import java.util.stream.Stream;
import leat.bench.line.Fault;
import leat.bench.line.LineSettings;
import leat.bench.sensor.Tap;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Compose;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;
import org.snakeyaml.engine.v2.nodes.Node;

/** Reads scenario files; {@code simulators/README.md} describes them. */
public final class ScenarioLoader {

    private static final double LONGEST_SECONDS = 86_400;
    private static final String BROKEN_LOOP = "broken-loop";
    private static final Set<String> TOP =
            Set.of("name", "description", "expect", "seed", "duration", "loop", "machines");
    private static final Set<String> MACHINE = Set.of("supply", "set", "timeline");
    private static final Set<String> EVENT =
            Set.of("at", "do", "fault", "repair", "severity", "tap");

    private final String file;
    private final List<String> problems = new ArrayList<>();

    private ScenarioLoader(String file) {
        this.file = file;
    }

    /**
     * Reads a file.
     *
     * @throws ScenarioException with everything that is wrong in it
     * @throws IOException if it cannot be read
     */
    public static Scenario load(Path file) throws ScenarioException, IOException {
        return parse(file.toString(), Files.readString(file, StandardCharsets.UTF_8));
    }

    /**
     * Reads a text.
     *
     * @param file how to call it in messages
     * @throws ScenarioException with everything that is wrong in it
     */
    public static Scenario parse(String file, String text) throws ScenarioException {
        return new ScenarioLoader(file).read(text);
    }

    private Scenario read(String text) throws ScenarioException {
        Optional<Node> root = compose(text);
        Optional<Scenario> scenario = root.flatMap(this::scenario);
        if (scenario.isEmpty() || !problems.isEmpty()) {
            throw new ScenarioException(problems);
        }
        return scenario.get();
    }

    private Optional<Node> compose(String text) {
        LoadSettings settings = LoadSettings.builder().setUseMarks(true).setLabel(file).build();
        try {
            Optional<Node> root = new Compose(settings).composeString(text);
            if (root.isEmpty()) {
                problems.add(file + ":1: the file is empty");
            }
            return root;
        } catch (MarkedYamlEngineException e) {
            int line = e.getProblemMark().map(Mark::getLine).orElse(0) + 1;
            problems.add(file + ":" + line + ": not YAML: " + e.getProblem());
        } catch (YamlEngineException e) {
            problems.add(file + ":1: not YAML: " + e.getMessage());
        }
        return Optional.empty();
    }

    private Optional<Scenario> scenario(Node root) {
        Fields fields = new Fields(file, root, TOP, problems);
        String name = fields.text("name");
        String description = fields.text("description");
        String expect = fields.text("expect");
        double seed = fields.number("seed", 0, 1e9);
        Duration duration = fields.time("duration", 1, LONGEST_SECONDS);
        boolean loop = fields.flag("loop");
        List<MachineScript> machines = machines(fields, duration);
        if (!problems.isEmpty()) {
            return Optional.empty();
        }
        return Optional.of(
                new Scenario(
                        name, description, expect, Math.round(seed), duration, loop, machines));
    }

    private List<MachineScript> machines(Fields fields, Duration duration) {
        List<MachineScript> machines = new ArrayList<>();
        fields.node("machines")
                .map(node -> new Fields(file, node, Set.of(), problems))
                .ifPresent(
                        named ->
                                named.all()
                                        .forEach(
                                                (name, node) ->
                                                        machines.add(
                                                                machine(name, node, duration))));
        if (machines.isEmpty()) {
            fields.problem("machines must name at least one machine");
        }
        return machines;
    }

    private MachineScript machine(String name, Node node, Duration duration) {
        Fields fields = new Fields(file, node, MACHINE, problems);
        if (!name.matches("[a-z0-9][a-z0-9-]*")) {
            fields.problem(
                    "machine \"" + name + "\": a name has small letters, digits and hyphens");
        }
        LineSettings line =
                new LineSettings(
                        fields.psi("supply", LineSettings.USUAL.supplyPsi(), 10, 150),
                        fields.psi("set", LineSettings.USUAL.setPsi(), 40, 150));
        List<Event> timeline = new ArrayList<>();
        for (Node event : fields.list("timeline")) {
            event(event, duration).ifPresent(timeline::add);
        }
        return new MachineScript(name, line, timeline);
    }

    private Optional<Event> event(Node node, Duration duration) {
        Fields fields = new Fields(file, node, EVENT, problems);
        Duration at = fields.time("at", 0, LONGEST_SECONDS);
        if (at.compareTo(duration) >= 0) {
            fields.problem("this event comes after the end of the scenario");
        }
        List<String> kinds = Stream.of("do", "fault", "repair").filter(fields::has).toList();
        if (kinds.size() != 1) {
            fields.problem("an event needs exactly one of do, fault, repair");
            return Optional.empty();
        }
        String kind = kinds.get(0);
        String word = fields.text(kind);
        if (!kind.equals("do") && word.equals(BROKEN_LOOP)) {
            return loop(fields, kind).map(action -> new Event(at, action));
        }
        if (fields.has("tap")) {
            fields.problem("only " + BROKEN_LOOP + " has a tap");
        }
        Optional<Event.Action> action =
                kind.equals("do") ? switching(fields, word) : fault(fields, kind, word);
        return action.map(done -> new Event(at, done));
    }

    private Optional<Event.Action> loop(Fields fields, String kind) {
        noSeverity(fields, BROKEN_LOOP);
        String key = fields.text("tap");
        Optional<Tap> tap = Tap.byKey(key);
        if (tap.isEmpty()) {
            List<String> taps = Stream.of(Tap.values()).map(Tap::key).toList();
            fields.problem("tap is \"" + key + "\", allowed are " + String.join(", ", taps));
        }
        return tap.map(
                broken ->
                        kind.equals("fault")
                                ? new Event.BreakLoop(broken)
                                : new Event.MendLoop(broken));
    }

    private Optional<Event.Action> switching(Fields fields, String word) {
        noSeverity(fields, word);
        if (word.equals("start")) {
            return Optional.of(new Event.Start());
        }
        if (word.equals("stop")) {
            return Optional.of(new Event.Stop());
        }
        fields.problem("do is \"" + word + "\", allowed are start, stop");
        return Optional.empty();
    }

    private Optional<Event.Action> fault(Fields fields, String kind, String word) {
        Optional<Fault> named = Fault.byKey(word);
        if (named.isEmpty()) {
            Set<String> known =
                    Stream.of(Fault.values())
                            .map(Fault::key)
                            .collect(Collectors.toCollection(LinkedHashSet::new));
            known.add(BROKEN_LOOP);
            fields.problem(kind + " is \"" + word + "\", allowed are " + String.join(", ", known));
            return Optional.empty();
        }
        Fault fault = named.get();
        if (kind.equals("repair")) {
            noSeverity(fields, "a repair");
            return Optional.of(new Event.Repair(fault));
        }
        if (!fault.isGraded()) {
            noSeverity(fields, word);
            return Optional.of(new Event.Strike(fault, 1));
        }
        return Optional.of(new Event.Strike(fault, fields.number("severity", 0, 1)));
    }

    private static void noSeverity(Fields fields, String what) {
        if (fields.has("severity")) {
            fields.problem(what + " has no severity");
        }
    }
}
