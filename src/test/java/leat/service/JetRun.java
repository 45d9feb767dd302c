package leat.service;

import java.io.IOException;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.util.ArrayDeque;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Queue;
import leat.service.SiteRun.Delivered;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Reading;
import leat.store.Message;
import leat.store.NoRoom;
import leat.store.Snapshot;
import leat.store.StoreReader;

/**
 * One machine, jet-1, under the daemon's own engine, store and couriers, just before midnight: told
 * to the log, from CRITICAL on to a siren, and to a night shift with quiet hours.
 */
final class JetRun implements AutoCloseable {

    private static final Instant BEGIN = Instant.parse("2026-01-05T23:59:40Z");
    static final long SECOND = 1_000_000;

    private static final String SITE =
            """
            site: { name: Boatyard, time_zone: UTC }
            store: { folder: ./data }
            connections:
              cabinet: { modbus_tcp: { host: 127.0.0.1, port: 502 } }
            machines:
              jet-1:
                channels:
                  inlet:
                    { from: cabinet, register: { table: input_register, address: 10, type: float32 }, unit: psi }
                  boosted:
                    { from: cabinet, register: { table: input_register, address: 12, type: float32 }, unit: psi }
                  running: { from: cabinet, register: { table: discrete_input, address: 0 } }
            tell:
              log: { by: { log: { } } }
              siren: { by: { command: { run: [ /bin/true ] } }, about: { from: CRITICAL } }
              night:
                by: { command: { run: [ /bin/true ] } }
                lets_sleep: 00:00-06:00
            """;

    final SiteRun run;

    JetRun(Path folder) throws IOException {
        run = new SiteRun(folder, SITE, BEGIN);
    }

    /** Twenty times a second, as the cabinet shows it. */
    void pass(int seconds, double inlet, double boosted, int running) throws InterruptedException {
        for (int second = 0; second < seconds; second++) {
            run.second(
                    20,
                    () -> {
                        long now = run.nowMicros();
                        double moved = 0.01 * (now / 50_000 % 3); // nothing is stuck
                        run.intake().offer("jet-1", Reading.good(Channel.RUNNING, now, running));
                        run.intake()
                                .offer("jet-1", Reading.good(Channel.INLET, now, inlet + moved));
                        run.intake()
                                .offer(
                                        "jet-1",
                                        Reading.good(Channel.BOOSTED, now, boosted + moved));
                    });
        }
    }

    /** At rest. */
    void fill() throws InterruptedException {
        fill(0, 0);
    }

    /** Seconds pass until nothing can be stored. */
    void fill(double boosted, int running) throws InterruptedException {
        NoRoom.in(run.store());
        while (run.trouble().isEmpty()) {
            pass(1, 40, boosted, running);
        }
    }

    List<Message> told(String route) {
        return run.delivered(route).stream().map(Delivered::message).toList();
    }

    List<String> events(String route) {
        return told(route).stream().map(Message::event).toList();
    }

    List<Message> due(String route) {
        try (StoreReader reader = StoreReader.open(run.database())) {
            return reader.due(route, 0, 100).stream().map(due -> due.message()).toList();
        }
    }

    int alarms() {
        try (StoreReader reader = StoreReader.open(run.database())) {
            return reader.alarms(100).size();
        }
    }

    List<Input> inputs() {
        List<Input> inputs = new ArrayList<>();
        try (StoreReader reader = StoreReader.open(run.database())) {
            reader.inputs("jet-1", 0, Long.MAX_VALUE, (seq, input) -> inputs.add(input));
        }
        return inputs;
    }

    /** As a start would take them up. */
    List<Snapshot> resumed() {
        try (StoreReader reader = StoreReader.open(run.database())) {
            return new Resume(reader, run.site(), text -> Optional.empty())
                    .machines().stream().map(each -> each.snapshot(0)).toList();
        }
    }

    /** What the cabinet shows at rest, from now on. */
    Queue<Input> atRest(Duration time) {
        Queue<Input> inputs = new ArrayDeque<>();
        long to = run.nowMicros() + time.toSeconds() * SECOND;
        for (long at = run.nowMicros() + 50_000; at <= to; at += 50_000) {
            inputs.add(Reading.good(Channel.RUNNING, at, 0));
            inputs.add(Reading.good(Channel.INLET, at, 40));
            inputs.add(Reading.good(Channel.BOOSTED, at, 0));
        }
        return inputs;
    }

    @Override
    public void close() {
        run.close();
    }
}
