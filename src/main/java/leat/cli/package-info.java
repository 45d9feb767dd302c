/**
 * The commands, and {@code Main}. Each command parses its words, calls the rooms, prints, and gives
 * an exit code: 0 done, 1 it did not work, 2 the words or the configuration are wrong, or what they
 * ask for is not there.
 *
 * <p>May use every room, and starts the bench.
 */
package leat.cli;
