package leat.cli;

import java.util.List;
import leat.alarm.AlarmHealth;
import leat.cli.HealthSheet.Verdict;
import leat.report.Shown;

/**
 * One performance figure of the alarms.
 *
 * @param name as in JSON
 * @param title for people
 * @param here what it is here
 * @param shown with its unit
 * @param acceptable up to here it is very likely acceptable
 * @param most up to here it can be managed
 * @param target in words; a dash where there is none
 * @param source of the target
 */
record HealthLine(
        String name,
        String title,
        double here,
        String shown,
        double acceptable,
        double most,
        String target,
        String source) {

    static final String STANDARD = "ANSI/ISA-18.2-2016, 16.4";
    private static final double SLACK = 1e-9;

    Verdict verdict() {
        if (here <= acceptable + SLACK) {
            return Verdict.GOOD;
        }
        return here <= most + SLACK ? Verdict.BEARABLE : Verdict.TOO_MANY;
    }

    /**
     * Every figure, in the order of the list.
     *
     * @param shown the language
     */
    static List<HealthLine> all(AlarmHealth h, Shown shown) {
        In in = new In(shown);
        return List.of(
                in.count("alarms_per_day", h.callsPerDay(), 144, 288),
                in.count("alarms_per_10_min", h.callsPer10Min(), 1, 2),
                in.count("most_in_10_min", h.mostIn10Min(), 10, 10),
                in.share("periods_above_10", h.crowded10Min(), 0.01),
                in.share("hours_above_30", h.crowdedHours(), 0.01),
                in.line("floods", h.floods(), 0, Double.POSITIVE_INFINITY, "-", ""),
                in.share("time_in_flood", h.floodShare(), 0.01),
                in.count("chattering", h.chattering(), 0, 0),
                in.line("stale", h.stale(), 4, 4, shown.say("cli.health.under", "5"), STANDARD),
                in.line(
                        "held",
                        h.held(),
                        29,
                        29,
                        shown.say("cli.health.under-shelved", "30"),
                        "EEMUA 191"));
    }

    /** Figures in one language. */
    private record In(Shown shown) {

        HealthLine count(String name, double here, double good, double most) {
            String target =
                    most > good
                            ? shown.say(
                                    "cli.health.at-most", plain(good, shown), plain(most, shown))
                            : plain(good, shown);
            return line(name, here, good, most, target, STANDARD);
        }

        HealthLine line(
                String name, double here, double good, double most, String target, String source) {
            return new HealthLine(
                    name, title(name), here, plain(here, shown), good, most, target, source);
        }

        HealthLine share(String name, double here, double most) {
            String target = shown.say("cli.health.under", percent(most, shown));
            return new HealthLine(
                    name, title(name), here, percent(here, shown), most, most, target, STANDARD);
        }

        private String title(String name) {
            return shown.say("cli.health." + name.replace('_', '-'));
        }
    }

    private static String plain(double value, Shown shown) {
        return value == Math.rint(value) ? Long.toString((long) value) : shown.two(value);
    }

    static String percent(double share, Shown shown) {
        return plain(100 * share, shown) + " %";
    }
}
