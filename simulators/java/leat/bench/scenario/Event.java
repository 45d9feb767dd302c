package leat.bench.scenario;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import leat.bench.line.Fault;
import leat.bench.sensor.Tap;

/**
 * Something that happens to a machine.
 *
 * @param at time since the start of the pass, 0 or more
 * @param action what happens
 */
public record Event(Duration at, Action action) {

    public Event {
        requireNonNull(action, "action");
        if (at.isNegative()) {
            throw new IllegalArgumentException("an event cannot come before the start: " + at);
        }
    }

    /** What can happen. */
    public sealed interface Action {
        /** Does it to {@code stage}. */
        void to(Stage stage);
    }

    /** Takes each kind of action. */
    interface Stage {
        void start();

        void stop();

        void strike(Fault fault, double severity);

        void repair(Fault fault);

        void breakLoop(Tap tap);

        void mendLoop(Tap tap);
    }

    /** The machine is switched on. */
    public record Start() implements Action {
        @Override
        public void to(Stage stage) {
            stage.start();
        }
    }

    /** The machine is switched off. */
    public record Stop() implements Action {
        @Override
        public void to(Stage stage) {
            stage.stop();
        }
    }

    /**
     * Something goes wrong with the feed line.
     *
     * @param fault what
     * @param severity 0 to 1
     */
    public record Strike(Fault fault, double severity) implements Action {
        public Strike {
            requireNonNull(fault, "fault");
            if (!(severity >= 0 && severity <= 1)) {
                throw new IllegalArgumentException("severity must be 0 to 1: " + severity);
            }
        }

        @Override
        public void to(Stage stage) {
            stage.strike(fault, severity);
        }
    }

    /** Somebody repairs it. */
    public record Repair(Fault fault) implements Action {
        public Repair {
            requireNonNull(fault, "fault");
        }

        @Override
        public void to(Stage stage) {
            stage.repair(fault);
        }
    }

    /** The wire of a transducer breaks. */
    public record BreakLoop(Tap tap) implements Action {
        public BreakLoop {
            requireNonNull(tap, "tap");
        }

        @Override
        public void to(Stage stage) {
            stage.breakLoop(tap);
        }
    }

    /** The wire is mended. */
    public record MendLoop(Tap tap) implements Action {
        public MendLoop {
            requireNonNull(tap, "tap");
        }

        @Override
        public void to(Stage stage) {
            stage.mendLoop(tap);
        }
    }
}
