package traytender.ingest.broker;

import org.apache.activemq.artemis.core.server.ActiveMQServer;
import org.apache.activemq.artemis.core.server.Queue;
import org.jspecify.annotations.Nullable;

/** What waits in the broker for the program itself. <b>Safe from any thread.</b> */
final class OwnQueue {
    private final ActiveMQServer server;
    private final String name;
    private volatile @Nullable Queue queue;

    /** The broker names a queue by the client, which is the prefix, and what it hears: everything. */
    OwnQueue(ActiveMQServer server, String prefix) {
        this.server = server;
        this.name = prefix + ".#";
    }

    /** How many messages the program has not acknowledged yet; 0 before it has subscribed. */
    long waiting() {
        Queue known = queue;
        if (known == null) {
            known = server.locateQueue(name);
            queue = known;
        }
        return known == null ? 0 : known.getMessageCount();
    }
}
