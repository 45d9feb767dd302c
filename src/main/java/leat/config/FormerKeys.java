package leat.config;

import java.util.stream.Stream;

/** What {@code tell} replaces: the words in which it was said before who is told when. */
final class FormerKeys {

    static final Former ROUTES =
            new Former(
                    "routes",
                    "tell",
                    "tell: who, by what means, for what and when; see leat settings tell");

    private static final Former[] POLICY = {
        now("quiet_hours", "lets_sleep"),
        now("repeat_every", "reminds"),
        now("escalate_after", "after_nobody_answers"),
        now("at_most", "bundles_over"),
        now("all_is_well", "good_morning"),
        now("advisories", "small_matters"),
        now("give_up_after", "tries_for"),
        new Former("at_least", "", "about: { from: WARNING }, beside by"),
        new Former("machines", "", "about: { machines: [ jet-1 ] }, beside by")
    };

    /** Where the means stood beside what now stands beside {@code by}. */
    static final Former[] OF_A_ROUTE =
            Stream.concat(
                            Stream.of(POLICY),
                            Stream.of("log", "mqtt", "mail", "webhook", "command")
                                    .map(
                                            means ->
                                                    new Former(
                                                            means,
                                                            "by",
                                                            "by: { " + means + ": ... }")))
                    .toArray(Former[]::new);

    /** Every means had these among its own keys. */
    static final Former[] OF_ALL_MEANS = POLICY;

    private FormerKeys() {}

    private static Former now(String name, String now) {
        return new Former(name, now, now + ", beside by");
    }
}
