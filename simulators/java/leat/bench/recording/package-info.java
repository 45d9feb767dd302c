/**
 * Recordings: plays one machine of a scenario as fast as the computer goes and writes what its
 * transducers say as a CSV file, with what was true beside it for measuring a watcher.
 *
 * <p>Uses {@code leat.bench.scenario}, {@code leat.bench.sensor}, {@code leat.bench.line}. Memory
 * is flat whatever the length. The same plan gives the same bytes. Thread-confined.
 */
package leat.bench.recording;
