package traytender.testing;

import java.lang.annotation.ElementType;
import java.lang.annotation.Retention;
import java.lang.annotation.RetentionPolicy;
import java.lang.annotation.Target;
import org.junit.jupiter.api.extension.ExtendWith;

/**
 * A test that needs programs of this machine, such as {@code mosquitto}, {@code influxd}, {@code chromium}. By the system property
 * {@code traytender.servers} it is left out ({@code none}), or fails where one is missing ({@code install}); without the property, as
 * in an editor, it runs where they are there.
 */
@Target({ElementType.TYPE, ElementType.METHOD})
@Retention(RetentionPolicy.RUNTIME)
@ExtendWith(ServerCondition.class)
public @interface NeedsServer {
    /** Names of the programs. */
    String[] value();
}
