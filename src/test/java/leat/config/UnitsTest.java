package leat.config;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.EnumMap;
import java.util.Map;
import java.util.Random;
import java.util.function.Function;
import leat.rule.Limit;
import leat.rule.Limits;
import leat.signal.Channel;
import leat.signal.PressureUnit;
import leat.signal.Transducer;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class UnitsTest {

    private static String site(String limits) {
        return GoodSite.TEXT
                .replaceFirst("(?s)limits:\n.*?machines:", "limits:\n" + limits + "machines:")
                .replaceFirst(" +limits: \\{ rise[^\n]*\n", "");
    }

    private static Map<Limit, Double> read(String limits) {
        return GoodSite.site(site(limits)).machines().get(0).limits().changed();
    }

    /** Every limit at values that contradict nothing, each pressure in a unit drawn by lot. */
    @ParameterizedTest
    @ValueSource(longs = {1, 2, 3, 4, 5, 6, 7, 8, 9, 10})
    void psi_bar_kpa_or_a_mixture_of_them_give_the_very_same_limits(long seed) {
        Random random = new Random(seed);
        Map<Limit, Double> psi = new EnumMap<>(Limit.class);
        for (Limit limit : Limit.values()) {
            double factor = 1 + random.nextInt(40) / 1000.0;
            if (limit.dimension() == Limit.Dimension.PRESSURE
                    || limit.dimension() == Limit.Dimension.PRESSURE_RATE) {
                psi.put(limit, Math.rint(limit.defaultValue() * factor * 1000) / 1000);
            }
        }

        Map<Limit, Double> mixed = new EnumMap<>(Limit.class);
        for (PressureUnit unit : PressureUnit.values()) {
            Map<Limit, Double> inOneUnit = read(written(psi, limit -> unit));
            assertThat(inOneUnit).as("seed %d, %s", seed, unit).isEqualTo(changed(psi));
        }
        mixed.putAll(read(written(psi, l -> PressureUnit.values()[random.nextInt(3)])));

        assertThat(mixed).as("seed %d, mixed", seed).isEqualTo(changed(psi));
    }

    private static Map<Limit, Double> changed(Map<Limit, Double> psi) {
        return Limits.with(psi).changed();
    }

    private static String written(Map<Limit, Double> psi, Function<Limit, PressureUnit> units) {
        StringBuilder text = new StringBuilder();
        String group = "";
        for (Map.Entry<Limit, Double> entry : psi.entrySet()) {
            String[] key = entry.getKey().key().split("\\.");
            if (!key[0].equals(group)) {
                group = key[0];
                text.append("  ").append(group).append(":\n");
            }
            PressureUnit unit = units.apply(entry.getKey());
            boolean isRate = entry.getKey().dimension() == Limit.Dimension.PRESSURE_RATE;
            text.append("    ").append(key[1]).append(": ");
            text.append(unit.fromPsi(entry.getValue())).append(' ').append(unit.symbol());
            text.append(isRate ? "/s\n" : "\n");
        }
        return text.toString();
    }

    /** The ends of a range must be reachable in every unit. */
    @Test
    void every_limit_can_be_set_to_the_ends_of_its_range_in_every_unit() {
        for (Limit limit : Limit.values()) {
            for (PressureUnit unit : PressureUnit.values()) {
                if (limit.dimension() == Limit.Dimension.PRESSURE) {
                    for (double end : new double[] {limit.min(), limit.max()}) {
                        String text = site(written(Map.of(limit, end), l -> unit));

                        assertThat(GoodSite.problems(text))
                                .as("%s %s %s", limit, end, unit)
                                .noneMatch(p -> p.what().contains("out of range"));
                    }
                }
            }
        }
    }

    /** NIST SP 811 (2008), Appendix B.8: 1 psi is 6.894 757 kPa, so 100 psi are 6.894757 bar. */
    @Test
    void a_hundred_psi_are_as_many_bar_and_kpa_as_sp_811_says() {
        double inBar =
                read("  level: { set: 6.894757 bar }\n").getOrDefault(Limit.LEVEL_SET, 100.0);
        double inKpa =
                read("  level: { set: 689.4757 kPa }\n").getOrDefault(Limit.LEVEL_SET, 100.0);

        assertThat(inBar).isBetween(99.99999, 100.00001);
        assertThat(inKpa).isEqualTo(inBar);
    }

    @ParameterizedTest
    @ValueSource(strings = {"0.1 min", "6 s", "6000 ms", "6s", "6.000 s", "6e3 ms"})
    void a_time_may_be_written_in_any_unit(String written) {
        Site site = GoodSite.site(GoodSite.with("warning: 5 s", "warning: " + written));

        assertThat(site.machines().get(0).limits().get(Limit.RISE_WARNING)).isEqualTo(6.0);
    }

    @Test
    void a_transducer_scaled_in_bar_reads_as_one_scaled_in_psi() {
        String inBar =
                GoodSite.with(
                        "{ at: 20 mA, reads: 200 psi }",
                        "{ at: 20 mA, reads: " + PressureUnit.BAR.fromPsi(200) + " bar }");

        assertThat(inlet(inBar)).isEqualTo(inlet(GoodSite.TEXT));
    }

    private static Transducer inlet(String text) {
        MachineSettings machine = GoodSite.site(text).machines().get(0);
        return (Transducer) machine.byChannel().get(Channel.INLET).conversion();
    }
}
