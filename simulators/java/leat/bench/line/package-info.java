/**
 * The feed line of an invented waterjet: supply, shut-off valve, booster with its regulator,
 * filters, intensifier. The seam between model and panels is {@link leat.bench.line.FeedLine}.
 * {@link leat.bench.line.LumpedLine} is the model that conserves water: its parts are one class
 * each, {@code Plumbing} puts them together, {@code LineEquations} says how fast everything
 * changes, {@code Solver} solves it.
 *
 * <p>Uses {@code leat.bench.water} and, in the solver and its neighbours only, hipparchus-ode. No
 * clock, no thread: time is what {@code advance} is told, chance comes from the seed. Every figure
 * in here is invented unless its place names a source.
 */
package leat.bench.line;
