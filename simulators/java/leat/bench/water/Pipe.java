package leat.bench.water;

/**
 * A round pipe or hose full of water. Immutable.
 *
 * @param length m
 * @param bore m
 * @param wall thickness of the wall, m
 * @param roughness height of the roughness, m
 * @param elasticity Young's modulus of the wall, Pa; infinite for a rigid pipe
 */
public record Pipe(double length, double bore, double wall, double roughness, double elasticity) {

    /** Bulk modulus of water, Pa; sources give 2.07 to 2.19 GPa, which moves a wave by 3 %. */
    public static final double WATER_MODULUS = 2.19e9;

    public Pipe {
        if (!(length > 0 && bore > 0 && wall > 0 && roughness >= 0 && elasticity > 0)) {
            throw new IllegalArgumentException("a pipe has length, bore, wall and elasticity");
        }
    }

    /** Cross-section of the water, m2. */
    public double area() {
        return Math.PI / 4 * bore * bore;
    }

    /** Darcy-Weisbach: pressure lost, Pa, at a flow above 0 in m3/s. */
    public double loss(double flow, Water water) {
        double velocity = flow / area();
        double reynolds = water.density() * velocity * bore / water.viscosity();
        double dynamic = water.density() * velocity * velocity / 2;
        return Friction.factor(reynolds, roughness / bore) * length / bore * dynamic;
    }

    /** Pressure that it takes to change the flow by 1 m3/s in 1 s, Pa s2/m3. */
    public double inertance(Water water) {
        return water.density() * length / area();
    }

    /** Korteweg: speed of a pressure wave, m/s, slowed by a wall that gives way. */
    public double waveSpeed(Water water) {
        double yielding = WATER_MODULUS * bore / (elasticity * wall);
        return Math.sqrt(WATER_MODULUS / water.density() / (1 + yielding));
    }

    /** Water that it takes up for each Pa, m3/Pa: compression of the water and give of the wall. */
    public double compliance(Water water) {
        double speed = waveSpeed(water);
        return area() * length / (water.density() * speed * speed);
    }

    /**
     * Joukowsky: most that the pressure rises, Pa, where a flow stops at once; at once is within
     * two travels of a wave through the pipe.
     */
    public double surge(double flow, Water water) {
        return water.density() * waveSpeed(water) * flow / area();
    }
}
