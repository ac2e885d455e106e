package traytender.ingest.store;

import java.nio.file.Path;
import java.time.Duration;
import java.util.ArrayList;
import java.util.List;
import java.util.Optional;
import java.util.Set;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicLong;
import java.util.regex.Pattern;
import org.influxdb.InfluxDBException;
import org.influxdb.InfluxDBException.FieldTypeConflictException;
import org.influxdb.InfluxDBException.PointsBeyondRetentionPolicyException;
import org.influxdb.InfluxDBException.UnableToParseException;
import org.jspecify.annotations.Nullable;
import org.slf4j.Logger;
import org.slf4j.LoggerFactory;
import traytender.config.site.Site;
import traytender.config.site.StoreSettings.Influx;
import traytender.ingest.store.Outbox.Refused;

/**
 * Sends every reading on to InfluxDB, from the site's own store, at least once and in order of arrival; a reading sent twice
 * overwrites itself there. While the server is away readings wait on disk. One that the server refuses for good is set aside and
 * counted, or it would hold up the rest.
 *
 * <p>How they stand there, {@link InfluxLayout} draws.
 *
 * <p>The client library could buffer and retry by itself, but in memory: what it holds is lost with the program.
 *
 * <p><b>One thread of its own</b>, {@code influx-outbox}; {@link #state} may be asked from any.
 */
public final class InfluxOutbox implements AutoCloseable {
    private static final Logger LOG = LoggerFactory.getLogger(InfluxOutbox.class);

    /** Points in one request, as InfluxDB's documentation recommends (5,000 to 10,000). */
    private static final int PARCEL = 5_000;

    private static final Duration FIRST_PAUSE = Duration.ofSeconds(1);
    private static final Duration LONGEST_PAUSE = Duration.ofMinutes(1);
    private static final Duration CLOSING = Duration.ofSeconds(5);
    /**
     * No right, nothing there, too slow, too often (RFC 9110, section 15.5; RFC 6585; RFC 8470): mended by somebody, or by
     * waiting.
     */
    private static final Set<Integer> WAITING = Set.of(401, 402, 403, 404, 407, 408, 425, 429);

    private static final Pattern DROPPED = Pattern.compile("dropped=(\\d+)");

    private final Outbox outbox;
    private final InfluxServer server;
    private final Meaning meaning;
    private volatile InfluxLayout layout;
    private final Thread thread = new Thread(this::run, "influx-outbox");
    private final AtomicLong sent = new AtomicLong();
    private Duration pause = FIRST_PAUSE;
    private volatile boolean closing;
    private volatile @Nullable String trouble;
    private volatile @Nullable String lastRefusal;

    InfluxOutbox(Outbox outbox, InfluxServer server, Site site, Meaning meaning) {
        this.outbox = outbox;
        this.server = server;
        this.meaning = meaning;
        this.layout = new InfluxLayout(site, meaning);
        thread.setDaemon(true);
    }

    /** Sends values calibrated as this site says from now on. */
    public void takeOver(Site site) {
        layout = new InfluxLayout(site, meaning);
    }

    /**
     * An outbox of a store.
     *
     * @param folder the site folder, which password and token files are relative to
     * @throws StoreException when such a file cannot be read
     */
    static InfluxOutbox of(Outbox outbox, Influx settings, Path folder, Site site, Meaning meaning) {
        return new InfluxOutbox(outbox, InfluxServer.of(settings, folder), site, meaning);
    }

    /** Begins to send. */
    public void start() {
        thread.start();
    }

    /** How the sending stands. */
    public OutboxState state() {
        return new OutboxState(outbox.pending(), sent.get(), outbox.refused(), trouble, lastRefusal);
    }

    private void run() {
        try {
            for (var step = step(); !closing; step = step()) {
                rest(step);
            }
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
    }

    /** What one step came to. */
    enum Step {
        SENT,
        NOTHING_WAITS,
        TROUBLE
    }

    private void rest(Step step) throws InterruptedException {
        switch (step) {
            case SENT -> pause = FIRST_PAUSE;
            case NOTHING_WAITS -> {
                if (outbox.arrived().tryAcquire(LONGEST_PAUSE.toMillis(), TimeUnit.MILLISECONDS)) {
                    outbox.arrived().drainPermits();
                }
            }
            case TROUBLE -> {
                TimeUnit.MILLISECONDS.sleep(pause.toMillis());
                var twice = pause.multipliedBy(2);
                pause = twice.compareTo(LONGEST_PAUSE) > 0 ? LONGEST_PAUSE : twice;
            }
        }
    }

    /** Sends one parcel, if there is one. */
    Step step() {
        try {
            var parcel = outbox.next(PARCEL);
            if (parcel.isEmpty()) {
                return Step.NOTHING_WAITS;
            }
            send(parcel.get());
            if (trouble != null) {
                LOG.info("InfluxDB takes readings again");
            }
            trouble = null;
            return Step.SENT;
        } catch (InfluxDBException | StoreException e) {
            tell(e);
            return Step.TROUBLE;
        } catch (RuntimeException e) {
            // Whatever it is, the thread goes on: without it nothing would ever be sent again, without a word.
            LOG.error("Sending readings to InfluxDB failed", e);
            tell(e);
            return Step.TROUBLE;
        }
    }

    private void tell(RuntimeException e) {
        var said = String.valueOf(e.getMessage()).strip().replaceAll("\\s+", " ");
        if (!said.equals(trouble) && !closing) {
            LOG.warn("InfluxDB takes no readings, they wait on disk: {}", said);
        }
        trouble = said;
    }

    private void send(OutboxParcel parcel) {
        var refused = new ArrayList<Refused>();
        sendOrSplit(parcel.readings(), refused);
        outbox.done(parcel, refused);
        sent.addAndGet(parcel.readings().size() - refused.size());
        if (!refused.isEmpty()) {
            lastRefusal = refused.get(refused.size() - 1).reason();
            LOG.warn("InfluxDB refused {} readings for good, last: {}", refused.size(), lastRefusal);
        }
    }

    /** The server does not say which points of a request it refused; halves that still fail are halved again down to single points. */
    private void sendOrSplit(List<RawReading> readings, List<Refused> refused) {
        if (readings.isEmpty()) {
            return;
        }
        var refusal = refusal(readings);
        if (refusal.isEmpty()) {
            return;
        }
        if (readings.size() == 1 || refusesAll(refusal.get(), readings.size())) {
            readings.forEach(reading -> refused.add(new Refused(reading, refusal.get())));
            return;
        }
        var half = readings.size() / 2;
        sendOrSplit(readings.subList(0, half), refused);
        sendOrSplit(readings.subList(half, readings.size()), refused);
    }

    private static boolean refusesAll(String refusal, int count) {
        var dropped = DROPPED.matcher(refusal);
        return dropped.find() && dropped.group(1).equals(Integer.toString(count));
    }

    /** Why the server will never take these readings as they are, or empty when it took them; any other trouble is thrown. */
    private Optional<String> refusal(List<RawReading> readings) {
        try {
            server.write(readings.stream().map(layout::point).toList());
            return Optional.empty();
        } catch (FieldTypeConflictException | PointsBeyondRetentionPolicyException | UnableToParseException e) {
            return Optional.of(String.valueOf(e.getMessage()));
        } catch (InfluxDBException e) {
            var said = String.valueOf(e.getMessage());
            if (said.contains("partial write") || isForGood(server.lastStatus())) {
                return Optional.of(said);
            }
            throw e;
        }
    }

    /**
     * Whether a status says that these readings will not be taken as they are, however often they are sent: it is about the request
     * and neither about who asks nor about when or where. Too large a request is split as any other.
     */
    private static boolean isForGood(int status) {
        return status >= 400 && status < 500 && !WAITING.contains(status);
    }

    /** Stops sending; what is on its way is waited for a few seconds, what waits stays for the next start. */
    @Override
    public void close() {
        closing = true;
        thread.interrupt();
        try {
            thread.join(CLOSING.toMillis());
        } catch (InterruptedException e) {
            Thread.currentThread().interrupt();
        }
        server.close();
    }
}
