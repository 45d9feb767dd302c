package leat.live;

import java.util.List;

/**
 * How much the booster adds while it runs at its level.
 *
 * @param ratio boosted over inlet pressure
 * @param limits what applies to it; none where the level is high enough without it
 */
public record BoostNow(double ratio, List<LimitNow> limits) {

    public BoostNow {
        limits = List.copyOf(limits);
    }
}
