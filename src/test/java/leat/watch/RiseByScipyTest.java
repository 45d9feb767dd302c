package leat.watch;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.within;

import java.io.Writer;
import java.nio.charset.StandardCharsets;
import java.nio.file.Path;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.concurrent.TimeUnit;
import java.util.stream.Collectors;
import leat.Gear;
import leat.interop.Peer;
import leat.measure.ClimbRemark;
import leat.measure.Figure;
import leat.measure.Measurand;
import leat.measure.Startup;
import leat.signal.Channel;
import leat.signal.Reading;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.MethodSource;

/**
 * One start measured a second time, outside the project's code: by NumPy and SciPy, from the same
 * readings and by means of their own. The levels: means around the strongest fall of the pressure
 * and over whole periods of the strongest line of the periodogram ({@code scipy.signal}). The rise:
 * a smoothing spline through the readings ({@code scipy.interpolate}) whose 10 and 90 % instants
 * Brent's method finds ({@code scipy.optimize}).
 */
class RiseByScipyTest {

    private static final String MEASURE =
            """
            import sys
            import numpy as np
            from scipy.interpolate import UnivariateSpline
            from scipy.optimize import brentq
            from scipy.signal import periodogram

            start, end, noise = (float(a) for a in sys.argv[1:])
            t, psi = np.loadtxt(sys.stdin, delimiter=",", unpack=True)
            base = np.mean(psi[(t > start - 5) & (t < start)])
            half = t[(t > start) & (psi > (base + psi.max()) / 2)][0]

            def mean(a, b):
                return np.mean(psi[(t >= a) & (t < b)])

            edges = t[(t > half) & (t < end - 3)]
            falls = [mean(e - 0.5, e) - mean(e, e + 0.5) for e in edges]
            fall = edges[int(np.argmax(falls))]
            unloaded = mean(fall - 0.8, fall - 0.3)

            under = (t > end - 6) & (t <= end)
            rate = 1 / np.median(np.diff(t))
            hertz, power = periodogram(psi[under], rate, detrend="linear", nfft=1 << 14)
            stroke = 1 / hertz[np.argmax(power * (hertz > 0.3))]
            loaded = mean(end - stroke * np.floor(6 / stroke), end)

            near = (t > start - 0.5) & (t < fall - 0.3)
            spline = UnivariateSpline(t[near], psi[near], s=0.6 * near.sum() * noise**2)

            def instant(share):
                level = base + share * (unloaded - base)
                above = t[near][spline(t[near]) >= level][0]
                return brentq(lambda x: spline(x) - level, above - 0.2, above)

            print("base_psi", base)
            print("unloaded_psi", unloaded)
            print("loaded_psi", loaded)
            print("rise_s", instant(0.9) - instant(0.1))
            """;

    static List<Long> seeds() {
        return Gear.everyNth(3, List.of(15_838L, 39_595L, 47_514L));
    }

    @ParameterizedTest
    @MethodSource("seeds")
    void numpy_and_scipy_find_the_same_levels_and_the_same_rise(long seed) throws Exception {
        Path python = Peer.requirePython("scipy");
        DrawnStart drawn = DrawnStart.of(DrawnStart.Kind.HEALTHY, seed);
        Startup startup =
                CoverageTable.startup(drawn, CoverageTable.Sampling.AT_20_HZ).orElseThrow();

        Map<String, Double> found = measured(python, drawn, startup);

        assertThat(startup.remarks())
                .anyMatch(remark -> remark.kind() == ClimbRemark.Kind.TOP_UNLOADED);
        for (Measurand measurand :
                new Measurand[] {
                    Measurand.BASE, Measurand.UNLOADED, Measurand.LOADED, Measurand.RISE
                }) {
            Figure figure = startup.figure(measurand);
            assertThat(found.get(measurand.key()))
                    .as(measurand.key())
                    .isCloseTo(figure.get(), within(figure.uncertainty().orElseThrow()));
        }
    }

    private static Map<String, Double> measured(Path python, DrawnStart drawn, Startup startup)
            throws Exception {
        Process process =
                new ProcessBuilder(
                                python.toString(),
                                "-c",
                                MEASURE,
                                Double.toString(drawn.startSecond()),
                                Double.toString((startup.measuredAtMicros() - Line.START) / 1e6),
                                "0.3")
                        .redirectErrorStream(true)
                        .start();
        try (Writer readings = process.outputWriter(StandardCharsets.UTF_8)) {
            CoverageTable.inputs(drawn, CoverageTable.Sampling.AT_20_HZ).stream()
                    .filter(i -> i instanceof Reading r && r.channel() == Channel.BOOSTED)
                    .map(Reading.class::cast)
                    .forEach(reading -> write(readings, reading));
        }
        String printed =
                new String(process.getInputStream().readAllBytes(), StandardCharsets.UTF_8);
        assertThat(process.waitFor(60, TimeUnit.SECONDS)).isTrue();
        assertThat(process.exitValue()).as(printed).isZero();
        return printed.lines()
                .map(line -> line.split(" "))
                .collect(Collectors.toMap(part -> part[0], part -> Double.valueOf(part[1])));
    }

    private static void write(Writer readings, Reading reading) {
        try {
            readings.write(
                    String.format(
                            Locale.ROOT,
                            "%.6f,%.6f%n",
                            (reading.atMicros() - Line.START) / 1e6,
                            reading.value()));
        } catch (java.io.IOException e) {
            throw new java.io.UncheckedIOException(e);
        }
    }
}
