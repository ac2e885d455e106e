package traytender.dashboard.command;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assumptions.assumeThat;

import java.nio.channels.FileChannel;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import org.awaitility.Awaitility;
import org.junit.jupiter.api.AfterEach;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.testing.Programs;

/**
 * The Debian package, installed on this machine for real, used as systemd would use it, upgraded, removed. Only as root on a Debian
 * that has no Traytender, where installing is allowed ({@code -Dservers=install}).
 */
class DebianPackageIT {
    private static final Path PACKAGE = Path.of("target", "traytender.deb").toAbsolutePath();
    private static final Path SITE = Path.of("/var/lib/traytender");
    private static final Path ARCHIVE = Path.of("/var/cache/traytender/classes.jsa");
    private static final Duration PATIENCE = Duration.ofSeconds(120);

    @TempDir
    Path folder;

    @BeforeEach
    void leaveAGrowersProgramAlone() {
        assumeThat(System.getProperty("traytender.servers", ""))
                .as("LEFT OUT for want of -Dservers=install: the Debian package")
                .isEqualTo("install");
        assumeThat(Programs.find("dpkg").isPresent() && "root".equals(System.getProperty("user.name")))
                .as("LEFT OUT: the Debian package is tried only by root on Debian")
                .isTrue();
        assumeThat(SITE).as("LEFT OUT: a Traytender lives on this machine").doesNotExist();
    }

    @AfterEach
    void purge() throws Exception {
        if (Files.exists(Path.of("/usr/share/traytender"))) {
            Shell.run("dpkg", "--purge", "traytender");
            Shell.run("rm", "-rf", SITE.toString());
        }
    }

    @Test
    void debianPackage_isInstalledWatchesIsUpgradedAndRemovedWithItsReadingsKept() throws Exception {
        try (var lock = onlyOneAtATime()) {
            Path older = withVersion("0.0.1");
            Shell.done("dpkg", "--install", older.toString());
            assertThat(Shell.done("stat", "-c", "%U %a", SITE.toString())).isEqualTo("traytender 750\n");
            assertThat(Files.size(ARCHIVE)).isGreaterThan(1_000_000);
            Shell.done("systemd-analyze", "verify", "traytender.service");

            int port = PackagedProgram.freePort();
            SmallSite.in(SITE, port);
            try (var program = InstalledService.start(folder)) {
                PackagedIT.sendDryHour(port);
                Awaitility.await()
                        .atMost(PATIENCE)
                        .until(() -> program.body("/api/v1/alerts?open=true").contains("\"dry\""));
                assertThat(program.stop()).isZero();
            }

            Shell.done("dpkg", "--install", PACKAGE.toString());
            assertThat(Shell.done("traytender", "--version")).startsWith("traytender ");
            try (var program = InstalledService.start(folder)) {
                assertThat(program.body("/api/v1/alerts?open=true")).contains("\"dry\"");
                assertThat(program.stop()).isZero();
            }

            Shell.done("dpkg", "--remove", "traytender");
            assertThat(Path.of("/usr/bin/traytender")).doesNotExist();
            assertThat(SITE.resolve("data/readings.db")).exists();
            Shell.done("dpkg", "--purge", "traytender");
            assertThat(SITE.resolve("data/readings.db")).exists();
            assertThat(ARCHIVE).doesNotExist();
            Shell.done("rm", "-rf", SITE.toString());
            assertThat(lock.isOpen()).isTrue();
        }
    }

    /** Two builds on one machine must not install over each other. */
    private static FileChannel onlyOneAtATime() throws Exception {
        var channel = FileChannel.open(
                Path.of(System.getProperty("java.io.tmpdir"), "traytender-debian-package.lock"),
                StandardOpenOption.CREATE,
                StandardOpenOption.WRITE);
        channel.lock();
        return channel;
    }

    /** The same package under an older version, to upgrade from. */
    private Path withVersion(String version) throws Exception {
        Path content = folder.resolve("older");
        Shell.done("dpkg-deb", "--raw-extract", PACKAGE.toString(), content.toString());
        Path control = content.resolve("DEBIAN/control");
        Files.writeString(control, Files.readString(control).replaceFirst("Version: .*", "Version: " + version));
        Path older = folder.resolve("older.deb");
        Shell.done("dpkg-deb", "-Znone", "--build", content.toString(), older.toString());
        return older;
    }

    /** The unit's own commands under its own user, as systemd would give them. */
    private static final class InstalledService {
        private static final Path UNIT = Path.of("/usr/lib/systemd/system/traytender.service");

        static PackagedProgram start(Path logs) throws Exception {
            List<String> unit = Files.readAllLines(UNIT);
            List<String> asItsUser = List.of(
                    "setpriv",
                    "--reuid=" + value(unit, "User"),
                    "--regid=" + value(unit, "Group"),
                    "--clear-groups",
                    "--no-new-privs",
                    "env",
                    classes(unit));
            List<String> check = new ArrayList<>(asItsUser);
            check.addAll(List.of(value(unit, "ExecStartPre").split(" ")));
            Shell.done(check.toArray(String[]::new));
            String command = value(unit, "ExecStart").replace(" --page ${TRAYTENDER_PAGE}", "");
            return PackagedProgram.startInstalled(asItsUser, logs, List.of(command.split(" ")))
                    .awaitWell();
        }

        private static String value(List<String> unit, String key) {
            return unit.stream()
                    .filter(line -> line.startsWith(key + "="))
                    .map(line -> line.substring(key.length() + 1))
                    .findFirst()
                    .orElseThrow(() -> new AssertionError("no " + key + " in " + UNIT));
        }

        private static String classes(List<String> unit) {
            return unit.stream()
                    .filter(line -> line.startsWith("Environment=TRAYTENDER_CLASSES="))
                    .map(line -> line.substring("Environment=".length()))
                    .findFirst()
                    .orElseThrow();
        }
    }
}
