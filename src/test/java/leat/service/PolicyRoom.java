package leat.service;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import leat.alarm.AlarmChange;
import leat.alarm.AlarmEvent;
import leat.alarm.AlarmState;
import leat.config.MachineSettings;
import leat.config.RoutePolicy;
import leat.config.RouteScope;
import leat.config.RouteSettings;
import leat.config.Site;
import leat.config.StoreSettings;
import leat.deliver.MachineDay;
import leat.measure.Figure;
import leat.rule.Finding;
import leat.rule.Grade;
import leat.rule.Limits;
import leat.rule.Rule;
import leat.signal.Channel;
import leat.signal.PressureUnit;
import leat.store.Batch;
import leat.store.OwedMessage;
import leat.store.Store;
import leat.store.StoreReader;
import leat.watch.Outcome;
import leat.words.Language;

/**
 * A real store with the mail of the engine, and a test in the place of the engine: alarms change,
 * minutes pass, each is a commit, and the run can end and begin again. Minutes count from 12:00 in
 * Berlin on 2026-01-05. Confined to the test's thread.
 */
final class PolicyRoom implements AutoCloseable {

    static final long MINUTE = 60_000_000L;
    static final long NOON = Instant.parse("2026-01-05T11:00:00Z").getEpochSecond() * 1_000_000;
    private static final String HASH = "a".repeat(64);

    private final Site site;
    private Store store;
    private Mail mail;
    private long seq;

    PolicyRoom(Path folder, RouteSettings... routes) {
        site =
                new Site(
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
                        HASH,
                        "text");
        open();
    }

    static RouteSettings route(String name, RoutePolicy policy) {
        return new RouteSettings.Log(
                name, new RouteScope(Grade.ADVISORY, List.of(), Duration.ofHours(72), policy));
    }

    private void open() {
        store = Store.open(site.store().file());
        store.startRun("test", HASH, "text", NOON);
        try (StoreReader reader = StoreReader.open(site.store().file())) {
            mail = Mail.takenUp(site, reader);
        }
    }

    /** As after kill -9: nothing but the store is left. */
    void restart() {
        store.close();
        open();
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
                        "");
        Batch batch = new Batch();
        seq++;
        batch.said(machine, seq, new Outcome.AlarmChanged(change), HASH);
        mail.owe(machine, change, batch);
        store.commit(batch);
    }

    /** A low ratio of jet-1. */
    void change(int revision, AlarmEvent event, AlarmState to, Grade grade, double minute) {
        change("jet-1", Rule.RATIO, revision, event, to, grade, minute);
    }

    /** The second at that minute passes, with nothing new. */
    void second(double minute) {
        Batch batch = new Batch();
        long now = NOON + Math.round(minute * MINUTE);
        mail.second(now, batch);
        mail.daily(now, PolicyRoom::day, batch);
        store.commit(batch);
    }

    /** As many starts as hours; of jet-2 one alarm stands. */
    private static MachineDay day(String machine, long fromMicros, long toMicros) {
        long standing = machine.equals("jet-1") ? 0 : 1;
        return new MachineDay(
                machine, (toMicros - fromMicros) / (60 * MINUTE), standing, OptionalLong.of(NOON));
    }

    /** What a route is owed, in its order. */
    List<OwedMessage> due(String route) {
        try (StoreReader reader = StoreReader.open(site.store().file())) {
            return reader.due(route, 0, 1000).stream().map(due -> due.message()).toList();
        }
    }

    List<String> ids(String route) {
        return due(route).stream().map(OwedMessage::messageId).toList();
    }

    @Override
    public void close() {
        store.close();
    }
}
