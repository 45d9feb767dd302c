package leat.system;

/** Limits as short as the settings allow, so that an alarm comes and goes within seconds. */
final class QuickSite {

    static final String LIMITS =
            """
            limits:
              ratio: { arm: 1 s, warning_delay: 1 s, critical_delay: 1 s, off_delay: 1 s }
              level: { arm: 1 s, delay: 1 s, high_delay: 1 s, off_delay: 1 s }
              rise: { advisory: 1 s, warning: 2 s, critical: 3 s, relaxed_critical: 5 s }
              rest: { arm: 1 s, delay: 1 s, off_delay: 1 s }
              inlet: { arm: 0 s, delay: 1 s, critical_delay: 0 s, off_delay: 1 s }
              signal: { missing: 2 s, stuck: 1 h, off_delay: 1 s }
            """;

    private QuickSite() {}
}
