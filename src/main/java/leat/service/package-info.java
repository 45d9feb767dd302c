/**
 * The daemon: wires sources, watches, store and routes; start, stop, health. It alone knows the
 * time of day, and one engine thread feeds every watch and writes the store.
 *
 * <p>May use every room but {@code cli}.
 */
package leat.service;
