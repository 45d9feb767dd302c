package leat.service;

import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Queue;
import java.util.concurrent.ConcurrentLinkedQueue;
import java.util.function.BooleanSupplier;
import java.util.function.Consumer;
import leat.deliver.Courier;
import leat.deliver.Patience;
import leat.deliver.Route;
import leat.rule.Grade;
import leat.store.Batch;
import leat.store.Message;
import leat.store.Owed;
import leat.store.Store;
import leat.store.StoreReader;

/**
 * A real store with real couriers, and a test in the place of the engine: it owes messages, commits
 * when the test says so. Confined to the test's thread, but for the marks.
 */
final class PostRoom implements DeliveryMarks, AutoCloseable {

    private final Path file;
    private final Store store;
    private final List<Courier> couriers = new ArrayList<>();
    private final List<StoreOutbox> outboxes = new ArrayList<>();
    private final Queue<Consumer<Batch>> marks = new ConcurrentLinkedQueue<>();
    private final Batch batch = new Batch();
    private final UnstoredMessages unstored =
            new UnstoredMessages(message -> message, () -> couriers.forEach(Courier::nudge));
    private int count;

    PostRoom(Path folder) {
        file = folder.resolve("leat.db");
        store = Store.open(file);
        store.startRun("test", "hash", "text", 1);
    }

    /** A courier with a thread and a reader of its own, as the daemon makes it. */
    Courier serve(Route route, Duration giveUpAfter) {
        return serve(route, giveUpAfter, () -> false);
    }

    Courier serve(Route route, Duration giveUpAfter, BooleanSupplier quiet) {
        StoreOutbox outbox =
                new StoreOutbox(new StoreView(file, store::generation), this, unstored);
        outboxes.add(outbox);
        Courier courier =
                new Courier(
                        route,
                        outbox,
                        new Patience(giveUpAfter, () -> System.currentTimeMillis() * 1000),
                        quiet,
                        System::nanoTime,
                        () -> 0);
        couriers.add(courier);
        courier.start();
        return courier;
    }

    /** The same message to several routes; not committed yet. Returns its id. */
    String owe(String... routes) {
        return owe("ratio", Grade.WARNING, routes);
    }

    /** Of the alarm of a rule. */
    String owe(String rule, Grade grade, String... routes) {
        count++;
        String alarm = "jet-1." + rule + ".20260105T060101Z";
        String id = alarm + "/" + count;
        for (String route : routes) {
            batch.owes(
                    new Message(
                            id,
                            route,
                            "jet-1",
                            alarm,
                            grade,
                            System.currentTimeMillis() * 1000,
                            "jet-1/alarm/" + rule,
                            Message.Purpose.CALL,
                            "raised",
                            "subject " + id,
                            "text " + id,
                            "{\"id\":\"" + id + "\"}",
                            Optional.empty()));
        }
        return id;
    }

    void commit() {
        for (Consumer<Batch> mark = marks.poll(); mark != null; mark = marks.poll()) {
            mark.accept(batch);
        }
        store.commit(batch);
        batch.clear();
        couriers.forEach(Courier::nudge);
    }

    long waiting(String route) {
        try (StoreReader reader = StoreReader.open(file)) {
            return reader.due(route, 0, 100_000).size();
        }
    }

    long waitingAfterMarks(String route) {
        commit();
        return waiting(route);
    }

    long attempts(String route) {
        try (StoreReader reader = StoreReader.open(file)) {
            return reader.due(route, 0, 1).get(0).attempts();
        }
    }

    @Override
    public void delivered(long number) {
        marks.add(b -> b.delivered(number, 1));
    }

    @Override
    public void attempted(long number) {
        marks.add(b -> b.attempted(number));
    }

    @Override
    public void givenUp(List<Owed> owed, String reason) {
        marks.add(b -> owed.forEach(o -> b.givenUp(o.number(), 1, reason)));
    }

    @Override
    public void close() {
        couriers.forEach(Courier::close);
        outboxes.forEach(StoreOutbox::close);
        store.close();
    }
}
