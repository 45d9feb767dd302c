/**
 * Recordings: the inputs of one machine as a CSV file. leat's own form keeps every input exactly
 * and in its order, with the configuration that it was judged under; CSV files of other loggers are
 * read as readings, with a tick at every whole second.
 *
 * <p>May use {@code signal} and {@code config}. Types of the CSV library stop here. A recording is
 * read and written as a stream, in flat memory. Readers and writers are thread-confined.
 */
package leat.acquire.recording;
