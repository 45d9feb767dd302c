/**
 * The transducers: pressure to loop current to counts, with lag, noise, the limits of the loop, and
 * what can be wrong with them: offset, span, stuck, open and shorted loops.
 *
 * <p>Uses {@code leat.bench.line}. No clock, no thread; chance comes from the seed.
 */
package leat.bench.sensor;
