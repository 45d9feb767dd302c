/**
 * Laws of water in pipes, each a small class checked against a published example: properties by
 * temperature, friction, inertia and wave speed of a pipe, openings, trapped air, affinity laws,
 * suction head. SI throughout: Pa, m3/s, kg/m3; gauge pressure unless a name says otherwise.
 *
 * <p>Uses {@code java.base} only. Immutable, no clock, no chance.
 */
package leat.bench.water;
