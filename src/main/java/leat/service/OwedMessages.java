package leat.service;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.OptionalLong;
import leat.alarm.AlarmChange;
import leat.config.Site;
import leat.deliver.Annunciator;
import leat.deliver.Changed;
import leat.deliver.DayReports;
import leat.deliver.MachineDay;
import leat.deliver.Occasion;
import leat.deliver.StoreNotice;
import leat.deliver.Wording;
import leat.diagnose.Diagnosis;
import leat.phase.PhaseChange;
import leat.signal.ClockStep;
import leat.store.Batch;
import leat.store.Message;
import leat.store.StoreReader;
import leat.store.StoredAlarm;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;

/**
 * Feeds the annunciator, and puts what it owes, in words, and its state into the batch. Confined to
 * the engine thread.
 */
final class OwedMessages {

    /** Asks how a machine did. */
    @FunctionalInterface
    interface Days {
        /** Between two times, microseconds UTC; the second is not in it. */
        MachineDay day(String machine, long fromMicros, long toMicros);
    }

    private static final Logger LOG = LoggerFactory.getLogger(OwedMessages.class);

    private final Annunciator annunciator;
    private final Wording wording;
    private final AlarmNumbers numbers;

    /** The state is other than the one that was committed last. */
    private boolean hasChanged = true;

    /** Who stands for the folded messages of earlier runs is not known. */
    private boolean unfolds;

    private OwedMessages(
            Site site, Annunciator annunciator, AlarmNumbers numbers, boolean unfolds) {
        this.annunciator = annunciator;
        this.wording = new Wording(site);
        this.numbers = numbers;
        this.unfolds = unfolds;
    }

    /** Goes on from what the store holds of earlier runs. */
    static OwedMessages takenUp(Site site, StoreReader reader, long nowMicros) {
        AlarmNumbers numbers = AlarmNumbers.takenUp(reader);
        Optional<byte[]> state = reader.annunciator();
        if (state.isPresent()) {
            try {
                Annunciator before = Annunciator.restore(site, state.get());
                return new OwedMessages(site, before, numbers, false);
            } catch (IllegalArgumentException e) {
                LOG.warn("who was told what cannot be taken up: {}", e.getMessage());
            }
        } else if (reader.runs(1).isEmpty()) {
            return new OwedMessages(site, new Annunciator(site), numbers, false);
        }
        return new OwedMessages(site, fromWhatStands(site, reader, nowMicros), numbers, true);
    }

    private static Annunciator fromWhatStands(Site site, StoreReader reader, long nowMicros) {
        List<Changed> history = new ArrayList<>();
        for (StoredAlarm standing : reader.standingAlarms()) {
            reader.alarmHistory(standing.change().alarmId())
                    .forEach(each -> history.add(stored(each)));
        }
        history.sort(Comparator.comparingLong(changed -> changed.change().atMicros()));
        LOG.warn(
                "what stands counts as told to whoever its grade concerns, and what was folded is"
                        + " told one by one; changes: {}",
                history.size());
        Annunciator annunciator = new Annunciator(site);
        annunciator.feed(new Occasion.StoodBefore(history, nowMicros), message -> {});
        return annunciator;
    }

    private static Changed stored(StoredAlarm alarm) {
        return new Changed(
                alarm.machine(), alarm.change(), Optional.empty(), OptionalLong.of(alarm.number()));
    }

    /** An alarm of a machine has changed. */
    void changed(String machine, AlarmChange change, Optional<Diagnosis> why, Batch batch) {
        long number = numbers.of(change);
        batch.numbered(change.alarmId(), number);
        feed(new Changed(machine, change, why, OptionalLong.of(number)), batch);
        hasChanged = true;
    }

    /** What a machine does has changed. */
    void phaseChanged(String machine, PhaseChange change, Batch batch) {
        if (change.isOfRunning()) {
            feed(Occasion.RunChanged.of(machine, change), batch);
            hasChanged = true;
        }
    }

    /** A second has passed. */
    void second(long nowMicros, Batch batch) {
        feed(new Occasion.Passed(nowMicros), batch);
    }

    /** The clock was set by which a machine is watched. */
    void clockSet(String machine, ClockStep step, Batch batch) {
        feed(new Occasion.ClockSet(machine, step.atMicros() - step.fromMicros()), batch);
        hasChanged = true;
    }

    /** The reports of the day, when it is time. */
    void daily(long nowMicros, Days days, Batch batch) {
        for (DayReports.Report report : annunciator.asks(nowMicros)) {
            List<MachineDay> counted =
                    report.machines().stream()
                            .map(each -> days.day(each, report.fromMicros(), report.toMicros()))
                            .toList();
            feed(new Occasion.DayCounted(report, counted, nowMicros), batch);
        }
    }

    /** Messages of one route are not tried any more. */
    void givenUp(List<Message> messages, String reason, long nowMicros, Batch batch) {
        feed(new Occasion.GivenUp(messages, reason, nowMicros), batch);
    }

    /** How it stands with the store has changed. */
    void storeChanged(StoreNotice notice, long nowMicros, Batch batch) {
        feed(new Occasion.StoreChanged(notice, nowMicros), batch);
    }

    private void feed(Occasion occasion, Batch batch) {
        annunciator.feed(
                occasion,
                notification -> {
                    batch.owes(wording.message(notification));
                    hasChanged = true;
                });
    }

    /** The alarms that stand, each as it is now. */
    List<Changed> standing() {
        return annunciator.standing();
    }

    /** To be called before the first commit into a file that was begun anew. */
    void keepAll(Batch batch) {
        hasChanged = true;
        keep(batch);
    }

    /** To be called before each commit: puts the state beside what has changed it. */
    void keep(Batch batch) {
        if (unfolds) {
            batch.unfolds();
        }
        if (hasChanged) {
            batch.annunciator(annunciator.snapshot());
        }
        unfolds = false;
        hasChanged = false;
    }
}
