package leat.rule;

import java.util.List;
import leat.measure.Figure;
import leat.signal.Channel;

/** Where judges put what they find. */
public interface Findings {

    /** A condition came, or the grade of one that stands changed. */
    void found(Finding finding);

    /**
     * A condition that stood is gone.
     *
     * @param inletPsi what the inlet gauge reads now
     * @param boostedPsi what the boosted gauge reads now
     * @param now further facts; may be empty
     */
    void cleared(
            Rule rule,
            Channel channel,
            long atMicros,
            Figure inletPsi,
            Figure boostedPsi,
            List<Remark> now);
}
