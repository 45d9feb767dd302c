package leat.interop;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.file.Path;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.opentest4j.AssertionFailedError;
import org.opentest4j.TestAbortedException;

class PeerTest {

    @Test
    void a_program_that_is_there_is_found() {
        Path shell = Peer.require("sh");

        assertThat(shell).isExecutable();
    }

    @Test
    void a_missing_program_is_not_found() {
        assertThat(Peer.find("no-such-program-anywhere")).isEmpty();
        assertThat(Peer.findPython("no_such_module_anywhere")).isEmpty();
    }

    @Test
    void a_missing_peer_skips_the_test() {
        assertThatThrownBy(() -> Peer.orSkip(Optional.empty(), "program x", false))
                .isInstanceOf(TestAbortedException.class)
                .hasMessageContaining("program x is missing");
    }

    @Test
    void a_missing_peer_fails_the_test_where_peers_are_required() {
        assertThatThrownBy(() -> Peer.orSkip(Optional.empty(), "program x", true))
                .isInstanceOf(AssertionFailedError.class)
                .hasMessageContaining("LEAT_INTEROP_REQUIRED");
    }
}
