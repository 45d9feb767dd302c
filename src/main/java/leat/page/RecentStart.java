package leat.page;

import leat.live.StartCurve;
import leat.store.StoredStartup;

/**
 * A start that was measured.
 *
 * @param stored its number, time and verdict
 * @param curve its first seconds; without points where the readings are no longer kept
 */
record RecentStart(StoredStartup stored, StartCurve curve) {}
