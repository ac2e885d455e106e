package traytender.bench;

import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;

/** Writes the table: {@code summary.md} to read and {@code summary.json} to compare. */
final class Summary {
    private Summary() {}

    static void write(Path folder, List<Result> results) throws IOException {
        Files.createDirectories(folder);
        Files.writeString(folder.resolve("summary.md"), table(results));
        List<Map<String, Object>> rows = results.stream().map(Summary::row).toList();
        new ObjectMapper()
                .writerWithDefaultPrettyPrinter()
                .writeValue(folder.resolve("summary.json").toFile(), rows);
    }

    static String table(List<Result> results) {
        var text = new StringBuilder("""
                # What it costs

                Each value beside its limit, measured in the same run on %d processors, Java %s, %s.

                | work | value | limit | ratio | goal | met |
                | --- | ---: | ---: | ---: | --- | --- |
                """.formatted(
                        Runtime.getRuntime().availableProcessors(),
                        System.getProperty("java.version"),
                        System.getProperty("os.arch")));
        for (Result result : results) {
            text.append("| %s | %s %s | %s | %s | %s | %s |%n"
                    .formatted(
                            result.work(),
                            Result.number(result.value()),
                            result.unit(),
                            Result.number(result.limit()),
                            Result.number(result.ratio()),
                            result.goal(),
                            result.isTold() ? "" : result.met() ? "yes" : "**no**"));
        }
        text.append('\n');
        results.stream()
                .filter(result -> !result.note().isEmpty())
                .forEach(result -> text.append("- ")
                        .append(result.work())
                        .append(": ")
                        .append(result.note())
                        .append('\n'));
        return text.toString();
    }

    private static Map<String, Object> row(Result result) {
        Map<String, Object> row = new LinkedHashMap<>();
        row.put("work", result.work());
        row.put("value", result.value());
        row.put("limit", result.limit());
        row.put("ratio", result.ratio());
        row.put("goal", result.goal());
        row.put("unit", result.unit());
        row.put("met", result.isTold() ? null : result.met());
        row.put("note", result.note());
        return row;
    }
}
