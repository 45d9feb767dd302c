/**
 * The transducers: pressure to loop current to counts, with lag, noise, the limits of the loop, and
 * a wire that can break.
 *
 * <p>Uses {@code leat.bench.line}. No clock, no thread; chance comes from the seed.
 */
package leat.bench.sensor;
