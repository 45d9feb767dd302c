package leat.bench.scenario;

import static java.util.Objects.requireNonNull;

import java.time.Duration;
import leat.bench.line.Fault;
import leat.bench.sensor.SensorFault;
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

        void cut();

        void pause();

        void strike(Defect defect, Course size);

        void repair(Defect defect);
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

    /** The jet is turned on. */
    public record Cut() implements Action {
        @Override
        public void to(Stage stage) {
            stage.cut();
        }
    }

    /** The jet is turned off; the machine runs on. */
    public record Pause() implements Action {
        @Override
        public void to(Stage stage) {
            stage.pause();
        }
    }

    /**
     * Something goes wrong.
     *
     * @param defect what
     * @param size how bad it is from then on: of a fault of the line 0 to 1
     */
    public record Strike(Defect defect, Course size) implements Action {
        public Strike {
            requireNonNull(defect, "defect");
            requireNonNull(size, "size");
            if (defect instanceof Defect.OfLine) {
                requireSeverity(size.from());
                requireSeverity(size.to());
            }
        }

        /** A fault of the line that stays as it is. */
        public Strike(Fault fault, double severity) {
            this(new Defect.OfLine(fault), Course.steady(severity));
        }

        /** A fault of a transducer that stays as it is. */
        public Strike(Tap tap, SensorFault fault, double size) {
            this(new Defect.OfTransducer(tap, fault), Course.steady(size));
        }

        private static void requireSeverity(double severity) {
            if (!(severity >= 0 && severity <= 1)) {
                throw new IllegalArgumentException("severity must be 0 to 1: " + severity);
            }
        }

        @Override
        public void to(Stage stage) {
            stage.strike(defect, size);
        }
    }

    /** Somebody repairs it. */
    public record Repair(Defect defect) implements Action {
        public Repair {
            requireNonNull(defect, "defect");
        }

        /** A fault of the line. */
        public Repair(Fault fault) {
            this(new Defect.OfLine(fault));
        }

        /** A fault of a transducer. */
        public Repair(Tap tap, SensorFault fault) {
            this(new Defect.OfTransducer(tap, fault));
        }

        @Override
        public void to(Stage stage) {
            stage.repair(defect);
        }
    }
}
