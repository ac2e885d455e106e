package traytender.ingest.broker;

import java.io.IOException;
import java.net.InetAddress;
import java.net.InetSocketAddress;
import java.net.ServerSocket;
import java.nio.file.Path;
import java.security.SecureRandom;
import java.util.HexFormat;
import org.apache.activemq.artemis.api.core.SimpleString;
import org.apache.activemq.artemis.core.config.Configuration;
import org.apache.activemq.artemis.core.config.WildcardConfiguration;
import org.apache.activemq.artemis.core.config.impl.ConfigurationImpl;
import org.apache.activemq.artemis.core.security.impl.SecurityStoreImpl;
import org.apache.activemq.artemis.core.server.ActiveMQServer;
import org.apache.activemq.artemis.core.server.JournalType;
import org.apache.activemq.artemis.core.server.impl.ActiveMQServerImpl;
import org.apache.activemq.artemis.core.settings.impl.AddressFullMessagePolicy;
import org.apache.activemq.artemis.core.settings.impl.AddressSettings;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import traytender.config.site.Broker;

/**
 * The program's own broker. What a sensor was told is taken is on disk. It opens two doors: one for the program itself, at once,
 * and one for the sensors, when {@link #open} is called; so the program has subscribed before the first message can come.
 *
 * <p>Sizes are for a bench of cheap sensors on a small machine; measured with 200,000 waiting messages and a killed process.
 */
public final class BuiltInBroker implements AutoCloseable {
    private static final Logger log = LoggerFactory.getLogger(BuiltInBroker.class);
    private static final int MIB = 1 << 20;
    /** Below so much free disk, in MiB, sensors' messages are not taken; our choice, room for the store to take what is there. */
    private static final long LEAST_FREE_MIB = 64;

    private static final String SENSORS = "sensors";
    private static final String OWN_USER = "traytender-itself";
    private static final String LOOPBACK = "127.0.0.1";
    /** How long a listener's session outlives its connection, in s: a week. The program's own, which readings wait in, never ends. */
    private static final int SESSION_SECONDS = 7 * 24 * 3600;

    private final ActiveMQServer server;
    private final Broker.BuiltIn settings;
    private final int ownPort;
    private final String ownPassword;
    private final String tls;
    private final Path passwords;
    private final @Nullable Doorkeeper doorkeeper;
    private int port;

    private BuiltInBroker(
            ActiveMQServer server,
            Broker.BuiltIn settings,
            int ownPort,
            String ownPassword,
            String tls,
            Path passwords,
            @Nullable Doorkeeper doorkeeper) {
        this.passwords = passwords;
        this.doorkeeper = doorkeeper;
        this.server = server;
        this.settings = settings;
        this.ownPort = ownPort;
        this.ownPassword = ownPassword;
        this.tls = tls;
    }

    /**
     * Starts the broker, for the program itself alone.
     *
     * @param folder where it keeps its messages
     * @param passwords the file that names its users, needed when it listens beyond this machine; see {@link Passwords}
     * @param prefix first level of the program's own topics, which every user may hear
     * @throws BrokerException when it cannot start, or the sensors' port is taken
     */
    public static BuiltInBroker start(Path folder, Broker.BuiltIn settings, Path passwords, String prefix) {
        refuseTakenPort(settings);
        String tls = SensorTls.parameters(settings, passwords.toAbsolutePath().getParent());
        String ownPassword = HexFormat.of().formatHex(new SecureRandom().generateSeed(16));
        int ownPort = freePort();
        Configuration configuration = configuration(folder);
        boolean isOpen = !isLoopback(settings.listen());
        configuration.setSecurityEnabled(isOpen);
        var doorkeeper = isOpen ? new Doorkeeper(Passwords.read(passwords), OWN_USER, ownPassword, prefix) : null;
        var server = doorkeeper == null
                ? new ActiveMQServerImpl(configuration)
                : new ActiveMQServerImpl(configuration, doorkeeper);
        var broker = new BuiltInBroker(server, settings, ownPort, ownPassword, tls, passwords, doorkeeper);
        server.addProtocolManagerFactory(new GatedMqtt(ownPort, new OwnQueue(server, prefix)::waiting));
        try {
            server.start();
            broker.openDoor("itself", LOOPBACK, ownPort, "");
            return broker;
        } catch (Exception e) {
            broker.close();
            throw new BrokerException("the built-in broker cannot start: " + e.getMessage(), e);
        }
    }

    private static Configuration configuration(Path folder) {
        var configuration = new ConfigurationImpl();
        configuration.setName("traytender");
        configuration.setPersistenceEnabled(true);
        configuration.setJournalType(JournalType.NIO);
        configuration.setJournalDatasync(true);
        configuration.setJournalSyncTransactional(true);
        configuration.setJournalSyncNonTransactional(true);
        configuration.setJournalFileSize(2 * MIB);
        configuration.setJournalMinFiles(2);
        configuration.setJournalPoolFiles(4);
        configuration.setJournalDirectory(folder.resolve("journal").toString());
        configuration.setBindingsDirectory(folder.resolve("bindings").toString());
        configuration.setPagingDirectory(folder.resolve("paging").toString());
        configuration.setLargeMessagesDirectory(folder.resolve("large").toString());
        configuration.setJMXManagementEnabled(false);
        configuration.setCriticalAnalyzer(false);
        configuration.setPersistIDCache(false);
        configuration.setGlobalMaxSize(16L * MIB);
        configuration.setMaxDiskUsage(-1);
        configuration.setMinDiskFree(LEAST_FREE_MIB * MIB);
        var wildcards = new WildcardConfiguration();
        wildcards.setDelimiter('/');
        wildcards.setSingleWord('+');
        wildcards.setAnyWords('#');
        configuration.setWildCardConfiguration(wildcards);
        var addresses = new AddressSettings();
        addresses.setMaxSizeBytes(8L * MIB);
        addresses.setPageSizeBytes(MIB);
        // Paging keeps what does not fit into memory; other policies would drop or refuse acknowledged messages.
        addresses.setAddressFullMessagePolicy(AddressFullMessagePolicy.PAGE);
        addresses.setAutoCreateAddresses(true);
        addresses.setAutoDeleteAddresses(true);
        addresses.setAutoCreateQueues(true);
        addresses.setAutoDeleteQueues(true);
        addresses.setMaxDeliveryAttempts(-1);
        configuration.addAddressSetting("#", addresses);
        configuration.setManagementNotificationAddress(SimpleString.of("traytender.notifications"));
        return configuration;
    }

    private static void refuseTakenPort(Broker.BuiltIn settings) {
        try (var socket = new ServerSocket()) {
            socket.setReuseAddress(true);
            socket.bind(new InetSocketAddress(settings.listen(), settings.port()));
        } catch (IOException e) {
            throw new BrokerException(
                    "the built-in broker cannot listen at " + settings.listen() + ":" + settings.port() + ": "
                            + e.getMessage()
                            + ".\nMaybe another broker runs there: name it in site.yaml, or give messages another port.",
                    e);
        }
    }

    /** This port of this machine's own address if it is free, else another one that is. */
    public static int freePort(int usual) {
        try (var socket = new ServerSocket()) {
            socket.setReuseAddress(true);
            socket.bind(new InetSocketAddress(InetAddress.getLoopbackAddress(), usual));
            return usual;
        } catch (IOException e) {
            return freePort();
        }
    }

    private static int freePort() {
        try (var socket = new ServerSocket(0, 1, InetAddress.getLoopbackAddress())) {
            return socket.getLocalPort();
        } catch (IOException e) {
            throw new BrokerException("no free port on this machine: " + e.getMessage(), e);
        }
    }

    private static boolean isLoopback(String address) {
        try {
            return InetAddress.getByName(address).isLoopbackAddress();
        } catch (IOException e) {
            throw new BrokerException("no address " + address + ": " + e.getMessage(), e);
        }
    }

    private void openDoor(String name, String address, int doorPort, String more) throws Exception {
        String host = address.contains(":") ? "[" + address + "]" : address;
        server.getRemotingService()
                .createAcceptor(
                        name,
                        "tcp://" + host + ":" + doorPort
                                + "?protocols=MQTT;useEpoll=false;useKQueue=false;remotingThreads=2"
                                + ";defaultMaximumInFlightPublishMessages=2000" + more)
                .start();
    }

    /**
     * Lets the sensors in; does nothing when they are in already.
     *
     * @throws BrokerException when the port was taken meanwhile
     */
    public synchronized void open() {
        if (server.getRemotingService().getAcceptor(SENSORS) != null) {
            return;
        }
        int door = settings.port() == 0 ? freePort() : settings.port();
        try {
            openDoor(SENSORS, settings.listen(), door, ";defaultMqttSessionExpiryInterval=" + SESSION_SECONDS + tls);
        } catch (Exception e) {
            closeDoor();
            throw new BrokerException(
                    "the built-in broker cannot listen at " + settings.listen() + ":" + door + ": " + e.getMessage(),
                    e);
        }
        port = door;
        log.info("Built-in broker: sensors may send to {}:{}", settings.listen(), port);
    }

    /**
     * Reads the file of its users again: who is new there may come in, who is gone may publish no more.
     *
     * @throws BrokerException when it cannot be read; the users are then as before
     */
    public void readPasswords() {
        if (doorkeeper != null) {
            doorkeeper.change(Passwords.read(passwords));
            // It remembers for some seconds who may do what.
            if (server.getSecurityStore() instanceof SecurityStoreImpl remembering) {
                remembering.invalidateAuthenticationCache();
                remembering.invalidateAuthorizationCache();
            }
        }
    }

    /** A door that could not be opened must not stand in the way of the next try. */
    private void closeDoor() {
        try {
            server.getRemotingService().destroyAcceptor(SENSORS);
        } catch (Exception e) {
            log.debug("The sensors' door did not close: {}", e.getMessage());
        }
    }

    /** Why it takes nothing from sensors at the moment; null while it does. What it does not take it does not acknowledge. */
    public @Nullable String trouble() {
        if (hasEnded()) {
            return "the built-in broker has ended itself, since its disk failed; nothing is taken from sensors until the disk"
                    + " can be written again";
        }
        var paging = server.getPagingManager();
        return paging != null && paging.isDiskFull()
                ? "the disk is full: the built-in broker takes nothing from sensors while less than " + LEAST_FREE_MIB
                        + " MB are free"
                : null;
    }

    /** Whether it has ended itself, as it does when its disk fails; it does not come back by itself. */
    public boolean hasEnded() {
        return server.getState() != ActiveMQServer.SERVER_STATE.STARTED;
    }

    /** The sensors' port; 0 while they are not let in yet. */
    public synchronized int port() {
        return port;
    }

    /** Where the program itself finds it. */
    public String uri() {
        return "tcp://" + LOOPBACK + ":" + ownPort;
    }

    /** The user that the program itself is. */
    public String user() {
        return OWN_USER;
    }

    /** The program's own password, another one at each start. */
    public String password() {
        return ownPassword;
    }

    @Override
    public void close() {
        try {
            server.stop();
        } catch (Exception e) {
            throw new BrokerException("the built-in broker did not stop well: " + e.getMessage(), e);
        }
    }
}
