package leat.page;

import java.util.List;
import java.util.Map;
import java.util.TreeMap;

/**
 * Where the card of a machine stands, whatever is known of it.
 *
 * @param place in the order of the site, from 1
 * @param machine its name
 */
record Frame(int place, String machine) {

    static final String PHASE = "phase";
    static final String ALARMS = "alarms";
    static final String GAUGES = "gauges";
    static final String STARTS = "starts";

    private static final List<String> PARTS = List.of(PHASE, ALARMS, GAUGES, STARTS);

    /** Of a part of it. */
    String id(String part) {
        return id() + "-" + part;
    }

    private String id() {
        return "m" + place;
    }

    /** The whole card, with its parts in their places. */
    String whole(Map<String, String> parts) {
        Element out = new Element();
        out.open("section class=\"card\" aria-labelledby=\"" + id() + "\"");
        out.text("h2 id=\"" + id() + "\"", machine);
        for (String part : PARTS) {
            out.open("div id=\"" + id(part) + "\" class=\"" + part + "\"");
            out.html(parts.get(id(part))).close("div");
        }
        return out.close("section").done();
    }

    /** What stands in it while nothing can be read: no old figure stays. */
    Map<String, String> blank(String words) {
        Map<String, String> parts = new TreeMap<>();
        PARTS.forEach(part -> parts.put(id(part), ""));
        parts.put(id(PHASE), new Element().text("p class=\"note\"", words).done());
        return parts;
    }
}
