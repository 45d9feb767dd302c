package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.Arrays;
import java.util.EnumSet;
import java.util.List;
import java.util.Set;
import java.util.stream.Stream;
import leat.Gear;
import leat.measure.Measurand;
import leat.watch.CoverageTable.Held;
import leat.watch.CoverageTable.Sampling;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.EnumSource;

/**
 * The intervals that leat states for machines drawn at random hold what the model of the line says
 * is true, in every class of start and however it is read. A share is one of so many starts: it may
 * lie three standard deviations of the binomial distribution beyond 90 to 98 %.
 */
class StatedIntervalsTest {

    private static final int STARTS = 60;
    private static final Set<DrawnStart.Kind> BY_DAY =
            EnumSet.of(
                    DrawnStart.Kind.HEALTHY,
                    DrawnStart.Kind.WORN,
                    DrawnStart.Kind.STRAINER,
                    DrawnStart.Kind.EXTERNAL_LEAK);

    @Test
    void levels_rise_and_ratio_of_a_few_drawn_starts_hold_the_truth_nearly_always() {
        List<Held> all =
                BY_DAY.stream()
                        .flatMap(kind -> DrawnStart.all(kind, 8).stream())
                        .flatMap(start -> CoverageTable.held(start, Sampling.AT_20_HZ).stream())
                        .filter(Held::isStated)
                        .toList();

        assertThat(all).hasSizeGreaterThan(BY_DAY.size() * 8 * 5);
        assertThat(share(all)).isGreaterThan(0.9);
    }

    @Tag(Gear.THOROUGH)
    @ParameterizedTest
    @EnumSource(DrawnStart.Kind.class)
    void stated_intervals_hold_the_truth_in_every_class_of_start(DrawnStart.Kind kind) {
        List<DrawnStart> starts = DrawnStart.all(kind, STARTS);
        for (Measurand measurand : CoverageTable.FIGURES) {
            List<Held> stated =
                    Stream.of(Sampling.values())
                            .flatMap(how -> starts.stream().map(s -> CoverageTable.held(s, how)))
                            .flatMap(List::stream)
                            .filter(held -> held.measurand() == measurand && held.isStated())
                            .toList();

            assertThat(share(stated))
                    .as("%s %s of %d", kind, measurand.key(), stated.size())
                    .isGreaterThan(0.9 - slack(0.9, stated.size()));
        }
    }

    /** Wide intervals hold everything: those of sound machines are as sharp as they can be. */
    @Tag(Gear.THOROUGH)
    @Test
    void intervals_of_sound_starts_are_sharp() {
        List<Held> all =
                DrawnStart.all(DrawnStart.Kind.HEALTHY, STARTS).stream()
                        .flatMap(start -> CoverageTable.held(start, Sampling.AT_20_HZ).stream())
                        .filter(Held::isStated)
                        .toList();

        assertThat(halfWidth(all, Measurand.TOP)).isLessThan(0.35);
        assertThat(halfWidth(all, Measurand.LOADED)).isLessThan(0.25);
        assertThat(halfWidth(all, Measurand.RISE)).isLessThan(0.025);
        assertThat(halfWidth(all, Measurand.INLET_RUNNING)).isLessThan(0.25);
        assertThat(halfWidth(all, Measurand.RATIO)).isLessThan(0.015);
    }

    private static double share(List<Held> stated) {
        return stated.stream().filter(Held::holds).count() / (double) stated.size();
    }

    private static double slack(double share, int starts) {
        return 3 * Math.sqrt(share * (1 - share) / starts);
    }

    private static double halfWidth(List<Held> all, Measurand measurand) {
        double[] widths =
                all.stream()
                        .filter(held -> held.measurand() == measurand)
                        .mapToDouble(held -> held.figure().uncertainty().orElseThrow())
                        .sorted()
                        .toArray();
        return Arrays.stream(widths).skip(widths.length / 2).findFirst().orElseThrow();
    }
}
