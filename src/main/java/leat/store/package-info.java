/**
 * The store: one SQLite file with what each watch was fed and what it said, the messages owed, the
 * journal, the instructions that wait. The only room with SQL.
 *
 * <p>May use the core rooms and {@code config}. {@code Store} is the one writer of a running leat
 * and belongs to its engine thread; each {@code StoreReader} and {@code InstructionBox} belongs to
 * the thread that opened it, in the same program or in another.
 */
package leat.store;
