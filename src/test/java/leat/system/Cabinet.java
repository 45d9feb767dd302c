package leat.system;

import java.io.IOException;
import java.time.Instant;
import java.util.List;
import leat.bench.line.LineState;
import leat.bench.panel.ModbusPanel;
import leat.bench.scenario.Sample;

/** The field device of jet-1, which shows what a test tells it to. */
final class Cabinet implements AutoCloseable {

    private static final double FULL_COUNTS_PER_MA = 4095 / 20.5;

    private final ModbusPanel panel;

    Cabinet() throws IOException {
        panel = new ModbusPanel("cabinet", 0, List.of("jet-1"));
        show(40, 102);
    }

    /** Shows pressures of a running booster. */
    void show(double inletPsi, double boostedPsi) {
        show(new LineState(inletPsi, boostedPsi, boostedPsi, true, true));
    }

    /** Shows a booster that stands still. */
    void rest(double inletPsi) {
        show(new LineState(inletPsi, 0, 0, false, false));
    }

    private void show(LineState truth) {
        Sample sample =
                new Sample(
                        0,
                        "jet-1",
                        truth,
                        counts(truth.inletPsi()),
                        counts(truth.boostedPsi()),
                        counts(truth.filteredPsi()));
        panel.show(Instant.EPOCH, List.of(sample));
    }

    private static int counts(double psi) {
        return (int) Math.round((4 + psi / 200 * 16) * FULL_COUNTS_PER_MA);
    }

    int port() {
        return panel.port();
    }

    @Override
    public void close() {
        panel.close();
    }
}
