package traytender.ingest.store;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.concurrent.TimeUnit;
import java.util.concurrent.atomic.AtomicInteger;
import java.util.function.Supplier;
import java.util.stream.Stream;
import okhttp3.OkHttpClient;
import org.influxdb.InfluxDB;
import org.influxdb.InfluxDB.ConsistencyLevel;
import org.influxdb.InfluxDBException;
import org.influxdb.InfluxDBException.DatabaseNotFoundException;
import org.influxdb.InfluxDBFactory;
import org.influxdb.dto.BatchPoints;
import org.influxdb.dto.BoundParameterQuery.QueryBuilder;
import org.influxdb.dto.Point;
import org.influxdb.dto.Query;
import org.influxdb.dto.QueryResult;
import org.influxdb.dto.QueryResult.Series;
import org.jspecify.annotations.Nullable;
import traytender.config.site.StoreSettings.Influx;
import traytender.ingest.store.StoreException.Trouble;

/** One InfluxDB server and database, spoken to by its 1.x API, which later servers answer, too. <b>Safe from any thread.</b> */
final class InfluxServer implements AutoCloseable {
    /** A server on a small board that compacts may take long to answer; our choice. */
    private static final long TIMEOUT_SECONDS = 30;

    private static final String NO_DATABASE = "database not found";

    private final Supplier<InfluxDB> connect;
    private final String database;
    private final AtomicInteger status;
    private @Nullable InfluxDB connected;

    private InfluxServer(Supplier<InfluxDB> connect, String database, AtomicInteger status) {
        this.status = status;
        this.connect = connect;
        this.database = database;
    }

    /**
     * Says where the server is; nothing is sent yet.
     *
     * @param folder the site folder, which password and token files are relative to
     * @throws StoreException when such a file cannot be read
     */
    static InfluxServer of(Influx settings, Path folder) {
        var client = new OkHttpClient.Builder()
                .connectTimeout(TIMEOUT_SECONDS, TimeUnit.SECONDS)
                .readTimeout(TIMEOUT_SECONDS, TimeUnit.SECONDS)
                .writeTimeout(TIMEOUT_SECONDS, TimeUnit.SECONDS);
        var status = new AtomicInteger();
        // The library's exceptions do not tell it.
        client.addInterceptor(chain -> {
            status.set(0);
            var response = chain.proceed(chain.request());
            status.set(response.code());
            return response;
        });
        var token = secret(settings.tokenFile(), folder);
        if (token != null) {
            client.addInterceptor(chain -> chain.proceed(chain.request()
                    .newBuilder()
                    .header("Authorization", "Token " + token)
                    .build()));
        }
        return new InfluxServer(
                connection(settings, secret(settings.passwordFile(), folder), client), settings.database(), status);
    }

    /** The library looks the host's name up when it is made, which fails while the network is away: so it is made when needed. */
    private static Supplier<InfluxDB> connection(
            Influx settings, @Nullable String password, OkHttpClient.Builder client) {
        var user = settings.user();
        return user == null
                ? () -> InfluxDBFactory.connect(settings.url(), client).enableGzip()
                : () -> InfluxDBFactory.connect(settings.url(), user, password == null ? "" : password, client)
                        .enableGzip();
    }

    private static @Nullable String secret(@Nullable String file, Path folder) {
        if (file == null) {
            return null;
        }
        var path = folder.resolve(file);
        try {
            return Files.readString(path).strip();
        } catch (IOException e) {
            throw Troubles.of(e, path.toString());
        }
    }

    /**
     * Writes the points; they are in the database when this returns. A database that is missing is made.
     *
     * @throws InfluxDBException as the server answers, or when it does not
     */
    void write(Iterable<Point> points) {
        var batch = BatchPoints.database(database)
                .consistency(ConsistencyLevel.ALL)
                .precision(TimeUnit.MILLISECONDS)
                .build();
        points.forEach(batch::point);
        var influx = connected();
        try {
            influx.write(batch);
        } catch (DatabaseNotFoundException e) {
            makeDatabase(influx);
            influx.write(batch);
        }
    }

    /** The HTTP status of the last answer; 0 when there was none. */
    int lastStatus() {
        return status.get();
    }

    /**
     * Writes as {@link #write} does.
     *
     * @throws StoreException in place of the library's exceptions
     */
    void writeWhole(Iterable<Point> points) {
        try {
            write(points);
        } catch (InfluxDBException e) {
            throw failed(String.valueOf(e.getMessage()), e);
        }
    }

    /**
     * The series that a query gives, times in ms since 1970; none while there is no such database.
     *
     * @param bound values of the query's {@code $names}
     * @throws StoreException when the server does not answer, or answers with an error
     */
    List<Series> query(String select, Map<String, String> bound) {
        var query = QueryBuilder.newQuery(select).forDatabase(database);
        bound.forEach(query::bind);
        var series = new ArrayList<Series>();
        for (var result : ask(query.create())) {
            if (result.getSeries() != null) {
                series.addAll(result.getSeries());
            }
        }
        return series;
    }

    /** Sends a command that changes something. */
    void change(String command) {
        ask(new Query(command, database));
    }

    private List<QueryResult.Result> ask(Query query) {
        try {
            var answer = connected().query(query, TimeUnit.MILLISECONDS);
            var results = answer.getResults() == null ? List.<QueryResult.Result>of() : answer.getResults();
            var error = Stream.concat(
                            Stream.of(Optional.ofNullable(answer.getError())),
                            results.stream().map(result -> Optional.ofNullable(result.getError())))
                    .flatMap(Optional::stream)
                    .findFirst();
            if (error.isPresent() && !error.get().startsWith(NO_DATABASE)) {
                throw failed(error.get(), null);
            }
            return results;
        } catch (InfluxDBException e) {
            throw failed(String.valueOf(e.getMessage()), e);
        }
    }

    private StoreException failed(String said, @Nullable Throwable cause) {
        return new StoreException(
                Trouble.OTHER, "InfluxDB's database " + database + " does not answer as it should: " + said, cause);
    }

    private synchronized InfluxDB connected() {
        var now = connected;
        if (now == null) {
            now = connect.get();
            connected = now;
        }
        return now;
    }

    private void makeDatabase(InfluxDB influx) {
        var quoted = "\"" + database.replace("\\", "\\\\").replace("\"", "\\\"") + "\"";
        var result = influx.query(new Query("CREATE DATABASE " + quoted));
        if (result.hasError()) {
            throw new InfluxDBException("the database " + quoted + " cannot be made: " + result.getError());
        }
    }

    @Override
    public synchronized void close() {
        if (connected != null) {
            connected.close();
        }
    }
}
