package leat.bench.scenario;

import java.time.DayOfWeek;
import java.time.Duration;
import java.time.LocalTime;
import java.util.ArrayList;
import java.util.EnumSet;
import java.util.HashSet;
import java.util.List;
import java.util.Locale;
import java.util.Optional;
import java.util.Set;
import java.util.function.Function;
import java.util.stream.Stream;
import leat.bench.line.BoosterKind;
import leat.bench.line.Build;
import leat.bench.line.House;
import leat.bench.line.InletTap;
import leat.bench.line.LineSettings;
import leat.bench.line.RegulatorKind;
import leat.bench.sensor.Loop;
import leat.bench.sensor.Tap;
import leat.bench.sensor.Transducer;
import leat.bench.sensor.Transducers;
import org.snakeyaml.engine.v2.nodes.Node;

/** Reads one machine of a scenario file. */
final class MachineReader {

    private static final Set<String> MACHINE =
            Set.of(
                    "supply",
                    "set",
                    "booster",
                    "regulator",
                    "inlet_tap",
                    "draw",
                    "water",
                    "house",
                    "transducers",
                    "starts",
                    "timeline");
    private static final Set<String> HOUSE =
            Set.of("drift", "wander", "dips_per_hour", "dip", "dip_lasts");
    private static final Set<String> STARTS = Set.of("per_day", "run", "from", "to", "days");
    private static final Set<String> CONVERTER = Set.of("bits", "top");
    private static final Set<String> TRANSDUCER = Set.of("range", "lag", "noise");
    private static final double MOST_SUPPLY_PSI = 150;
    private static final Duration USUAL_DIP = Duration.ofSeconds(8);

    private final String file;
    private final List<String> problems;
    private final boolean loop;
    private final TimelineReader timeline;

    MachineReader(String file, List<String> problems, Duration duration, boolean loop) {
        this.file = file;
        this.problems = problems;
        this.loop = loop;
        timeline = new TimelineReader(file, problems, duration);
    }

    MachineScript read(String name, Node node) {
        Fields fields = new Fields(file, node, MACHINE, problems);
        if (!name.matches("[a-z0-9][a-z0-9-]*")) {
            fields.problem(
                    "machine \"" + name + "\": a name has small letters, digits and hyphens");
        }
        LineSettings line =
                new LineSettings(
                        fields.psi("supply", LineSettings.USUAL.supplyPsi(), 10, MOST_SUPPLY_PSI),
                        fields.psi("set", LineSettings.USUAL.setPsi(), 40, 150),
                        build(fields));
        Optional<Starts> starts = fields.below("starts", STARTS).flatMap(this::starts);
        List<Event> events = new ArrayList<>();
        if (fields.has("timeline") || !fields.has("starts")) {
            for (Node event : fields.list("timeline")) {
                timeline.event(event).ifPresent(events::add);
            }
        }
        if (line.supplyPsi() + line.build().house().wanderPsi() > MOST_SUPPLY_PSI) {
            fields.problemAt("house", "supply and wander together are more than 150 psi");
        }
        return new MachineScript(name, line, transducers(fields), starts, events);
    }

    private static Build build(Fields fields) {
        Build usual = Build.USUAL;
        return usual.withBooster(oneOf(fields, "booster", BoosterKind.values(), BoosterKind::key))
                .withDraw(fields.in("L/min", "draw", usual.drawLitresPerMinute(), 5, 12))
                .withWaterCelsius(fields.in("C", "water", usual.waterCelsius(), 2, 45))
                .withRegulator(
                        oneOf(fields, "regulator", RegulatorKind.values(), RegulatorKind::key))
                .withInletTap(oneOf(fields, "inlet_tap", InletTap.values(), InletTap::key))
                .in(house(fields));
    }

    /** One word of several; the first is the usual one. */
    private static <T> T oneOf(Fields fields, String key, T[] kinds, Function<T, String> word) {
        List<String> words = Stream.of(kinds).map(word).toList();
        String text = fields.textOr(key, words.get(0));
        if (!words.contains(text)) {
            fields.problemAt(
                    key, key + " is \"" + text + "\", allowed are " + String.join(", ", words));
            return kinds[0];
        }
        return kinds[words.indexOf(text)];
    }

    private static House house(Fields fields) {
        House quiet = House.QUIET;
        return fields.below("house", HOUSE)
                .map(
                        given ->
                                new House(
                                        given.psi("drift", quiet.driftPsi(), 0, 5),
                                        given.psi("wander", 0, 0, 20),
                                        given.whole("dips_per_hour", 0, 0, 60),
                                        given.psi("dip", 0, 0, 30),
                                        given.time("dip_lasts", USUAL_DIP, 1, 600).toMillis()
                                                / 1e3))
                .orElse(House.QUIET);
    }

    private static Transducers transducers(Fields fields) {
        Set<String> all = new HashSet<>(CONVERTER);
        all.addAll(TRANSDUCER);
        List.of(Tap.values()).forEach(tap -> all.add(tap.key()));
        Optional<Fields> given = fields.below("transducers", all);
        if (given.isEmpty()) {
            return Transducers.USUAL;
        }
        int bits = given.get().whole("bits", Loop.USUAL.bits(), 12, 16);
        if (bits != 12 && bits != 16) {
            given.get().problemAt("bits", "bits is " + bits + ", allowed is 12 or 16");
            return Transducers.USUAL;
        }
        double top = given.get().in("mA", "top", Loop.USUAL.topMilliamps(), 20.5, 25);
        Loop loop = new Loop(Loop.USUAL.rangePsi(), bits, top);
        Transducer usual =
                new Transducer(loop, Transducer.USUAL.lagSeconds(), Transducer.USUAL.noisePsi());
        Transducer each = transducer(given.get(), usual);
        return new Transducers(
                ofTap(given.get(), Tap.INLET, each),
                ofTap(given.get(), Tap.BOOSTED, each),
                ofTap(given.get(), Tap.FILTERED, each));
    }

    private static Transducer ofTap(Fields fields, Tap tap, Transducer usual) {
        return fields.below(tap.key(), TRANSDUCER)
                .map(given -> transducer(given, usual))
                .orElse(usual);
    }

    private static Transducer transducer(Fields fields, Transducer usual) {
        Duration usualLag = Duration.ofMillis(Math.round(usual.lagSeconds() * 1e3));
        Loop loop = usual.loop();
        return new Transducer(
                new Loop(
                        fields.psi("range", loop.rangePsi(), 1, 1000),
                        loop.bits(),
                        loop.topMilliamps()),
                fields.time("lag", usualLag, 0.001, 60).toNanos() / 1e9,
                fields.psi("noise", usual.noisePsi(), 0, 20));
    }

    private Optional<Starts> starts(Fields fields) {
        if (loop) {
            fields.problem("a scenario that loops has no starts by the day");
        }
        long before = problems.size();
        int perDay = fields.whole("per_day", 10, 1, 200);
        Duration run = fields.time("run", 20, 86_400);
        LocalTime from = fields.clock("from", LocalTime.of(7, 0));
        LocalTime to = fields.clock("to", LocalTime.of(16, 0));
        Set<DayOfWeek> days = days(fields);
        if (problems.size() > before) {
            return Optional.empty();
        }
        try {
            return Optional.of(new Starts(perDay, run, from, to, days));
        } catch (IllegalArgumentException e) {
            fields.problem(e.getMessage());
            return Optional.empty();
        }
    }

    /** {@code mon-fri} or {@code sat}. */
    private static Set<DayOfWeek> days(Fields fields) {
        String text = fields.textOr("days", "mon-fri").toLowerCase(Locale.ROOT);
        String[] ends = text.split("-", -1);
        Optional<DayOfWeek> first = day(ends[0]);
        Optional<DayOfWeek> last = day(ends[ends.length - 1]);
        if (ends.length > 2 || first.isEmpty() || last.isEmpty()) {
            fields.problemAt(
                    "days", "days is \"" + text + "\", expected such as mon-fri, mon-sun or sat");
            return Set.of();
        }
        Set<DayOfWeek> days = EnumSet.of(first.get());
        for (DayOfWeek day = first.get(); day != last.get(); ) {
            day = day.plus(1);
            days.add(day);
        }
        return days;
    }

    private static Optional<DayOfWeek> day(String text) {
        return List.of(DayOfWeek.values()).stream()
                .filter(day -> day.name().substring(0, 3).toLowerCase(Locale.ROOT).equals(text))
                .findFirst();
    }
}
