package traytender.config.folder;

import java.io.IOException;
import java.io.InputStream;
import java.nio.ByteBuffer;
import java.nio.CharBuffer;
import java.nio.charset.CharsetDecoder;
import java.nio.charset.CoderResult;
import java.nio.charset.CodingErrorAction;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.NoSuchFileException;
import java.nio.file.Path;
import org.jspecify.annotations.Nullable;
import org.snakeyaml.engine.v2.api.LoadSettings;
import org.snakeyaml.engine.v2.api.lowlevel.Compose;
import org.snakeyaml.engine.v2.exceptions.Mark;
import org.snakeyaml.engine.v2.exceptions.MarkedYamlEngineException;
import org.snakeyaml.engine.v2.exceptions.ReaderException;
import org.snakeyaml.engine.v2.exceptions.YamlEngineException;
import org.snakeyaml.engine.v2.nodes.Node;
import org.snakeyaml.engine.v2.schema.CoreSchema;

/**
 * A file of the site folder as YAML nodes with their places: YAML 1.2, core schema, one document, UTF-8. What cannot be parsed
 * is one error, at its place.
 */
final class YamlFile {
    /** A site of 500 trays with nine probes each is about 1 MB. */
    static final int MOST_BYTES = 16 * 1024 * 1024;

    private YamlFile() {}

    /** The file's root node; null, and an error noted, when there is none. */
    static @Nullable Node read(Path file, String name, Problems problems) {
        try {
            if (Files.isDirectory(file)) {
                problems.add(name, 1, 1, "is a folder", "give a file of that name");
                return null;
            }
            try (InputStream in = Files.newInputStream(file)) {
                return read(in, name, problems);
            }
        } catch (NoSuchFileException missing) {
            problems.add(
                    name,
                    1,
                    1,
                    "there is no such file",
                    "write one: \"traytender new DIR\" makes a folder to begin with");
        } catch (IOException broken) {
            problems.add(name, 1, 1, "cannot be read: " + broken.getMessage(), "make it readable");
        }
        return null;
    }

    /**
     * The root node of a stream.
     *
     * @throws IOException when the stream breaks
     */
    static @Nullable Node read(InputStream in, String name, Problems problems) throws IOException {
        byte[] bytes = in.readNBytes(MOST_BYTES + 1);
        if (bytes.length > MOST_BYTES) {
            problems.add(name, 1, 1, "is larger than " + MOST_BYTES / 1024 / 1024 + " MB", "keep readings out of it");
            return null;
        }
        String text = decode(bytes, name, problems);
        return text == null ? null : compose(text, name, problems);
    }

    /** The root node of a text. */
    static @Nullable Node read(String text, String name, Problems problems) {
        return compose(text.startsWith("\uFEFF") ? text.substring(1) : text, name, problems);
    }

    private static @Nullable String decode(byte[] bytes, String name, Problems problems) {
        CharsetDecoder decoder = StandardCharsets.UTF_8
                .newDecoder()
                .onMalformedInput(CodingErrorAction.REPORT)
                .onUnmappableCharacter(CodingErrorAction.REPORT);
        ByteBuffer in = ByteBuffer.wrap(bytes);
        CharBuffer out = CharBuffer.allocate(bytes.length + 1);
        CoderResult result = decoder.decode(in, out, true);
        out.flip();
        String text = out.toString();
        if (result.isError()) {
            int lastBreak = text.lastIndexOf('\n');
            int line = (int) text.chars().filter(character -> character == '\n').count() + 1;
            int column = text.codePointCount(lastBreak + 1, text.length()) + 1;
            problems.add(name, line, column, "is not UTF-8 from here on", "save the file as UTF-8");
            return null;
        }
        return text.startsWith("\uFEFF") ? text.substring(1) : text;
    }

    private static @Nullable Node compose(String text, String name, Problems problems) {
        LoadSettings settings = LoadSettings.builder()
                .setLabel(name)
                .setSchema(new CoreSchema())
                .setCodePointLimit(MOST_BYTES)
                // The whole text at once: on some spoilt texts the library reads beyond a buffer that it has to fill
                // again.
                .setBufferSize(text.length() + 1)
                // Counted by what they unfold to instead: 500 trays of one size are no bomb.
                .setMaxAliasesForCollections(Integer.MAX_VALUE)
                .build();
        try {
            Node root = new Compose(settings).composeString(text).orElse(null);
            if (root == null) {
                problems.add(name, 1, 1, "is empty", "give at least what the README's table marks as needed");
            } else if (Aliases.tooMany(root)) {
                problems.add(name, root, "its aliases unfold to more than the file can mean", "write the values out");
                return null;
            }
            return root;
        } catch (MarkedYamlEngineException wrong) {
            Mark mark = wrong.getProblemMark().or(wrong::getContextMark).orElse(null);
            String said = wrong.getContext() == null ? "" : wrong.getContext() + ", ";
            String problem = "is no YAML here: " + said + wrong.getProblem();
            addSyntax(problems, name, mark, problem, rightOf(problem));
        } catch (ReaderException wrong) {
            place(problems, name, text, wrong);
        } catch (YamlEngineException wrong) {
            problems.add(name, 1, 1, "is no YAML: " + oneLine(String.valueOf(wrong.getMessage())), "YAML 1.2 is right");
        } catch (StackOverflowError deep) {
            problems.add(name, 1, 1, "is nested too deeply to be a site", "write it as the README shows");
        }
        return null;
    }

    private static void addSyntax(Problems problems, String name, @Nullable Mark mark, String wrong, String right) {
        if (mark == null) {
            problems.add(name, 1, 1, oneLine(wrong), right);
        } else {
            problems.add(name, mark, oneLine(wrong), right);
        }
    }

    private static void place(Problems problems, String name, String text, ReaderException wrong) {
        int end = text.offsetByCodePoints(0, Math.min(wrong.getPosition(), text.codePointCount(0, text.length())));
        String before = text.substring(0, end);
        int line = (int) before.chars().filter(character -> character == '\n').count() + 1;
        int column = before.codePointCount(before.lastIndexOf('\n') + 1, before.length()) + 1;
        problems.add(
                name,
                line,
                column,
                String.format("holds the character U+%04X, which YAML does not allow", wrong.getCodePoint()),
                "leave it out");
    }

    private static String rightOf(String problem) {
        if (problem.contains("TAB") || problem.contains("\\t")) {
            return "indent with blanks, not with tabs";
        }
        if (problem.contains("mapping values are not allowed")) {
            return "put a text that holds a colon in quotes";
        }
        return "check indentation, quotes and brackets around this place";
    }

    private static String oneLine(String text) {
        return text.replaceAll("\\s*\\R\\s*", " ").strip();
    }
}
