package leat.config;

import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.util.Iterator;
import java.util.List;
import java.util.Optional;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Compose;
import org.snakeyaml.engine.v2.api.lowlevel.Parse;
import org.snakeyaml.engine.v2.events.Event;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.ReaderException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;
import org.snakeyaml.engine.v2.nodes.Node;

/**
 * From bytes to text to YAML nodes. Whatever the bytes are, the answer is nodes or reported
 * problems; types of the YAML library's exceptions stop here, and so do its messages that quote the
 * text, since that may hold a secret.
 */
final class YamlText {

    /** The format needs 7; more is a mistake, and very many would overflow the stack. */
    private static final int DEEPEST = 40;

    private static final char BYTE_ORDER_MARK = '\uFEFF';

    /** Messages with these words quote the text that follows such a sign. */
    private static final List<String> SIGNS =
            List.of("alias", "anchor", "tag", "directive", "character", "handle");

    private YamlText() {}

    /** UTF-8 only; reports the first byte that is not. */
    static Optional<String> decode(byte[] bytes, Problems problems) {
        CharsetDecoder decoder =
                StandardCharsets.UTF_8
                        .newDecoder()
                        .onMalformedInput(CodingErrorAction.REPORT)
                        .onUnmappableCharacter(CodingErrorAction.REPORT);
        CharBuffer text = CharBuffer.allocate(bytes.length + 1);
        CoderResult result = decoder.decode(ByteBuffer.wrap(bytes), text, true);
        text.flip();
        if (result.isError()) {
            problems.wrong(
                    end(text),
                    "",
                    "this is not UTF-8 text",
                    "save the file as UTF-8 in the editor");
            return Optional.empty();
        }
        String decoded = text.toString();
        boolean marked = !decoded.isEmpty() && decoded.charAt(0) == BYTE_ORDER_MARK;
        return Optional.of(marked ? decoded.substring(1) : decoded);
    }

    private static Spot end(CharSequence text) {
        int line = 1;
        int column = 1;
        for (int i = 0; i < text.length(); i++) {
            column = text.charAt(i) == '\n' ? 1 : column + 1;
            line += text.charAt(i) == '\n' ? 1 : 0;
        }
        return new Spot(line, column);
    }

    /** The one document of the text; reports what is not YAML, and a text that holds nothing. */
    static Optional<Cursor> parse(String text, Problems problems) {
        LoadSettings settings =
                LoadSettings.builder().setUseMarks(true).setParseComments(false).build();
        try {
            if (tooDeep(text, settings, problems)) {
                return Optional.empty();
            }
            Optional<Node> node = new Compose(settings).composeString(text);
            if (node.isEmpty()) {
                problems.wrong(Spot.START, "", "the file is empty", needed());
                return Optional.empty();
            }
            Cursor root = Cursor.root(node.get(), problems);
            if (root.isNothing()) {
                problems.wrong(Spot.START, "", "the file is empty", needed());
                return Optional.empty();
            }
            return Optional.of(root);
        } catch (MarkedYamlEngineException e) {
            malformed(text, e, problems);
        } catch (ReaderException e) {
            Spot spot = end(text.substring(0, text.offsetByCodePoints(0, position(text, e))));
            problems.wrong(
                    spot,
                    "",
                    String.format("the character U+%04X cannot stand in YAML", e.getCodePoint()),
                    "delete it");
        } catch (YamlEngineException e) {
            problems.wrong(Spot.START, "", "this is not YAML that leat can read", needed());
        }
        return Optional.empty();
    }

    private static String needed() {
        return "keys: " + String.join(", ", SiteReader.BLOCK.names());
    }

    private static int position(String text, ReaderException e) {
        return Math.max(0, Math.min(e.getPosition(), text.codePointCount(0, text.length())));
    }

    private static boolean tooDeep(String text, LoadSettings settings, Problems problems) {
        Iterator<Event> events = new Parse(settings).parseString(text).iterator();
        int depth = 0;
        while (events.hasNext()) {
            Event event = events.next();
            depth += depth(event.getEventId());
            if (depth > DEEPEST) {
                problems.wrong(
                        Spot.of(event.getStartMark()), "", "brackets or indents nest too deep", "");
                return true;
            }
        }
        return false;
    }

    private static int depth(Event.ID kind) {
        return switch (kind) {
            case MappingStart, SequenceStart -> 1;
            case MappingEnd, SequenceEnd -> -1;
            case Alias, Comment, DocumentEnd, DocumentStart, Scalar, StreamEnd, StreamStart -> 0;
        };
    }

    private static void malformed(String text, MarkedYamlEngineException e, Problems problems) {
        Spot spot = Spot.of(e.getProblemMark().or(e::getContextMark));
        int tabs = tabs(text, problems);
        String problem = String.valueOf(e.getProblem());
        if (tabs > 0 && problem.contains("TAB")) {
            return;
        }
        if (SIGNS.stream().anyMatch(problem::contains)) {
            problems.wrong(
                    spot,
                    "",
                    "a sign stands here that means something else to YAML",
                    "put text that starts with & * ! | > % @ ` in quotes");
            return;
        }
        problems.wrong(
                spot,
                "",
                "this is not YAML: " + problem,
                "look for a missing colon, quote, bracket or indent here or on the line before");
    }

    /** Reports every line that is indented with a tab, for there are rarely only one. */
    private static int tabs(String text, Problems problems) {
        int line = 0;
        int found = 0;
        for (String each : text.lines().toList()) {
            line++;
            String indent = each.substring(0, each.length() - each.stripLeading().length());
            int tab = indent.indexOf('\t');
            if (tab >= 0) {
                found++;
                problems.wrong(
                        new Spot(line, tab + 1), "", "a tab stands here", "indent with spaces");
            }
        }
        return found;
    }
}
