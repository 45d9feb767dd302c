package leat.watch;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.sql.SQLException;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.temporal.ChronoUnit;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.Collections;
import java.util.Deque;
import java.util.EnumMap;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.ExecutionException;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import leat.alarm.AlarmHealth;
import leat.service.SiteRun;
import leat.signal.Channel;
import leat.signal.Conversion;
import leat.signal.Input;
import leat.signal.Instruction;
import leat.signal.Order;
import leat.store.InstructionBox;
import leat.store.StartupQuery;
import leat.store.StoreReader;
import leat.store.StoredAlarm;
import leat.store.StoredStartup;

/**
 * Plays a {@link MonthPlan} with some {@link SoundMachine}s through the whole daemon but its
 * sources, and keeps what people got. Confined to the test's thread; the bench works ahead on two
 * others.
 */
final class SiteMonth implements AutoCloseable {

    /** So much is committed at once; ends at whatever happens at one of its moments. */
    private static final long STRETCH = 300_000_000;

    /** Where nobody listens and nobody asks. */
    static final int UNUSED_PORT = 502;

    private static final LocalTime ACKNOWLEDGED_AT = LocalTime.of(9, 0);
    private static final List<String> ROUTES = List.of("hall", "shift", "chief");

    private final MonthPlan plan;
    private final SiteRun run;
    private final Map<String, MachineDays> days = new LinkedHashMap<>();
    private final Map<String, Deque<Input>> given = new HashMap<>();
    private final List<Long> staleEachMidnight = new ArrayList<>();
    private final ExecutorService ahead = Executors.newFixedThreadPool(2);
    private long downMicros;
    private long trueMicros;

    private SiteMonth(Path folder, List<SoundMachine> machines, MonthPlan plan) throws IOException {
        this.plan = plan;
        trueMicros = MonthPlan.begin(plan.first());
        Instant begin = Instant.EPOCH.plus(trueMicros, ChronoUnit.MICROS);
        run = new SiteRun(folder, yaml(machines, UNUSED_PORT), begin);
        for (SoundMachine machine : machines) {
            days.put(machine.name(), new MachineDays(machine, conversions(run, machine), plan));
            given.put(machine.name(), new ArrayDeque<>());
        }
    }

    /** How the site reads the channels of a machine. */
    static Map<Channel, Conversion> conversions(SiteRun run, SoundMachine machine) {
        Map<Channel, Conversion> conversions = new EnumMap<>(Channel.class);
        run.site()
                .machine(machine.name())
                .orElseThrow()
                .byChannel()
                .forEach((channel, settings) -> conversions.put(channel, settings.conversion()));
        return conversions;
    }

    /**
     * Plays all of it. The store, some 500 MB for a month of three machines, is deleted.
     *
     * @param folder where it is made meanwhile
     */
    static MonthFigures play(Path folder, List<SoundMachine> machines, MonthPlan plan)
            throws Exception {
        Path own = Files.createTempDirectory(folder, "month");
        MonthFigures figures;
        Path database;
        try (SiteMonth month = new SiteMonth(own, machines, plan)) {
            month.play();
            database = month.run.database();
            figures = month.figures();
        }
        Files.delete(database);
        return figures;
    }

    /** Default limits, and the three kinds of people: in the hall, on call, and the one above. */
    static String yaml(List<SoundMachine> machines, int port) {
        StringBuilder text =
                new StringBuilder(
                        """
                        site: { name: Boatyard, time_zone: Europe/Berlin, show_pressure_in: psi }
                        store: { folder: ./data, keep_samples: 60 d }
                        connections:
                          cabinet-1: { modbus_tcp: { host: 127.0.0.1, port: %d, poll: 50 ms } }
                        machines:
                        """
                                .formatted(port));
        int unit = 1;
        for (SoundMachine machine : machines) {
            text.append(machine.yaml(unit++));
        }
        return text.append(
                        """
                        tell:
                          hall:
                            by: { log: { } }
                          shift:
                            by:
                              mail:
                                host: 127.0.0.1
                                security: plain
                                from: leat@boatyard.example
                                to: [ shift@boatyard.example ]
                            lets_sleep: 20:00-06:00
                            reminds: 2 h
                            good_morning: 06:30
                          chief:
                            by:
                              mail:
                                host: 127.0.0.1
                                security: plain
                                from: leat@boatyard.example
                                to: [ chief@boatyard.example ]
                            about: { from: WARNING }
                            lets_sleep: 18:00-07:00
                            after_nobody_answers: 30 min
                            reminds: 4 h
                        """)
                .toString();
    }

    private void play() throws InterruptedException, ExecutionException {
        Map<String, Future<List<Input>>> next = begin();
        for (int number = 0; number < plan.days(); number++) {
            LocalDate day = plan.first().plusDays(number);
            for (Map.Entry<String, Future<List<Input>>> each : next.entrySet()) {
                given.get(each.getKey()).addAll(each.getValue().get());
            }
            next = number + 1 < plan.days() ? begin() : Map.of();
            play(day);
            staleEachMidnight.add(health().stale());
        }
        switchOn();
        run.end();
    }

    private Map<String, Future<List<Input>>> begin() {
        Map<String, Future<List<Input>>> all = new LinkedHashMap<>();
        days.forEach((machine, day) -> all.put(machine, ahead.submit(day::next)));
        return all;
    }

    private void play(LocalDate day) throws InterruptedException {
        MonthPlan.Span powered = plan.powered(day);
        long end = MonthPlan.begin(day.plusDays(1));
        while (trueMicros < end) {
            if (powered.has(trueMicros)) {
                switchOn();
                stretch(day, Math.min(STRETCH, powered.toMicros() - trueMicros));
            } else {
                long until = trueMicros < powered.fromMicros() ? powered.fromMicros() : end;
                switchOff(until - trueMicros);
            }
        }
    }

    private void switchOn() {
        if (downMicros > 0) {
            run.startAgain(Duration.of(downMicros, ChronoUnit.MICROS));
            downMicros = 0;
        }
    }

    private void switchOff(long micros) {
        if (downMicros == 0) {
            run.end();
        }
        downMicros += micros;
        trueMicros += micros;
    }

    private void stretch(LocalDate day, long micros) throws InterruptedException {
        if (trueMicros == MonthPlan.clockStep().fromMicros()) {
            given.values().forEach(Deque::remove);
            run.setClock(MonthPlan.clockStep());
        }
        people(day);
        run.pass(given, Duration.of(micros, ChronoUnit.MICROS));
        trueMicros += micros;
    }

    /** What people do on the command line. */
    private void people(LocalDate day) {
        if (MonthPlan.isWorkday(day) && trueMicros == MonthPlan.micros(day, ACKNOWLEDGED_AT)) {
            acknowledge();
        }
        if (trueMicros == MonthPlan.service().fromMicros()) {
            journal(Order.Entry.SERVICE_ON, "new seals");
        }
        if (trueMicros == MonthPlan.service().toMicros()) {
            journal(Order.Entry.SERVICE_OFF, "new seals, line vented");
        }
    }

    private void acknowledge() {
        try (StoreReader reader = StoreReader.open(run.database());
                InstructionBox box = InstructionBox.open(run.database())) {
            for (StoredAlarm alarm : reader.standingAlarms()) {
                String id = alarm.change().alarmId();
                box.leave(
                        alarm.machine(),
                        new Instruction(run.nowMicros(), "kim", new Order.Acknowledge(id)));
            }
        }
    }

    private void journal(Order.Entry entry, String text) {
        try (InstructionBox box = InstructionBox.open(run.database())) {
            box.leave(
                    MonthPlan.SERVICED,
                    new Instruction(run.nowMicros(), "kim", new Order.Journal(entry, text)));
        }
    }

    private AlarmHealth health() {
        try (StoreReader reader = StoreReader.open(run.database())) {
            return health(reader, run.nowMicros());
        }
    }

    /** As {@code leat alarms --health} makes them of the whole store. */
    static AlarmHealth health(StoreReader reader, long nowMicros) {
        long from = reader.firstRunMicros().orElseThrow();
        return AlarmHealth.of(
                reader.alarmChangesSince(from).stream().map(StoredAlarm::change).toList(),
                reader.standingAlarms().stream().map(StoredAlarm::change).toList(),
                from,
                nowMicros);
    }

    private MonthFigures figures() throws SQLException {
        Map<String, List<SiteRun.Delivered>> delivered = new LinkedHashMap<>();
        ROUTES.forEach(route -> delivered.put(route, run.delivered(route)));
        return new MonthFigures(
                days.size() + " machines, seed " + plan.seed(),
                health(),
                CountedBySql.in(run.database(), run.nowMicros()),
                CountedBySql.alarmsOf(run.database(), "warning", "critical"),
                List.copyOf(staleEachMidnight),
                delivered,
                startups(),
                planned());
    }

    private Map<String, List<StoredStartup>> startups() {
        Map<String, List<StoredStartup>> startups = new LinkedHashMap<>();
        try (StoreReader reader = StoreReader.open(run.database())) {
            for (String machine : days.keySet()) {
                List<StoredStartup> all =
                        new ArrayList<>(
                                reader.startups(
                                        StartupQuery.newest(Integer.MAX_VALUE).of(machine)));
                Collections.reverse(all);
                startups.put(machine, all);
            }
        }
        return startups;
    }

    private Map<String, List<MonthPlan.Run>> planned() {
        Map<String, List<MonthPlan.Run>> planned = new LinkedHashMap<>();
        for (String machine : days.keySet()) {
            List<MonthPlan.Run> runs = new ArrayList<>();
            for (int number = 0; number < plan.days(); number++) {
                runs.addAll(plan.runs(machine, plan.first().plusDays(number)));
            }
            planned.put(machine, runs);
        }
        return planned;
    }

    @Override
    public void close() {
        ahead.shutdownNow();
        run.close();
    }

    /** Plays months by hand; the arguments are machines, days by night, and seeds. */
    public static void main(String[] arguments) throws Exception {
        int machines = Integer.parseInt(arguments[0]);
        Path folder = Files.createTempDirectory("months");
        for (String seed : List.of(arguments).subList(2, arguments.length)) {
            MonthPlan plan =
                    MonthPlan.month(Long.parseLong(seed)).byNight(Integer.parseInt(arguments[1]));
            long began = System.nanoTime();
            MonthFigures figures = play(folder, SoundMachine.site(machines, plan.seed()), plan);
            System.out.printf(
                    Locale.ROOT, "%s  %.0f s%n", figures.text(), (System.nanoTime() - began) / 1e9);
        }
    }
}
