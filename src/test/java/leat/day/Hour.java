package leat.day;

import java.util.Optional;

/**
 * What is going on in some part of the day.
 *
 * @param route the route that is in trouble, or has still to catch up after it; empty for none
 * @param trouble what ails it, or last ailed it; empty while all are well
 */
record Hour(String route, Optional<Ailment> trouble) {

    /** All are well, and owe nothing from before. */
    static final Hour CALM = new Hour("", Optional.empty());

    /** Connections are made for the first time, and code runs for the first time. */
    static final Hour WARM_UP = new Hour("none yet", Optional.empty());

    static Hour of(String route, Ailment trouble) {
        return new Hour(route, Optional.of(trouble));
    }

    /** True when a route is well in it while another one is not. */
    boolean isTroubleOfOthers(String theRoute) {
        return trouble.isPresent() && !route.equals(theRoute);
    }
}
