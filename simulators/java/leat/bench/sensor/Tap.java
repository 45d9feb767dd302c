package leat.bench.sensor;

import java.util.Locale;
import java.util.Optional;
import leat.bench.line.LineState;

/** Where a transducer sits. */
public enum Tap {
    INLET {
        @Override
        public double psi(LineState state) {
            return state.inletPsi();
        }
    },
    BOOSTED {
        @Override
        public double psi(LineState state) {
            return state.boostedPsi();
        }
    },
    FILTERED {
        @Override
        public double psi(LineState state) {
            return state.filteredPsi();
        }
    };

    /** The true pressure there. */
    public abstract double psi(LineState state);

    /** Its name in scenario files, topics and {@code site.yaml}. */
    public String key() {
        return name().toLowerCase(Locale.ROOT);
    }

    /** The tap with that name. */
    public static Optional<Tap> byKey(String key) {
        for (Tap tap : values()) {
            if (tap.key().equals(key)) {
                return Optional.of(tap);
            }
        }
        return Optional.empty();
    }
}
