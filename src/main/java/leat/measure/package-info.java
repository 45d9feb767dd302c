/**
 * The numbers of one episode: a startup, a steady spell, a rest spell.
 *
 * <p>Core room: uses {@code signal}, {@code phase} and {@code java.base}. Records are immutable,
 * meters are thread-confined to one watch.
 */
package leat.measure;
