package leat.bench.scenario;

import static java.util.Objects.requireNonNull;

/**
 * What a scenario is good for, in plain words. What the gauges show is common practice, no source.
 *
 * @param shows what the fault does to the two pressures; empty where there is no fault
 * @param apart how to tell it from its neighbours; empty where there is no fault
 * @param expect what a watcher should say
 */
public record Guide(String shows, String apart, String expect) {

    public Guide {
        requireNonNull(shows, "shows");
        requireNonNull(apart, "apart");
        requireNonNull(expect, "expect");
    }
}
