package leat.deliver;

import static java.util.Objects.requireNonNull;

import java.util.List;
import java.util.OptionalLong;
import java.util.function.Consumer;
import leat.phase.PhaseChange;
import leat.store.Message;

/** What can make it due that somebody is told something. */
public sealed interface Occasion
        permits Changed,
                Occasion.Passed,
                Occasion.ClockSet,
                Occasion.RunChanged,
                Occasion.GivenUp,
                Occasion.DayCounted,
                Occasion.StoreChanged,
                Occasion.StoodBefore {

    /** Tells the annunciator. */
    void befall(Annunciator annunciator, Consumer<Notification> into);

    /**
     * Time has passed; meant to be fed once a second.
     *
     * @param nowMicros event time, microseconds UTC
     */
    record Passed(long nowMicros) implements Occasion {
        @Override
        public void befall(Annunciator annunciator, Consumer<Notification> into) {
            annunciator.passed(nowMicros, into);
        }
    }

    /**
     * The clock was set by which a machine is watched: how long somebody has been waited for does
     * not change by it.
     *
     * @param byMicros forward, or back when negative
     */
    record ClockSet(String machine, long byMicros) implements Occasion {
        public ClockSet {
            requireNonNull(machine, "machine");
        }

        @Override
        public void befall(Annunciator annunciator, Consumer<Notification> into) {
            annunciator.clockSet(machine, byMicros);
        }
    }

    /**
     * A machine has begun to run, or does so no more.
     *
     * @param sinceMicros when it began, microseconds UTC; empty when it does not run
     */
    record RunChanged(String machine, OptionalLong sinceMicros) implements Occasion {
        public RunChanged {
            requireNonNull(machine, "machine");
            requireNonNull(sinceMicros, "sinceMicros");
        }

        /** By a change of the phase that is {@link PhaseChange#isOfRunning of running}. */
        public static RunChanged of(String machine, PhaseChange change) {
            return new RunChanged(
                    machine,
                    change.to().isRunning()
                            ? OptionalLong.of(change.atMicros())
                            : OptionalLong.empty());
        }

        @Override
        public void befall(Annunciator annunciator, Consumer<Notification> into) {
            annunciator.runChanged(machine, sinceMicros);
        }
    }

    /**
     * Messages of one route are not tried any more.
     *
     * @param messages in the order in which they were owed
     * @param reason why, in plain words
     * @param nowMicros event time, microseconds UTC
     */
    record GivenUp(List<Message> messages, String reason, long nowMicros) implements Occasion {
        public GivenUp {
            messages = List.copyOf(messages);
            requireNonNull(reason, "reason");
        }

        @Override
        public void befall(Annunciator annunciator, Consumer<Notification> into) {
            annunciator.givenUp(this, into);
        }
    }

    /**
     * The figures that a report of the day was waiting for.
     *
     * @param report the one that {@link Annunciator#asks asked} for them
     * @param days of the machines that it names
     * @param nowMicros event time, microseconds UTC
     */
    record DayCounted(DayReports.Report report, List<MachineDay> days, long nowMicros)
            implements Occasion {
        public DayCounted {
            requireNonNull(report, "report");
            days = List.copyOf(days);
        }

        @Override
        public void befall(Annunciator annunciator, Consumer<Notification> into) {
            annunciator.counted(this, into);
        }
    }

    /**
     * How it stands with the store has changed.
     *
     * @param notice what is to be told
     * @param nowMicros event time, microseconds UTC
     */
    record StoreChanged(StoreNotice notice, long nowMicros) implements Occasion {
        public StoreChanged {
            requireNonNull(notice, "notice");
        }

        @Override
        public void befall(Annunciator annunciator, Consumer<Notification> into) {
            annunciator.storeChanged(this, into);
        }
    }

    /**
     * Alarms stand of which everybody was told by a leat that left no state of its annunciator.
     *
     * @param history every change of each, each alarm's in its order
     * @param nowMicros event time, microseconds UTC
     */
    record StoodBefore(List<Changed> history, long nowMicros) implements Occasion {
        public StoodBefore {
            history = List.copyOf(history);
        }

        @Override
        public void befall(Annunciator annunciator, Consumer<Notification> into) {
            annunciator.stoodBefore(this);
        }
    }
}
