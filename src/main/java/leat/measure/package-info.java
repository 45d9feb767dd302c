/**
 * The numbers of one episode: a startup, a steady spell, a rest spell.
 *
 * <p>Core room: uses {@code signal}, {@code phase}, {@code java.base} and, for the fits of a rise,
 * Hipparchus. Records are immutable, meters are thread-confined to one watch.
 */
package leat.measure;
