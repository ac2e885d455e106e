package traytender.config.folder;

import static org.assertj.core.api.Assertions.assertThat;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.Arrays;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;

/** Every way to get a site file wrong that we could think of, with its place and what would be right. */
class SiteErrorsTest {
    @TempDir
    Path folder;

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    location: {latitude: 91, longitude: 0}         | 5:22: latitude is "91"; a number from -90 to 90 degrees north is right
                    location: {latitude: 53.35}                    | 5:11: location has no "longitude"; give its longitude
                    show: {clock: 13}                              | 5:15: clock is "13"; did you mean "12"? one of 24, 12 is right
                    show: {temperature: K}                         | 5:21: temperature is "K"; one of C, F is right
                    last-frost: 04-31                              | 5:13: last-frost is "04-31"; month and day such as 04-20 is right
                    last-frost: 420                                | 5:13: last-frost is "420"; month and day such as 04-20 is right
                    morning-round: 7:00                            | 5:16: morning-round is "7:00"; hours and minutes such as "07:00" is right
                    morning-round: "24:30"                         | 5:16: morning-round is "24:30"; hours and minutes such as "07:00" is right
                    store: {keep: 400}                             | 5:15: keep is "400"; an ISO 8601 duration in days or less, such as P400D, is right
                    store: {keep: P1Y}                             | 5:15: keep is "P1Y"; an ISO 8601 duration in days or less, such as P400D, is right
                    store: {keep: PT1S}                            | 5:15: keep is "PT1S"; from PT24H to PT876000H is right
                    store: {influxdb: {url: 127.0.0.1, database: a}}| 5:25: url is "127.0.0.1"; http://127.0.0.1:8086 is right
                    messages: {broker: "mqtt://x"}                 | 5:20: broker is "mqtt://x"; built-in, tcp://host:1883 or ssl://host:8883 is right
                    messages: {broker: "tcp://x:70000"}            | 5:20: broker is "tcp://x:70000"; built-in, tcp://host:1883 or ssl://host:8883 is right
                    messages: {broker: "tcp://x/y"}                | 5:20: broker is "tcp://x/y"; an address without a path is right
                    messages: {broker: "tcp://x", port: 1884}      | 5:37: an outside broker has no port; write host and port into broker
                    messages: {broker: built-in, user: u}          | 5:36: the built-in broker has no user; its users stand in the file passwords; leave it out
                    messages: {key: k.p12}| 5:11: messages has only one of key and password-file; give both, or neither
                    messages: {broker: "tcp://x", password-file: p}| 5:11: messages has a password-file but no user; give the user too
                    messages: {prefix: "a/#"}                      | 5:20: prefix is "a/#"; up to 40 letters, digits, . _ - /, such as traytender, is right
                    messages: {port: !!int }                       | 5:18: port is ""; a whole number from 0 to 65535 is right
                    messages: {port: !!int x}                      | 5:18: port is "x"; a whole number from 0 to 65535 is right
                    location: {latitude: !!float , longitude: 0}   | 5:22: latitude is ""; a number from -90 to 90 degrees north is right
                    location: {latitude: !!float 1_0, longitude: 0}| 5:22: latitude is "1_0"; a number from -90 to 90 degrees north is right
                    messages: {port: 70000}                        | 5:18: port is "70000"; a whole number from 0 to 65535 is right
                    sowing: []                                     | 5:1: unknown key "sowing" in the site; right are site, timezone, location, show, rooms, mats, trays, probes, messages, store, last-frost, morning-round
                    Last_frost: 04-20                              | 5:1: unknown key "Last_frost" in the site; did you mean "last-frost"?
                    timezone: Europe/Paris                         | 5:1: the key "timezone" stands twice in the site; keep one of them
                    mats: [{id: m, room: propagatoin}]             | 5:22: there is no room "propagatoin"; did you mean "propagation"?
                    mats: [{id: m, room: propagation, thermostat: mine}] | 5:47: thermostat is "mine"; one of own, none is right
                    mats: {id: m}                                  | 5:7: mats is a mapping; a list is right, each item after a dash
                    trays: [{id: a/b, room: propagation, cells: {rows: 1, columns: 1}}] | 5:14: id is "a/b", which cannot be a name; at most 64 letters, digits, - _ . are right, without / + # , ; = " \\
                    trays: [{id: a, room: propagation, cells: 8x16}]| 5:43: cells is "8x16"; a mapping with rows, columns is right
                    trays: [{id: a, room: propagation, cells: {rows: 0, columns: 1.5}}] | 5:50: rows is "0"; a whole number from 1 to 100 is right
                    trays: [{id: yes, room: True, cells: {rows: 1, columns: 1}}] | 5:25: room is "True"; a text is right; put it in quotes
                    rooms: []                                      | 5:1: the key "rooms" stands twice in the site; keep one of them
                    trays: [7]                                     | 5:9: a tray is "7"; a mapping with id, room, bench, mat, cells, medium, stage, sowings, since is right
                    """)
    void wrongValue_isReportedAtItsPlace(String line, String expected) {
        assertThat(Folders.errors(folder, Folders.LEAST + line))
                .contains("site.yaml:" + expected.replace("\\\\", "\\"));
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    {rows: 1-9, crop: tomato}                               | 10:16: rows "1-9" leaves the tray, which has 8; from 1 to 8, such as 1-8, is right
                    {rows: 4-1, crop: tomato}                               | 10:16: rows is "4-1"; from 1 to 8, such as 1-8, is right
                    {rows: all, crop: tomato}                               | 10:16: rows is "all"; from 1 to 8, such as 1-8, is right
                    {columns: 17, crop: tomato}                             | 10:19: columns "17" leaves the tray, which has 16; from 1 to 16, such as 1-16, is right
                    {crop: tomatoe}                                         | 10:16: there is no crop "tomatoe"; did you mean "tomato"?
                    {rows: 1-4}                                             | 10:9: a sowing has no "crop"; give its crop
                    {crop: tomato, sown: 2.3.2026}                          | 10:30: sown is "2.3.2026"; a day such as 2026-03-02 is right
                    {crop: tomato, seeds-per-cell: 0}                       | 10:40: seeds-per-cell is "0"; a whole number from 1 to 100 is right
                    {crop: tomato, seeds_per_cell: 1}                       | 10:24: unknown key "seeds_per_cell" in a sowing; did you mean "seeds-per-cell"?
                    {crop: tomato, since: yesterday}                        | 10:31: since is "yesterday"; an RFC 3339 time such as 2026-03-14T05:41:00Z, or a day such as 2026-03-14, is right
                    """)
    void wrongSowing_isReportedAtItsPlace(String sowing, String expected) {
        String site = Folders.LEAST + Folders.TRAY + "    sowings:\n      - " + sowing;

        assertThat(Folders.errors(folder, site)).containsExactly("site.yaml:" + expected);
    }

    @Test
    void overlappingSowings_areRefused() {
        String site = Folders.LEAST + Folders.TRAY + """
                    sowings:
                      - {rows: 1-4, crop: tomato, variety: Copper Lantern}
                      - {rows: 4-8, crop: pepper, variety: Long Meadow}
                """;

        assertThat(Folders.errors(folder, site))
                .containsExactly("site.yaml:11:9: the sowing of Long Meadow overlaps the one of Copper Lantern; "
                        + "give each its own rows or columns, or the later one its since");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    moisture    | {tray: T01, row: 9, column: 1}  | {topic: t, format: text} | none | 12:26: the probe is outside its tray: row 9, and T01 has 8 rows; from 1 to 8 is right
                    moisture    | {tray: T01, row: 1, column: 17} | {topic: t, format: text} | none | 12:37: the probe is outside its tray: column 17, and T01 has 16 columns; from 1 to 16 is right
                    moisture    | {tray: T01, row: 1}             | {topic: t, format: text} | none | 12:9: at has no "column"; give its column
                    moisture    | {tray: T01}                     | {topic: t, format: text} | none | 12:9: moisture cannot be measured there; a cell is right: {tray: ..., row: ..., column: ...}
                    moisture    | {tray: T1, row: 1, column: 1}   | {topic: t, format: text} | none | 12:16: there is no tray "T1"; did you mean "T01"?
                    mat-surface | {room: propagation}             | {topic: t, format: text} | none | 12:9: mat-surface cannot be measured there; a mat is right: {mat: ...}
                    humidity    | {tray: T01, row: 1, column: 1}  | {topic: t, format: text} | none | 12:9: humidity cannot be measured there; a room is right: {room: ...}
                    weight      | {room: propagation}             | {topic: t, format: text} | none | 12:9: weight cannot be measured there; a whole tray is right: {tray: ...}
                    battery     | {}                              | {topic: t, format: text} | none | 12:9: at names no place; {tray, row, column}, {tray}, {mat} or {room} is right
                    battery     | {room: propagation, tray: T01}  | {topic: t, format: text} | none | 12:9: at names more than one place; {tray, row, column}, {tray}, {mat} or {room} is right
                    moistur     | {tray: T01, row: 1, column: 1}  | {topic: t, format: text} | none | 11:15: measures is "moistur"; did you mean "moisture"? one of moisture, temperature, mat-surface, air-temperature, humidity, mat-power, light, weight, battery is right
                    moisture    | {tray: T01, row: 1, column: 1}  | {topic: "a/+", format: text} | none | 13:22: topic "a/+" has a wildcard; the exact topic of its messages is right
                    moisture    | {tray: T01, row: 1, column: 1}  | {topic: "a/#", format: text} | none | 13:22: topic "a/#" has a wildcard; the exact topic of its messages is right
                    moisture    | {tray: T01, row: 1, column: 1}  | {topic: "a\\0b", format: text} | none | 13:22: topic "a·b" holds a control character or is longer than 400; plain text is right
                    moisture    | {tray: T01, row: 1, column: 1}  | {topic: t, format: jsn, value: /a} | none | 13:33: format is "jsn"; did you mean "json"? one of text, json, senml is right
                    moisture    | {tray: T01, row: 1, column: 1}  | {topic: t, format: json} | none | 13:14: message has no "value"; give its value
                    moisture    | {tray: T01, row: 1, column: 1}  | {topic: t, format: json, value: soil} | none | 13:46: value is "soil"; a JSON pointer (RFC 6901) such as /soil or /readings/0/temp is right
                    moisture    | {tray: T01, row: 1, column: 1}  | {topic: t, format: json, value: /a~2} | none | 13:46: value is "/a~2"; a JSON pointer (RFC 6901) such as /soil or /readings/0/temp is right
                    moisture    | {tray: T01, row: 1, column: 1}  | {topic: t, format: text, value: /a} | none | 13:46: a message in format text has no value; leave it out, or give the format it belongs to
                    moisture    | {tray: T01, row: 1, column: 1}  | {topic: t, format: senml, name: "a b"} | none | 13:46: name is "a b"; the resolved SenML name (letters, digits and - : . / _, beginning with a letter or digit) is right
                    moisture    | {tray: T01, row: 1, column: 1}  | {topic: t, format: text, heating: on} | none | 13:48: the word for heating does not belong to moisture; heating and resting are for mat-power, lit and dark for light
                    light       | {room: propagation}             | {topic: t, format: text, lit: 1, dark: 1} | none | 13:53: the word "1" stands for both; two different words are right
                    moisture    | {tray: T01, row: 1, column: 1}  | {topic: t, format: text} | {dry: 5, wet: 5} | 14:18: dry and wet are both 5; two different raw values are right
                    moisture    | {tray: T01, row: 1, column: 1}  | {topic: t, format: text} | {dry: 5} | 14:18: calibration has no "wet"; give its wet
                    moisture    | {tray: T01, row: 1, column: 1}  | {topic: t, format: text} | {dry: .inf, wet: 5} | 14:24: dry is ".inf"; a number is right
                    moisture    | {tray: T01, row: 1, column: 1}  | {topic: t, format: text} | {dry: 5, offset: 1} | 14:18: calibration mixes dry and offset; one kind is right: {dry, wet}, {points}, {polynomial}, {ntc}, {platinum}, {offset}, {tare, drained} or none is right
                    moisture    | {tray: T01, row: 1, column: 1}  | {topic: t, format: text} | {points: [[5, 0], [5, 1]]} | 14:36: the raw value 5 is not larger than the one before it; points by increasing raw value are right
                    moisture    | {tray: T01, row: 1, column: 1}  | {topic: t, format: text} | {points: [[5, 0]]} | 14:27: points are 1; from 2 to 1000 points are right
                    moisture    | {tray: T01, row: 1, column: 1}  | {topic: t, format: text} | {points: [[5, 0], [6, 80]]} | 14:40: the value is "80"; a number from 0 to 1.5 of container capacity is right
                    moisture    | {tray: T01, row: 1, column: 1}  | {topic: t, format: text} | {platinum: {r0: 100}} | 14:18: a platinum calibration does not give moisture; it is for temperatures
                    weight      | {tray: T01}                     | {topic: t, format: text} | {tare: 900, drained: 900} | 14:18: drained is not heavier than tare; the watered, drained tray weighs more
                    moisture    | {tray: T01, row: 1, column: 1}  | {topic: t, format: text} | [] | 14:18: calibration is an empty list; give at least one value
                    moisture    | {tray: T01, row: 1, column: 1}  | {topic: t, format: text} | [none, {offset: 1}] | 14:25: a later value of calibration has no since; give the time from which on it holds
                    moisture    | {tray: T01, row: 1, column: 1}  | {topic: t, format: text} | [{offset: 1, since: 2026-03-02}, {offset: 2, since: 2026-03-01}] | 14:51: the since of this calibration is not after the one before it; put them in order of time
                    """)
    void wrongProbe_isReportedAtItsPlace(
            String quantity, String at, String message, String calibration, String expected) {
        String site = Folders.LEAST + Folders.TRAY + """
                probes:
                  - id: p
                    measures: %s
                    at: %s
                    message: %s
                    calibration: %s
                """.formatted(quantity, at, message, calibration);

        assertThat(Folders.errors(folder, site)).containsExactly("site.yaml:" + expected);
    }

    @Test
    void everyDuration_isIso8601() {
        String site = Folders.LEAST + Folders.TRAY
                + "probes: [{id: p, measures: battery, at: {tray: T01}, message: {topic: t, format: text}, every: 60s}]";

        assertThat(Folders.errors(folder, site))
                .containsExactly(
                        "site.yaml:9:96: every is \"60s\"; an ISO 8601 duration in days or less, such as PT1M, is right");
    }

    @Test
    void doubleNames_sayWhereTheFirstOneStands() {
        String site = Folders.LEAST + "  - {id: propagation, kind: outdoors}\n";

        assertThat(Folders.errors(folder, site))
                .containsExactly("site.yaml:5:10: the room \"propagation\" is there already, in line 4; "
                        + "give each room a name of its own");
    }

    @Test
    void matInAnotherRoom_isNotUnderTheTray() {
        String site = Folders.LEAST + """
                  - {id: frame, kind: outdoors}
                mats:
                  - {id: m, room: frame}
                trays:
                  - {id: T01, room: propagation, mat: m, cells: {rows: 2, columns: 2}}
                """;

        assertThat(Folders.errors(folder, site))
                .containsExactly("site.yaml:9:39: the mat \"m\" lies in frame, the tray stands in propagation; "
                        + "give a mat of that room, or none");
    }

    @Test
    void allErrors_areReportedAtOnceInOrderOfFileAndPlace() {
        Folders.write(
                folder, "crops/tomato.yaml", "crop: tomato\nstages:\n  germinatin: {}\n  seedling: {dry-line: 9}\n");
        String site = """
                timezone: Mars/Olympus
                rooms:
                  - {id: a, kind: cellar}
                trays:
                  - {id: T01, room: b, cells: {rows: 2, columns: 2}, colour: red}
                """;

        assertThat(Folders.errors(folder, site))
                .containsExactly(
                        "crops/tomato.yaml:3:3: unknown key \"germinatin\" in stages; did you mean \"germinating\"?",
                        "crops/tomato.yaml:4:24: dry-line is \"9\"; a number from 0 to 1 is right",
                        "site.yaml:1:1: the site has no \"site\"; give its site",
                        "site.yaml:1:11: timezone is \"Mars/Olympus\"; an IANA time zone such as Europe/Dublin is right",
                        "site.yaml:3:19: kind is \"cellar\"; one of indoors, greenhouse, outdoors is right",
                        "site.yaml:5:21: there is no room \"b\"; right are a",
                        "site.yaml:5:54: unknown key \"colour\" in a tray; right are id, room, bench, mat, cells, medium,"
                                + " stage, sowings, since");
    }

    @ParameterizedTest
    @CsvSource(delimiter = '|', textBlock = """
                    ''                        | 1:1: is empty; give at least what the README's table marks as needed
                    '# only a comment'        | 1:1: is empty; give at least what the README's table marks as needed
                    'just words'              | 1:1: the site is "just words"; a mapping with site, timezone, location, show, rooms, mats, trays, probes, messages, store, last-frost, morning-round is right
                    '[1, 2]'                  | 1:1: the site is a list; a mapping with site, timezone, location, show, rooms, mats, trays, probes, messages, store, last-frost, morning-round is right
                    """)
    void fileThatIsNoSite_isOneError(String text, String expected) {
        assertThat(Folders.errors(folder, text)).containsExactly("site.yaml:" + expected);
    }

    @Test
    void siteWithoutRooms_isRefused() {
        assertThat(Folders.errors(folder, "site: a\ntimezone: UTC\nrooms: []\n"))
                .containsExactly("site.yaml:3:8: the site has no rooms; give at least one room");
    }

    @Test
    void missingFile_isOneError() {
        assertThat(Folders.errors(folder))
                .containsExactly(
                        "site.yaml:1:1: there is no such file; write one: \"traytender new DIR\" makes a folder"
                                + " to begin with");
    }

    @Test
    void missingFolder_isOneError() {
        assertThat(Folders.errors(folder.resolve("nowhere")))
                .hasSize(1)
                .first()
                .asString()
                .contains("there is no folder");
    }

    @Test
    void tabs_areReportedAtTheirPlace() {
        assertThat(Folders.errors(folder, "site: a\nrooms:\n\t- {id: a}\n"))
                .hasSize(1)
                .first()
                .asString()
                .startsWith("site.yaml:3:1: is no YAML here")
                .endsWith("; indent with blanks, not with tabs");
    }

    @Test
    void twoDocuments_areRefused() {
        assertThat(Folders.errors(folder, Folders.LEAST + "---\nsite: b\n")).hasSize(1);
    }

    @Test
    void invalidUtf8_isReportedAtItsPlace() throws IOException {
        Files.write(
                folder.resolve("site.yaml"),
                new byte[] {'s', 'i', 't', 'e', ':', ' ', 'a', '\n', 'b', (byte) 0xC3, '('});

        assertThat(Folders.errors(folder))
                .containsExactly("site.yaml:2:2: is not UTF-8 from here on; save the file as UTF-8");
    }

    @Test
    void controlCharacter_isReportedAtItsPlace() {
        assertThat(Folders.errors(folder, "site: a\nb: \u0007\n"))
                .containsExactly("site.yaml:2:4: holds the character U+0007, which YAML does not allow; leave it out");
    }

    @Test
    void aliasBomb_isRefusedQuickly() {
        var text = new StringBuilder("a0: &a0 [x, x, x, x, x, x, x, x, x, x]\n");
        for (int i = 1; i < 12; i++) {
            text.append("a%d: &a%d [".formatted(i, i))
                    .append(("*a" + (i - 1) + ", ").repeat(9))
                    .append("x]\n");
        }

        assertThat(Folders.errors(folder, text.toString()))
                .containsExactly(
                        "site.yaml:1:1: its aliases unfold to more than the file can mean; write the values out");
    }

    @Test
    void aliasOfItself_isRefused() {
        assertThat(Folders.errors(folder, "rooms: &r [*r]\n"))
                .containsExactly(
                        "site.yaml:1:1: its aliases unfold to more than the file can mean; write the values out");
    }

    @Test
    void deepNesting_isRefused() {
        assertThat(Folders.errors(folder, "[".repeat(200_000))).hasSize(1);
    }

    @Test
    void hugeFile_isRefused() throws IOException {
        byte[] bytes = new byte[YamlFile.MOST_BYTES + 1];
        Arrays.fill(bytes, (byte) '#');
        Files.write(folder.resolve("site.yaml"), bytes);

        assertThat(Folders.errors(folder))
                .containsExactly("site.yaml:1:1: is larger than 16 MB; keep readings out of it");
    }

    @Test
    void endlessErrors_stopAtTenThousand() {
        String site = Folders.LEAST + "trays:\n" + "  - {id: 1}\n".repeat(4000);

        assertThat(Folders.errors(folder, site)).hasSize(Problems.MOST);
    }
}
