package traytender.dashboard.command;

import java.io.IOException;
import java.io.InputStream;
import java.util.Properties;
import picocli.CommandLine.IVersionProvider;

/** The program's version, and the commit it was built from with that commit's date, as the build wrote them. */
final class Version implements IVersionProvider {
    @Override
    public String[] getVersion() throws IOException {
        var properties = new Properties();
        try (InputStream file = Version.class.getResourceAsStream("version.properties")) {
            if (file == null) {
                throw new IOException("version.properties is missing from the program");
            }
            properties.load(file);
        }
        return new String[] {
            "traytender " + properties.getProperty("version") + ", commit " + properties.getProperty("commit") + ", "
                    + properties.getProperty("date")
        };
    }
}
