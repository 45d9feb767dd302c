package leat.day;

import java.io.IOException;
import java.util.List;

/** The other side of one route, whose condition the test chooses. */
interface Part extends AutoCloseable {

    /** The route's name in the configuration. */
    String route();

    /** What stands under the route's name in {@code site.yaml}. */
    String yaml();

    /** What it can suffer from. */
    List<Spell> spells();

    /** It is well and begins to suffer. */
    void begin(Ailment trouble) throws Exception;

    /** Half of the time is over: the trouble shows another face, where it has one. */
    void turn(Ailment trouble) throws Exception;

    /** It is well again. */
    void end(Ailment trouble) throws Exception;

    @Override
    void close() throws IOException;
}
