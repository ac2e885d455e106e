package traytender.config.folder;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.io.IOException;
import java.nio.file.FileAlreadyExistsException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.ZoneId;
import java.time.ZoneOffset;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import traytender.config.site.Site;

class NewSiteTest {
    @TempDir
    Path folder;

    @Test
    void newFolder_isReadBackWithoutError() throws IOException {
        NewSite.write(folder.resolve("a/b"), ZoneId.of("Europe/Dublin"));

        Site site = SiteReader.read(folder.resolve("a/b")).site();

        assertThat(site.timezone()).isEqualTo(ZoneId.of("Europe/Dublin"));
        assertThat(site.trays()).hasSize(1);
        assertThat(site.probes()).hasSize(3);
        assertThat(Schemas.verdict(Schemas.schema("site.schema.json"), Schemas.load(NewSite.siteYaml())))
                .isEmpty();
    }

    /** Whoever takes the # away gets what the comment says. */
    @Test
    void commentedLines_areRightToo() {
        String all = NewSite.siteYaml()
                .replaceAll("(?m)^# (location|last-frost|store|  keep|  influxdb)", "$1")
                .replaceAll("(?m)^( +)# (thermostat|relay|- id|  measures|  at|  message)", "$1$2");

        Site site = Folders.read(folder, all).site();

        assertThat(site.location()).isNotNull();
        assertThat(site.lastFrost()).isNotNull();
        assertThat(site.store().influx()).isNotNull();
        assertThat(site.mats().get(0).ownThermostat()).isTrue();
        assertThat(site.mats().get(0).relay()).isNotNull();
        assertThat(site.probes()).hasSize(4);
    }

    @Test
    void offset_isNoZoneOfASite() {
        assertThat(NewSite.siteYaml(ZoneOffset.ofHours(1))).contains("timezone: UTC");
    }

    @Test
    void folderWithASite_isLeftAlone() throws IOException {
        Folders.write(folder, "site.yaml", "mine");

        assertThatThrownBy(() -> NewSite.write(folder, ZoneId.of("UTC")))
                .isInstanceOf(FileAlreadyExistsException.class);
        assertThat(Files.readString(folder.resolve("site.yaml"))).isEqualTo("mine");
        assertThat(folder.resolve("crops")).doesNotExist();
    }
}
