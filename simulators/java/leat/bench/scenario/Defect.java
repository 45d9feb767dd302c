package leat.bench.scenario;

import static java.util.Objects.requireNonNull;

import java.util.Locale;
import leat.bench.line.Fault;
import leat.bench.sensor.SensorFault;
import leat.bench.sensor.Tap;

/** Something that can be wrong with a machine: with its line, a transducer, or the cables. */
public sealed interface Defect {

    /** Name of the crossed cables in a scenario file. */
    String SWAPPED = "swapped";

    /** What can be made worse or repaired. */
    interface Body {
        void strike(Fault fault, double severity);

        void repair(Fault fault);

        void strike(Tap tap, SensorFault fault, double size);

        void repair(Tap tap, SensorFault fault);

        void swap(boolean swapped);
    }

    /** Puts it into {@code body}, or changes its size. */
    void strike(Body body, double size);

    /** Takes it out of {@code body}. */
    void repair(Body body);

    /** What it is and how bad, in a few plain words: {@code worn-booster 0.720}. */
    String words(double size);

    /** A fault of the feed line; its size is a severity of 0 to 1. */
    record OfLine(Fault fault) implements Defect {
        public OfLine {
            requireNonNull(fault, "fault");
        }

        @Override
        public void strike(Body body, double size) {
            body.strike(fault, size);
        }

        @Override
        public void repair(Body body) {
            body.repair(fault);
        }

        @Override
        public String words(double size) {
            return fault.isGraded()
                    ? String.format(Locale.ROOT, "%s %.3f", fault.key(), size)
                    : fault.key();
        }
    }

    /** A fault of one transducer or its wires; its size is in the unit of the fault. */
    record OfTransducer(Tap tap, SensorFault fault) implements Defect {
        public OfTransducer {
            requireNonNull(tap, "tap");
            requireNonNull(fault, "fault");
        }

        @Override
        public void strike(Body body, double size) {
            body.strike(tap, fault, size);
        }

        @Override
        public void repair(Body body) {
            body.repair(tap, fault);
        }

        @Override
        public String words(double size) {
            String what = fault.key() + " " + tap.key();
            return fault.unit().isEmpty()
                    ? what
                    : String.format(Locale.ROOT, "%s %.3f %s", what, size, fault.unit());
        }
    }

    /** The cables of the inlet and the boosted transducer are crossed. */
    record Swapped() implements Defect {
        @Override
        public void strike(Body body, double size) {
            body.swap(true);
        }

        @Override
        public void repair(Body body) {
            body.swap(false);
        }

        @Override
        public String words(double size) {
            return SWAPPED;
        }
    }
}
