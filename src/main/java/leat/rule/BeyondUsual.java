package leat.rule;

import java.util.EnumSet;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import leat.measure.Measurand;
import leat.measure.Startup;

/** Which numbers of a start lie beyond what is usual for its machine, whatever is called for it. */
public final class BeyondUsual {

    private BeyondUsual() {}

    /** None where no baseline is known, or of a start that reached no level. */
    public static Set<Measurand> of(Startup start, Optional<Baseline> baseline, Limits limits) {
        Set<Measurand> beyond = EnumSet.noneOf(Measurand.class);
        if (baseline.isPresent() && start.risen()) {
            Stream.of(Deviation.values())
                    .flatMap(
                            way ->
                                    Difference.of(way, Seen.of(start), baseline.get(), limits)
                                            .stream())
                    .filter(Difference::isOn)
                    .forEach(difference -> beyond.add(difference.measurand()));
        }
        return beyond;
    }
}
