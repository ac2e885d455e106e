package traytender.ingest.broker;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;

class PasswordsTest {
    @TempDir
    Path folder;

    private Path file(String text) throws IOException {
        return Files.writeString(folder.resolve("passwords"), text);
    }

    @Test
    void clearPassword_isHashedOnce_andStaysRight() throws IOException {
        var file = file("# bench\n\n  T01   Kx7-bänch alder/T01/# alder/propagation\n");

        var first = Passwords.read(file);
        var hashed = Files.readString(file);
        var second = Passwords.read(file);

        assertThat(hashed).startsWith("# bench\n\nT01 $2a$10$").doesNotContain("bänch");
        assertThat(Files.readString(file)).isEqualTo(hashed);
        for (var passwords : new Passwords[] {first, second}) {
            assertThat(passwords.isRight("T01", "Kx7-bänch")).isTrue();
            assertThat(passwords.isRight("T01", "Kx7-banch")).isFalse();
            assertThat(passwords.isRight("T02", "Kx7-bänch")).isFalse();
            assertThat(passwords.mayPublish("T01", "alder/T01/centre")).isTrue();
            assertThat(passwords.mayPublish("T01", "alder/T02/centre")).isFalse();
        }
    }

    @ParameterizedTest
    @ValueSource(strings = {"T01\n", "T01 secret\n", "T01 secret alder/#/x\n"})
    void lineThatIsNone_isSaidWithItsPlace(String line) throws IOException {
        var file = file("# bench\n" + line);

        assertThatThrownBy(() -> Passwords.read(file))
                .isInstanceOf(BrokerException.class)
                .hasMessageContaining("passwords:2:1: ")
                .hasMessageNotContaining("secret");
    }

    @Test
    void fileThatNamesNobody_isSaid() throws IOException {
        var file = file("# nobody yet\n");

        assertThatThrownBy(() -> Passwords.read(file)).isInstanceOf(BrokerException.class);
    }
}
