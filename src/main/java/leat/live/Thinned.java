package leat.live;

import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.stream.Stream;
import leat.live.StartCurve.Point;
import leat.signal.Channel;
import leat.signal.Input;
import leat.signal.Reading;

/** The readings of one pressure in a window of time, thinned. Thread-confined. */
final class Thinned {

    /** The lowest and the highest reading of a piece of time. */
    private record Piece(long number, Point low, Point high) {

        Piece with(Point point) {
            return new Piece(
                    number,
                    point.psi() < low.psi() ? point : low,
                    point.psi() > high.psi() ? point : high);
        }

        Stream<Point> points() {
            Stream<Point> both =
                    low.atMicros() <= high.atMicros() ? Stream.of(low, high) : Stream.of(high, low);
            return both.distinct();
        }
    }

    private final Channel channel;
    private final long fromMicros;
    private final long toMicros;
    private final long pieceMicros;
    private final List<Point> points = new ArrayList<>();
    private Optional<Piece> open = Optional.empty();

    /**
     * @param fromMicros first instant of the window, microseconds UTC
     * @param toMicros last instant of the window
     * @param pieceMicros how long a piece of time is
     */
    Thinned(Channel channel, long fromMicros, long toMicros, long pieceMicros) {
        this.channel = channel;
        this.fromMicros = fromMicros;
        this.toMicros = toMicros;
        this.pieceMicros = pieceMicros;
    }

    /** Takes the next input; what is no usable reading of the pressure in the window goes by. */
    void add(Input input) {
        if (input instanceof Reading reading
                && reading.channel() == channel
                && reading.quality().isUsable()
                && reading.atMicros() >= fromMicros
                && reading.atMicros() <= toMicros) {
            add(new Point(reading.atMicros(), reading.value()));
        }
    }

    private void add(Point point) {
        long number = (point.atMicros() - fromMicros) / pieceMicros;
        if (open.filter(piece -> piece.number() == number).isEmpty()) {
            open.ifPresent(piece -> piece.points().forEach(points::add));
            open = Optional.of(new Piece(number, point, point));
        } else {
            open = open.map(piece -> piece.with(point));
        }
    }

    /** So far, in the order of time. */
    List<Point> points() {
        return Stream.concat(points.stream(), open.stream().flatMap(Piece::points)).toList();
    }
}
