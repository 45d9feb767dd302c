/**
 * The feed line of an invented waterjet: supply, shut-off valve, booster with its regulator,
 * filters, intensifier. The seam between model and panels is {@link leat.bench.line.FeedLine}; a
 * better model replaces {@link leat.bench.line.FirstOrderLine} behind it.
 *
 * <p>Uses {@code java.base} only. No clock, no thread: time is what {@code advance} is told, chance
 * comes from the seed. Every figure in here is invented unless its place names a source.
 */
package leat.bench.line;
