package traytender.dashboard.command;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.IOException;
import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.TreeSet;
import java.util.zip.ZipFile;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** What the packages must hold that this machine cannot try: SQLite's native parts for the small boards. */
class PackageContentsIT {
    private static final Path LIB = Path.of("target", "traytender", "lib");

    /** ELF machine numbers: 40 EM_ARM, 62 EM_X86_64, 183 EM_AARCH64 (System V gABI, table of e_machine). */
    @ParameterizedTest
    @CsvSource({"aarch64, 2, 183", "armv7, 1, 40", "armv6, 1, 40", "x86_64, 2, 62"})
    void sqlite_hasItsNativePartFor(String architecture, int fileClass, int machine) throws IOException {
        byte[] library = entry("sqlite-jdbc", "org/sqlite/native/Linux/" + architecture + "/libsqlitejdbc.so");

        assertThat(library).startsWith(0x7f, 'E', 'L', 'F');
        assertThat((int) library[4]).as("EI_CLASS, 1 is 32 and 2 is 64 bits").isEqualTo(fileClass);
        assertThat((int) ByteBuffer.wrap(library).order(ByteOrder.LITTLE_ENDIAN).getShort(18))
                .as("e_machine")
                .isEqualTo(machine);
    }

    @Test
    void mainJar_knowsItsCommit() throws IOException {
        String properties = new String(
                entry("dashboard-export", "traytender/dashboard/command/version.properties"), StandardCharsets.UTF_8);

        assertThat(properties)
                .containsPattern("(?m)^commit=([0-9a-f]{7,40}|unknown)$")
                .containsPattern("(?m)^date=(\\d{4}-\\d{2}-\\d{2}|unknown)$");
    }

    /** What looks for known holes must look at all there is, and at nothing else. */
    @Test
    void billOfMaterials_namesEveryLibraryOfThePackage() throws IOException {
        var named = new TreeSet<String>();
        JsonNode bill =
                new ObjectMapper().readTree(LIB.resolveSibling("sbom.json").toFile());
        assertThat(bill.path("bomFormat").asText()).isEqualTo("CycloneDX");
        named.add(jar(bill.path("metadata").path("component")));
        bill.path("components").forEach(component -> named.add(jar(component)));

        try (var files = Files.list(LIB)) {
            assertThat(files.map(file -> file.getFileName().toString())).containsExactlyInAnyOrderElementsOf(named);
        }
    }

    /** The file's name, by its package URL (https://github.com/package-url/purl-spec, type maven). */
    private static String jar(JsonNode component) {
        String purl = component.path("purl").asText();
        String classifier = purl.contains("classifier=") ? "-" + purl.replaceAll(".*classifier=([^&]*).*", "$1") : "";
        return component.path("name").asText() + "-" + component.path("version").asText() + classifier + ".jar";
    }

    private static byte[] entry(String artifact, String name) throws IOException {
        try (var files = Files.newDirectoryStream(LIB, artifact + "-*.jar");
                var jar = new ZipFile(files.iterator().next().toFile())) {
            var entry = jar.getEntry(name);
            assertThat(entry).as(name).isNotNull();
            return jar.getInputStream(entry).readAllBytes();
        }
    }
}
