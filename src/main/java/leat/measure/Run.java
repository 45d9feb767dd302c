package leat.measure;

import static java.util.Objects.requireNonNull;

import java.util.Collections;
import java.util.EnumMap;
import java.util.Map;
import leat.measure.absence.Absence;

/**
 * The numbers of one run of the booster, from its start to its stop. Immutable.
 *
 * @param startedAtMicros when it began, microseconds UTC
 * @param endedAtMicros when it ended, or until when it has been measured; microseconds UTC
 * @param over false while the run lasts
 * @param figures each number of the whole run so far, or why there is none
 */
public record Run(
        long startedAtMicros, long endedAtMicros, boolean over, Map<Measurand, Figure> figures) {

    public Run {
        EnumMap<Measurand, Figure> copy = new EnumMap<>(Measurand.class);
        figures.forEach((measurand, figure) -> copy.put(measurand, requireNonNull(figure)));
        figures = Collections.unmodifiableMap(copy);
    }

    public Figure figure(Measurand measurand) {
        return figures.getOrDefault(measurand, Figure.absent(Absence.NOT_MEASURED_THEN));
    }
}
