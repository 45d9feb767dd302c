package leat.bench.recording;

import java.io.IOException;
import java.io.Writer;
import java.time.LocalDateTime;
import java.time.ZoneOffset;
import java.time.temporal.ChronoUnit;
import java.util.Locale;
import java.util.OptionalDouble;

/** Writes what was true of each start as CSV, one row a start. Thread-confined. */
final class TruthRows {

    private static final String HEADER =
            "start,time,ran_s,rise_10_90_s,rise_to_level_s,base_psi,top_psi,level_psi,inlet_rest_psi,inlet_psi,"
                    + "ratio,faults_at_start,faults_at_stop\n";

    private final Writer out;
    private final LocalDateTime zero;
    private long starts;

    TruthRows(Writer out, LocalDateTime zero, String comment) throws IOException {
        this.out = out;
        this.zero = zero;
        out.append("# ").append(comment).append('\n').append(HEADER);
    }

    void write(TrueStart start) throws IOException {
        starts++;
        out.append(Long.toString(starts)).append(',');
        out.append(zero.plus(start.micros(), ChronoUnit.MICROS).toInstant(ZoneOffset.UTC) + ",");
        out.append(number("%.2f", OptionalDouble.of(start.ranSeconds()))).append(',');
        out.append(number("%.4f", start.riseSeconds())).append(',');
        out.append(number("%.4f", start.riseToLevelSeconds())).append(',');
        out.append(number("%.3f", OptionalDouble.of(start.basePsi()))).append(',');
        out.append(number("%.3f", OptionalDouble.of(start.topPsi()))).append(',');
        out.append(number("%.2f", start.levelPsi())).append(',');
        out.append(number("%.3f", OptionalDouble.of(start.inletRestPsi()))).append(',');
        out.append(number("%.2f", start.inletPsi())).append(',');
        out.append(number("%.3f", start.ratio())).append(',');
        out.append(String.join("; ", start.defectsAtStart())).append(',');
        out.append(String.join("; ", start.defectsAtStop())).append('\n');
    }

    private static String number(String form, OptionalDouble value) {
        return value.isPresent() ? String.format(Locale.ROOT, form, value.getAsDouble()) : "";
    }

    /** Starts so far. */
    long starts() {
        return starts;
    }
}
