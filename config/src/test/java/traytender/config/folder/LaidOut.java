package traytender.config.folder;

import java.util.List;
import java.util.Map;
import java.util.Random;

/** Values written as YAML in a layout drawn at random: blocks and brackets, quotes, comments, empty lines, wide and narrow indents. */
final class LaidOut {
    private final Random random;
    private final String newline;
    private final StringBuilder out = new StringBuilder();
    private int comments;

    private LaidOut(Random random) {
        this.random = random;
        this.newline = random.nextInt(4) == 0 ? "\r\n" : "\n";
    }

    static String of(Map<String, ?> root, Random random) {
        var laidOut = new LaidOut(random);
        laidOut.map(root, 0, false);
        String text = laidOut.out.toString();
        return random.nextInt(4) == 0 ? text.stripTrailing() : text;
    }

    private void map(Map<?, ?> map, int indent, boolean isBehindDash) {
        boolean isFirst = isBehindDash;
        for (var pair : map.entrySet()) {
            if (!isFirst) {
                between(indent);
                out.append(" ".repeat(indent));
            }
            isFirst = false;
            out.append(scalar(pair.getKey())).append(':');
            value(pair.getValue(), indent);
        }
    }

    private void value(Object value, int indent) {
        boolean isFlow = random.nextInt(3) == 0;
        if (value instanceof Map<?, ?> map && !map.isEmpty() && !isFlow) {
            lineEnd();
            map(map, indent + 1 + random.nextInt(4), false);
        } else if (value instanceof List<?> list && !list.isEmpty() && !isFlow) {
            lineEnd();
            int deeper = indent + (indent > 0 ? 1 : 0) + random.nextInt(3);
            for (Object item : list) {
                between(deeper);
                out.append(" ".repeat(deeper)).append('-');
                if (item instanceof Map<?, ?> map && !map.isEmpty()) {
                    int gap = 1 + random.nextInt(2);
                    out.append(" ".repeat(gap));
                    map(map, deeper + 1 + gap, true);
                } else {
                    out.append(' ').append(flow(item));
                    lineEnd();
                }
            }
        } else {
            out.append(' ').append(flow(value));
            lineEnd();
        }
    }

    private String flow(Object value) {
        String gap = random.nextBoolean() ? " " : "";
        if (value instanceof Map<?, ?> map) {
            return "{" + gap
                    + String.join(
                            ", ",
                            map.entrySet().stream()
                                    .map(pair -> scalar(pair.getKey()) + ": " + flow(pair.getValue()))
                                    .toList())
                    + gap + "}";
        }
        if (value instanceof List<?> list) {
            return "[" + gap
                    + String.join("," + gap, list.stream().map(this::flow).toList()) + gap + "]";
        }
        return scalar(value);
    }

    private String scalar(Object value) {
        if (!(value instanceof String text)) {
            return value.toString();
        }
        boolean isWord = text.matches("[a-z][a-z0-9-]*") && !text.equals("true");
        return switch (isWord ? random.nextInt(3) : 1 + random.nextInt(2)) {
            case 0 -> text;
            case 1 -> "\"" + text.replace("\\", "\\\\").replace("\"", "\\\"") + "\"";
            default -> "'" + text.replace("'", "''") + "'";
        };
    }

    private void lineEnd() {
        if (random.nextInt(3) == 0) {
            out.append("  # note ").append(++comments).append(random.nextBoolean() ? " 🌱 é: [" : "");
        }
        out.append(newline);
    }

    private void between(int indent) {
        switch (random.nextInt(6)) {
            case 0 -> out.append(newline);
            case 1 ->
                out.append(" ".repeat(indent))
                        .append("# above ")
                        .append(++comments)
                        .append(newline);
            default -> {}
        }
    }
}
