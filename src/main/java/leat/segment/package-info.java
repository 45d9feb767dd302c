/**
 * Some minutes of a machine's inputs as one block of bytes, and back, without the loss of a bit.
 * {@code src/docs/segment.md} has the format, so that anybody can read it. A new segment is made by
 * {@link leat.segment.Segments#write}.
 *
 * <p>Uses signal and json. Knows no file, no thread and no clock. Thread-safe where not said
 * otherwise.
 */
package leat.segment;
