package leat.measure;

import java.util.EnumMap;
import java.util.Map;
import leat.phase.Demand;
import leat.wire.State;

/**
 * The pressures of the last seconds of the present run, apart for jet on and jet off. Thread-
 * confined.
 */
public final class DemandLevels {

    private Demand demand = Demand.UNKNOWN;
    private final Map<Demand, Taps> last = new EnumMap<>(Demand.class);

    DemandLevels() {
        last.put(Demand.DRAWN, new Taps());
        last.put(Demand.PAUSED, new Taps());
    }

    /** What the newest second was that could be told. */
    public Demand demand() {
        return demand;
    }

    /**
     * Mean of the last five seconds of that kind, psi; at least one of them has passed in this run.
     *
     * @param kind {@link Demand#DRAWN} or {@link Demand#PAUSED}
     */
    public double boostedPsi(Demand kind) {
        return last.get(kind).boosted.mean();
    }

    /** Likewise of the inlet. */
    public double inletPsi(Demand kind) {
        return last.get(kind).inlet.mean();
    }

    /** Whether the gauge after the filters was read in a second of that kind. */
    public boolean knowsFiltered(Demand kind) {
        return !last.get(kind).filtered.isEmpty();
    }

    /** Likewise after the filters, where that is known. */
    public double filteredPsi(Demand kind) {
        return last.get(kind).filtered.mean();
    }

    void add(SteadySecond second) {
        demand = second.boosted.count() == 0 ? Demand.UNKNOWN : second.demand;
        Taps taps = last.get(demand);
        if (taps != null) {
            addTo(taps.boosted, second.boosted);
            addTo(taps.inlet, second.inlet);
            addTo(taps.filtered, second.filtered);
        }
    }

    private static void addTo(LastSeconds seconds, SteadySecond.Sum sum) {
        if (sum.count() > 0) {
            seconds.add(sum.mean());
        }
    }

    void clear() {
        demand = Demand.UNKNOWN;
        last.values().forEach(Taps::clear);
    }

    void keep(State state) {
        demand = state.keep("demand", demand);
        last.forEach((kind, taps) -> state.part(kind.name(), taps::keep));
    }

    /** The last seconds of each gauge. */
    private static final class Taps {
        private final LastSeconds boosted = new LastSeconds();
        private final LastSeconds inlet = new LastSeconds();
        private final LastSeconds filtered = new LastSeconds();

        void clear() {
            boosted.clear();
            inlet.clear();
            filtered.clear();
        }

        void keep(State state) {
            state.part("boosted", boosted::keep);
            state.part("inlet", inlet::keep);
            state.part("filtered", filtered::keep);
        }
    }
}
