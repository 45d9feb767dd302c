/**
 * What is so now, for eyes: {@code Live} reads it from the store, which the daemon commits once a
 * second, and hands it out as facts. Words are made of them by whoever shows them.
 *
 * <p>May use {@code signal}, {@code phase}, {@code rule}, {@code alarm}, {@code diagnose}, {@code
 * watch}, {@code config} and {@code store}. {@code Live} is confined to the thread of its reader;
 * what it hands out is immutable.
 */
package leat.live;
