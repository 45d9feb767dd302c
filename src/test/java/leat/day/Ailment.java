package leat.day;

/** What can be wrong with the other side of a route. */
enum Ailment {
    /** Nobody listens, and whoever was connected is cut off. */
    KILLED,
    /** Takes messages and never says so; later takes only calls, and never answers. */
    HUNG,
    /** Answers just before the route gives up waiting. */
    SLOW,
    /** Not now: the way in, or the moment. */
    REFUSING,
    /** No room. */
    FULL,
    /** Never this message. */
    REFUSING_FOR_GOOD,
    /** Shows a certificate that has expired, and then one of another host. */
    CERTIFICATE;

    /** True when nothing can be delivered in it. */
    boolean isComplete() {
        return switch (this) {
            case KILLED, HUNG, REFUSING, FULL, CERTIFICATE -> true;
            case SLOW, REFUSING_FOR_GOOD -> false;
        };
    }
}
