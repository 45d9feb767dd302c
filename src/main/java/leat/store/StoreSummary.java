package leat.store;

/**
 * What a store holds.
 *
 * @param samples readings kept at present
 * @param startups startups measured
 * @param alarms alarms raised, ever
 * @param standingAlarms alarms that are not back to normal
 * @param dueMessages messages that wait for delivery
 * @param bytes database file and write-ahead log together
 */
public record StoreSummary(
        long samples,
        long startups,
        long alarms,
        long standingAlarms,
        long dueMessages,
        long bytes) {}
