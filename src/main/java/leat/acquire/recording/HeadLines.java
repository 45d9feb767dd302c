package leat.acquire.recording;

import java.time.DateTimeException;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.List;
import java.util.Optional;

/** The comment lines at the head and the end of leat's own recordings. Thread-confined. */
final class HeadLines {

    /** The first line of every recording that leat wrote, before its version number. */
    static final String MARK = "# leat recording ";

    static final int VERSION = 1;

    private static final String LEAT = "leat: ";
    private static final String SITE = "site: ";
    private static final String MACHINE = "machine: ";
    private static final String ZONE = "time zone: ";
    private static final String HASH = "configuration: ";
    private static final String CONFIG = "site.yaml:";
    private static final String END = "end: ";

    private String version = "";
    private String site = "";
    private String machine = "";
    private String zone = "";
    private String hash = "";
    private final StringBuilder config = new StringBuilder();
    private boolean hasConfig;
    private long rowsSaid = -1;

    static List<String> written(RecordingHead head) {
        List<String> lines = new java.util.ArrayList<>();
        lines.add(MARK + VERSION);
        lines.add("# " + LEAT + Escape.text(head.version()));
        lines.add("# " + SITE + Escape.text(head.site()));
        lines.add("# " + MACHINE + Escape.text(head.machine()));
        lines.add("# " + ZONE + head.zone().getId());
        lines.add("# pressures: psi gauge; times: UTC; rows: in the order in which leat took them");
        lines.add("# " + HASH + head.configHash());
        for (String line : head.configText().split("\r\n|\r|\n", -1)) {
            lines.add("# " + CONFIG + " " + line);
        }
        return lines;
    }

    static String end(long rows) {
        return "# " + END + rows + " rows";
    }

    /**
     * Takes one comment line.
     *
     * @param comment without the leading {@code #}
     */
    void take(String comment) {
        String line = comment.startsWith(" ") ? comment.substring(1) : comment;
        if (line.startsWith(CONFIG)) {
            String text = line.substring(CONFIG.length());
            config.append(hasConfig ? "\n" : "");
            config.append(text.startsWith(" ") ? text.substring(1) : text);
            hasConfig = true;
        } else if (line.startsWith(LEAT)) {
            version = Escape.undo(line.substring(LEAT.length()));
        } else if (line.startsWith(SITE)) {
            site = Escape.undo(line.substring(SITE.length()));
        } else if (line.startsWith(MACHINE)) {
            machine = Escape.undo(line.substring(MACHINE.length()));
        } else if (line.startsWith(ZONE)) {
            zone = line.substring(ZONE.length()).strip();
        } else if (line.startsWith(HASH)) {
            hash = line.substring(HASH.length()).strip();
        } else if (line.matches(END + "[0-9]{1,18} rows\\s*")) {
            rowsSaid = Long.parseLong(line.replaceAll("\\D", ""));
        }
    }

    /** Empty where no machine is named: nothing of this was written by leat. */
    Optional<RecordingHead> head() {
        if (machine.isBlank()) {
            return Optional.empty();
        }
        return Optional.of(
                new RecordingHead(version, site, machine, zone(), hash, config.toString()));
    }

    private ZoneId zone() {
        try {
            return ZoneId.of(zone);
        } catch (DateTimeException e) {
            return ZoneOffset.UTC; // it only labels what people see
        }
    }

    /** Whether the last line says that so many rows were written. */
    boolean isComplete(long rows) {
        return rowsSaid == rows;
    }
}
