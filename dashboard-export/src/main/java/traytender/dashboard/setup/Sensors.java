package traytender.dashboard.setup;

import java.net.InetAddress;
import java.net.NetworkInterface;
import java.net.SocketException;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.Collections;
import java.util.List;
import java.util.Map;
import java.util.TreeSet;
import traytender.config.reading.Reading;
import traytender.config.site.Probe;
import traytender.ingest.broker.BrokerException;
import traytender.ingest.broker.Credentials;
import traytender.ingest.calibrate.Calibrator;
import traytender.ingest.intake.Intake;
import traytender.ingest.intake.Unassigned;
import traytender.ingest.store.RawReading;
import traytender.ingest.store.ReadingStore;

/** Sensors as they speak at the moment, what another calibration would make of them, and who may speak. <b>Safe from any thread.</b> */
public final class Sensors {
    private final Intake intake;
    private final ReadingStore store;
    private final Path passwords;

    /** @param site the site folder */
    public Sensors(Intake intake, ReadingStore store, Path site) {
        this.intake = intake;
        this.store = store;
        this.passwords = site.resolve("passwords");
    }

    /** Topics heard that no probe names. */
    public List<Unassigned> unassigned() {
        return intake.unassigned();
    }

    /** A probe's readings as it sent them. */
    public List<Reading> readings(Probe probe, Instant from, Instant to) {
        return store.readings(probe, from, to);
    }

    /** The same readings as another calibration has them. */
    public static List<Reading> read(Probe probe, List<Reading> readings) {
        return readings.stream()
                .map(reading -> Calibrator.read(probe, new RawReading(probe.id(), reading.timeMs(), reading.raw(), 0)))
                .toList();
    }

    /** The built-in broker's port for sensors; 0 while there is none. */
    public int port() {
        return intake.brokerPort();
    }

    /** This machine's names for others in its networks, without the loopback's. */
    public static List<String> addresses() {
        var addresses = new TreeSet<String>();
        try {
            for (NetworkInterface network : Collections.list(NetworkInterface.getNetworkInterfaces())) {
                for (InetAddress address : Collections.list(network.getInetAddresses())) {
                    if (!address.isLoopbackAddress() && !address.isLinkLocalAddress()) {
                        addresses.add(address.getHostAddress());
                    }
                }
            }
        } catch (SocketException e) {
            return List.of();
        }
        return new ArrayList<>(addresses);
    }

    /** Users of the built-in broker and the topics each may publish to. */
    public Map<String, List<String>> users() {
        return Credentials.users(passwords);
    }

    /**
     * Gives a device a user and a new password, which counts at once.
     *
     * @return the password, which is kept nowhere in clear
     * @throws SiteRefusedException when the name or a topic cannot be
     */
    public String give(String name, List<String> topics) {
        try {
            String password = Credentials.give(passwords, name, topics);
            intake.readPasswords();
            return password;
        } catch (BrokerException e) {
            throw new SiteRefusedException(String.valueOf(e.getMessage()));
        }
    }

    /**
     * Takes a device's credentials away; it can publish no more from now on.
     *
     * @return whether there were any
     * @throws SiteRefusedException when they are the last ones
     */
    public boolean revoke(String name) {
        try {
            boolean wasThere = Credentials.revoke(passwords, name);
            intake.readPasswords();
            return wasThere;
        } catch (BrokerException e) {
            throw new SiteRefusedException(String.valueOf(e.getMessage()));
        }
    }
}
