package leat.page;

import org.junit.jupiter.api.extension.BeforeAllCallback;
import org.junit.jupiter.api.extension.ExtensionContext;

/**
 * The runtime reads the bounds of its HTTP servers once, when the first is made. In a service that
 * is the page's; of the tests of one process any may come first, with a server of its own.
 */
public final class BoundsFirst implements BeforeAllCallback {

    @Override
    public void beforeAll(ExtensionContext context) {
        ServerBounds.declare();
    }
}
