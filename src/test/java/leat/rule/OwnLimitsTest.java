package leat.rule;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.EnumSet;
import java.util.Map;
import java.util.Set;
import org.junit.jupiter.api.Test;

/** The edges of every limit are looked at, and under limits that can be told apart. */
class OwnLimitsTest {

    /** Limits that no judge looks at, and who tests them. */
    private static final Map<Limit, String> ELSEWHERE =
            Map.of(
                    Limit.RISE_FIXED_LEVEL, "a level that the meter times to: WatchEdgesTest",
                    Limit.SIGNAL_BLIND, "a phase, and no finding: WatchEdgesTest",
                    Limit.ALARM_CHATTER_COUNT, "the life of an alarm: ChatterTest",
                    Limit.ALARM_CHATTER_WINDOW, "the life of an alarm: ChatterTest",
                    Limit.ALARM_CHATTER_QUIET, "the life of an alarm: ChatterTest",
                    Limit.ALARM_LONGEST_HOLD, "the life of an alarm: HoldTest, ServiceTest");

    @Test
    void no_two_own_limits_are_alike_and_none_but_a_flag_is_its_default() {
        assertThat(OwnLimits.BY_LIMIT).containsOnlyKeys(Limit.values());
        assertThat(OwnLimits.BY_LIMIT.entrySet())
                .filteredOn(own -> own.getKey().dimension() != Limit.Dimension.FLAG)
                .allMatch(own -> own.getValue() != own.getKey().defaultValue())
                .extracting(Map.Entry::getValue)
                .doesNotHaveDuplicates();
    }

    @Test
    void every_limit_stands_in_a_table_of_edges_or_is_tested_elsewhere_for_a_reason() {
        Set<Limit> here =
                OwnLimits.namedIn(
                        String.join(
                                " ",
                                EdgesTest.EACH_SECOND,
                                EdgesTest.ALONE,
                                FilterEdgesTest.LIMITS,
                                SignalEdgesTest.SIGNALS,
                                SignalEdgesTest.ALONE,
                                StartEdgesTest.STARTS,
                                StartEdgesTest.STOPS,
                                StartEdgesTest.RISEN_LATE,
                                StartEdgesTest.ALONE));

        assertThat(here).doesNotContainAnyElementsOf(ELSEWHERE.keySet());
        here.addAll(ELSEWHERE.keySet());
        assertThat(here).isEqualTo(EnumSet.allOf(Limit.class));
    }
}
