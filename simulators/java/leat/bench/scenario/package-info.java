/**
 * Scenarios: which machines there are, what happens to them and when; the loader of their files;
 * and the run that turns one into samples.
 *
 * <p>Uses {@code leat.bench.line}, {@code leat.bench.sensor}, a YAML parser. No clock, no thread.
 * Scenarios are immutable; a run is thread-confined.
 */
package leat.bench.scenario;
