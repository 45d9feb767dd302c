package leat.service;

import java.nio.file.Path;
import java.sql.Connection;
import java.sql.DriverManager;
import java.sql.SQLException;
import java.sql.Statement;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmNotes;
import leat.alarm.AlarmState;
import leat.config.MachineSettings;
import leat.config.RoutePolicy;
import leat.config.RouteScope;
import leat.config.RouteSettings;
import leat.config.Site;
import leat.config.StoreSettings;
import leat.deliver.MachineDay;
import leat.diagnose.Cause;
import leat.diagnose.Diagnosis;
import leat.diagnose.Suspect;
import leat.measure.Figure;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.rule.Limits;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.ClockStep;
import leat.signal.PressureUnit;
import leat.store.Batch;
import leat.store.Message;
import leat.store.Store;
import leat.store.StoreReader;
import leat.watch.Outcome;
import leat.words.Language;

/**
 * A real store with the owed messages of the engine, and a test in the place of the engine: alarms
 * change, minutes pass, each is a commit, and the run can end and begin again. Minutes count from
 * 12:00 in Berlin on 2026-01-05. Confined to the test's thread.
 */
final class PolicyRoom implements AutoCloseable {

    static final long MINUTE = 60_000_000L;
    static final long NOON = Instant.parse("2026-01-05T11:00:00Z").getEpochSecond() * 1_000_000;
    private static final String HASH = "a".repeat(64);

    private final Path folder;
    private Site site;
    private Store store;
    private OwedMessages messages;
    private long seq;
    private long nowMicros = NOON;
    private Optional<Diagnosis> why = Optional.empty();

    PolicyRoom(Path folder, RouteSettings... routes) {
        this.folder = folder;
        site = site(folder, routes);
        open();
    }

    private static Site site(Path folder, RouteSettings... routes) {
        return new Site(
                "Boatyard",
                ZoneId.of("Europe/Berlin"),
                Language.ENGLISH,
                PressureUnit.PSI,
                new StoreSettings(folder, Duration.ofDays(30)),
                List.of(),
                List.of(
                        new MachineSettings("jet-1", List.of(), Limits.DEFAULTS),
                        new MachineSettings("jet-2", List.of(), Limits.DEFAULTS)),
                List.of(routes),
                Optional.empty(),
                Optional.empty(),
                HASH,
                "text");
    }

    static RouteSettings route(String name, RoutePolicy policy) {
        return new RouteSettings.Log(
                name, new RouteScope(Grade.ADVISORY, List.of(), Duration.ofHours(72), policy));
    }

    private void open() {
        store = Store.open(site.store().file());
        try (StoreReader reader = StoreReader.open(site.store().file())) {
            messages = OwedMessages.takenUp(site, reader, nowMicros);
            commit(new Batch());
            store.startRun("test", HASH, "text", NOON);
            new GoneRoutes(site, reader, store, messages).giveUp(nowMicros);
        }
    }

    private void commit(Batch batch) {
        messages.keep(batch);
        store.commit(batch);
    }

    /** As after kill -9: nothing but the store is left. */
    void restart() {
        store.close();
        open();
    }

    /** As after kill -9, and on a store to which this was done. */
    void restartAfter(String sql) {
        store.close();
        try (Connection file = DriverManager.getConnection("jdbc:sqlite:" + site.store().file());
                Statement statement = file.createStatement()) {
            statement.executeUpdate(sql);
        } catch (SQLException e) {
            throw new IllegalStateException(e);
        }
        open();
    }

    /** With other settings. */
    void restart(RouteSettings... routes) {
        site = site(folder, routes);
        restart();
    }

    /** The second at that minute passes, and kill -9 comes before its commit. */
    void lose(double minute) {
        pass(minute);
        restart();
    }

    /** From now on every alarm comes of this cause. */
    void because(Cause cause) {
        Suspect suspect = new Suspect(cause, 0.8, List.of(), List.of(), Optional.empty());
        why = Optional.of(new Diagnosis(List.of(suspect), 3, 12, List.of()));
    }

    /** An alarm of a machine has changed and the second is committed. */
    void change(
            String machine,
            Rule rule,
            int revision,
            AlarmEvent event,
            AlarmState to,
            Grade grade,
            double minute) {
        change(machine, rule, revision, event, to, grade, AlarmNotes.plain(to), minute);
    }

    /** An ADVISORY alarm is held back from now on. */
    void hold(
            String machine,
            Rule rule,
            int revision,
            AlarmEvent event,
            AlarmState to,
            AlarmState own,
            double minute) {
        AlarmNotes notes =
                new AlarmNotes(own, 1, false, OptionalLong.empty(), "", Optional.empty());
        change(machine, rule, revision, event, to, Grade.ADVISORY, notes, minute);
    }

    /** So many changes of a low ratio of jet-1, all in one commit. */
    void changes(int count) {
        Batch batch = new Batch();
        for (int n = 1; n <= count; n++) {
            AlarmState to = AlarmState.UNACKNOWLEDGED;
            owe(
                    "jet-1",
                    Rule.RATIO,
                    n,
                    AlarmEvent.WORSENED,
                    to,
                    Grade.WARNING,
                    AlarmNotes.plain(to),
                    0,
                    batch);
        }
        commit(batch);
    }

    private void change(
            String machine,
            Rule rule,
            int revision,
            AlarmEvent event,
            AlarmState to,
            Grade grade,
            AlarmNotes notes,
            double minute) {
        Batch batch = new Batch();
        owe(machine, rule, revision, event, to, grade, notes, minute, batch);
        commit(batch);
    }

    private void owe(
            String machine,
            Rule rule,
            int revision,
            AlarmEvent event,
            AlarmState to,
            Grade grade,
            AlarmNotes notes,
            double minute,
            Batch batch) {
        long at = NOON + Math.round(minute * MINUTE);
        Finding finding =
                new Finding(
                        rule,
                        Channel.BOOSTED,
                        grade,
                        at,
                        at,
                        Finding.Quantity.RATIO,
                        1.62,
                        2.0,
                        Finding.Sense.AT_LEAST,
                        Figure.of(44.5),
                        Figure.of(72.1),
                        List.of());
        AlarmChange change =
                new AlarmChange(
                        machine + "." + rule.key() + ".x",
                        revision,
                        event,
                        AlarmState.NORMAL,
                        to,
                        at,
                        at,
                        finding,
                        "",
                        notes);
        seq++;
        batch.said(machine, seq, new Outcome.AlarmChanged(change, why), HASH);
        messages.changed(machine, change, why, batch);
    }

    /** A low ratio of jet-1. */
    void change(int revision, AlarmEvent event, AlarmState to, Grade grade, double minute) {
        change("jet-1", Rule.RATIO, revision, event, to, grade, minute);
    }

    /** The second at that minute passes, with nothing new. */
    void second(double minute) {
        commit(pass(minute));
    }

    /** The clock by which a machine is watched was, at one minute, set to another. */
    void setClock(String machine, double fromMinute, double toMinute) {
        Batch batch = new Batch();
        long from = NOON + Math.round(fromMinute * MINUTE);
        ClockStep step = new ClockStep(NOON + Math.round(toMinute * MINUTE), from);
        messages.clockSet(machine, step, batch);
        commit(batch);
    }

    private Batch pass(double minute) {
        Batch batch = new Batch();
        nowMicros = NOON + Math.round(minute * MINUTE);
        messages.second(nowMicros, batch);
        messages.daily(nowMicros, PolicyRoom::day, batch);
        return batch;
    }

    /** Housekeeping deletes every message that may go, as often as it takes. */
    void prune() {
        for (int i = 0; i < 10; i++) {
            store.pruneMessages(0);
        }
    }

    /** The first message that a route is owed has reached it. */
    void deliver(String route, double minute) {
        try (StoreReader reader = StoreReader.open(site.store().file())) {
            Batch batch = new Batch();
            batch.delivered(
                    reader.due(route, 0, 1).get(0).number(), NOON + Math.round(minute * MINUTE));
            store.commit(batch);
        }
    }

    /** Minutes from noon of the first day to that instant. */
    static double minute(String instant) {
        long micros = Instant.parse(instant).getEpochSecond() * 1_000_000;
        return (micros - NOON) / (double) MINUTE;
    }

    /** As many starts as hours; of jet-2 one alarm stands. */
    private static MachineDay day(String machine, long fromMicros, long toMicros) {
        long standing = machine.equals("jet-1") ? 0 : 1;
        return new MachineDay(
                machine, (toMicros - fromMicros) / (60 * MINUTE), standing, OptionalLong.of(NOON));
    }

    /** What a route is owed, in its order. */
    List<Message> due(String route) {
        try (StoreReader reader = StoreReader.open(site.store().file())) {
            return reader.due(route, 0, 1000).stream().map(due -> due.message()).toList();
        }
    }

    List<String> ids(String route) {
        return due(route).stream().map(Message::id).toList();
    }

    @Override
    public void close() {
        store.close();
    }
}
