package leat.bench.water;

/**
 * What a pump with the same impeller does at another speed: flow goes with the speed, pressure with
 * its square, power with its cube. Immutable.
 *
 * @param speed as a share of the speed that the figures are known for, 0 or more
 */
public record Affinity(double speed) {

    public Affinity {
        if (!(speed >= 0)) {
            throw new IllegalArgumentException("speed must be 0 or more: " + speed);
        }
    }

    public double flow(double known) {
        return known * speed;
    }

    public double pressure(double known) {
        return known * speed * speed;
    }

    public double power(double known) {
        return known * speed * speed * speed;
    }
}
