package leat.store;

import java.util.EnumMap;
import java.util.Map;
import leat.measure.Figure;
import leat.measure.Measurand;

/** The rows of {@code startup_figure}: the numbers of each startup, one row per measurand. */
final class StartupFigures {

    private static final String COLUMNS =
            "machine, seq, nth, measurand, value, uncertainty, absent";

    private static final String OF_ONE =
            "SELECT measurand, value, uncertainty, absent FROM startup_figure"
                    + " WHERE machine = ? AND seq = ? AND nth = ?";

    private StartupFigures() {}

    static void put(Db db, long machine, long seq, long nth, Map<Measurand, Figure> figures) {
        figures.forEach(
                (measurand, figure) ->
                        db.insert("startup_figure", COLUMNS)
                                .number(machine)
                                .number(seq)
                                .number(nth)
                                .text(measurand.key())
                                .figure(figure)
                                .now());
    }

    /** Those of the startup whose row begins with its machine, seq and nth. */
    static Map<Measurand, Figure> of(Db db, Row startup) {
        Map<Measurand, Figure> figures = new EnumMap<>(Measurand.class);
        db.list(
                        OF_ONE,
                        row -> Map.entry(measurand(row.text()), row.figure()),
                        startup.number(),
                        startup.number(),
                        startup.number())
                .forEach(entry -> figures.put(entry.getKey(), entry.getValue()));
        return figures;
    }

    static Measurand measurand(String key) {
        return Measurand.byKey(key)
                .orElseThrow(() -> new IllegalStateException("there is no measurand " + key));
    }
}
