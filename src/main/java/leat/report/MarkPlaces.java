package leat.report;

import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;

/**
 * Where in a plot of pixels words can stand: near their point, over no curve, no other words and no
 * edge. Thread-confined.
 */
final class MarkPlaces {

    /** What a word's letter takes at most, on a phone; pixels of the plot. */
    static final double LETTER = 8.6;

    static final double LINE = 19;

    private static final double STEP = 4;

    /** A box with words. */
    record Box(double left, double top, double right, double bottom) {

        boolean holds(double x, double y) {
            return x > left && x < right && y > top && y < bottom;
        }

        boolean meets(Box other) {
            return left < other.right
                    && other.left < right
                    && top < other.bottom
                    && other.top < bottom;
        }
    }

    /** How far from their point words may stand, pixels of the plot. */
    private static final List<Double> AWAY = List.of(14.0, 24.0, 36.0, 52.0, 72.0, 96.0, 130.0);

    /** How far above or below it, for each pixel beside it. */
    private static final List<Double> UP = List.of(-2.0, -1.0, -0.5, 0.0, 0.5, 1.0, 2.0);

    private final Box frame;
    private final List<double[]> points = new ArrayList<>();
    private final List<Box> boxes = new ArrayList<>();

    MarkPlaces(Box frame) {
        this.frame = frame;
    }

    /** A line of a curve, which stays free. */
    void line(double x1, double y1, double x2, double y2) {
        int steps = 1 + (int) (Math.hypot(x2 - x1, y2 - y1) / STEP);
        for (int i = 0; i <= steps; i++) {
            double share = (double) i / steps;
            points.add(new double[] {x1 + share * (x2 - x1), y1 + share * (y2 - y1)});
        }
    }

    /** Words that stand already. */
    void words(Box box) {
        boxes.add(box);
    }

    /** The nearest free place for words of this size, which is taken then; empty where none is. */
    Optional<Box> take(double x, double y, double width, double height) {
        Optional<Box> place =
                around(x, y, width, height)
                        .filter(this::isFree)
                        .min(Comparator.comparingDouble(box -> distance(box, x, y)));
        place.ifPresent(boxes::add);
        return place;
    }

    private static Stream<Box> around(double x, double y, double width, double height) {
        return AWAY.stream()
                .flatMap(away -> UP.stream().map(up -> new double[] {away, y + up * away}))
                .flatMap(
                        place ->
                                Stream.of(
                                        at(x + place[0], place[1], width, height),
                                        at(x - place[0] - width, place[1], width, height)));
    }

    private static Box at(double left, double middle, double width, double height) {
        return new Box(left, middle - height / 2, left + width, middle + height / 2);
    }

    private static double distance(Box box, double x, double y) {
        double across = Math.max(0, Math.max(box.left() - x, x - box.right()));
        double down = Math.max(0, Math.max(box.top() - y, y - box.bottom()));
        return Math.hypot(across, down);
    }

    private boolean isFree(Box box) {
        return box.left() >= frame.left()
                && box.right() <= frame.right()
                && box.top() >= frame.top()
                && box.bottom() <= frame.bottom()
                && boxes.stream().noneMatch(box::meets)
                && points.stream().noneMatch(point -> box.holds(point[0], point[1]));
    }
}
