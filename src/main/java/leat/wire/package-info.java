/**
 * One form per record: how what leat knows is written down and taken up again. A class with state
 * says once, in one method {@code keep(State)}, which fields it keeps; a record needs not even
 * that, its components are its form. Uses nothing but the JDK; used by every core room.
 * Thread-confined.
 */
package leat.wire;
