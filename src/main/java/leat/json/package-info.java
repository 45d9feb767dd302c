/**
 * Records as JSON. {@code RecordJson}, for the store: one set-up of the JSON library, whose form
 * follows from the declaration of a record. A field is called after its component in lower case
 * with underscores, a time ends in {@code _us}; of a sealed interface, {@code kind} says which
 * record it is. Nothing is lost: every bit of a number and every char of a text comes back.
 *
 * <p>Uses the rooms whose values have a form of their own (signal, measure, diagnose). Thread-safe.
 */
package leat.json;
