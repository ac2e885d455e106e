package traytender.bench;

import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.Collection;
import java.util.List;
import java.util.Objects;
import java.util.SplittableRandom;
import java.util.function.Consumer;
import org.drools.model.Model;
import org.drools.modelcompiler.KieBaseBuilder;
import org.kie.api.runtime.KieSession;
import traytender.bench.Benchmarks.Place;
import traytender.bench.Benchmarks.Work;
import traytender.config.alert.AlertKind;
import traytender.config.alert.Urgency;
import traytender.config.site.Zone;
import traytender.rules.judge.Findings;
import traytender.rules.judge.Judge;
import traytender.rules.judge.MoistureFacts;

/** The rules alone: one moisture fact after the other shown to the judge, to a bare session of the same rules, and to plain Java. */
final class Judging implements Work {
    private static final int FACTS = 1_000;
    private static final long SLICE_NANOS = 400_000_000;
    private static final int SLICES = 7;

    @Override
    public List<Result> measure(Place place) throws Exception {
        List<MoistureFacts> facts = facts();
        Findings found = new Findings();
        KieSession session = bareSession(found);
        try (var judge = new Judge()) {
            Consumer<MoistureFacts> ours = fact -> {
                judge.begin();
                judge.ask(fact);
            };
            Consumer<MoistureFacts> bare = fact -> {
                found.clear();
                var handle = session.insert(fact);
                session.fireAllRules();
                session.delete(handle);
            };
            Consumer<MoistureFacts> plain = fact -> {
                found.clear();
                inPlainJava(fact, found);
            };
            checkThatTheyAgree(facts, judge, found, plain);
            double[] best = new double[3];
            for (int slice = 0; slice < SLICES; slice++) {
                best[0] = Math.max(best[0], perSecond(facts, ours));
                best[1] = Math.max(best[1], perSecond(facts, bare));
                best[2] = Math.max(best[2], perSecond(facts, plain));
            }
            return List.of(
                    Result.atLeast(
                            "rules alone, beside a bare Drools session", best[0], best[1], 0.9, "snapshots/s", ""),
                    Result.told(
                            "rules alone, beside the same rules in plain Java",
                            best[0],
                            best[2],
                            "snapshots/s",
                            "the water rules, which are all that look at such a fact, written by hand"));
        } finally {
            session.dispose();
        }
    }

    private static List<MoistureFacts> facts() {
        var random = new SplittableRandom(20260314);
        var facts = new ArrayList<MoistureFacts>();
        for (int i = 0; i < FACTS; i++) {
            var fact = new MoistureFacts();
            fact.tray = "T01";
            fact.zone = Zone.CENTRE;
            fact.trusted = true;
            fact.moisture = 0.4 + 0.6 * random.nextDouble();
            fact.dryLine = 0.45;
            fact.dryBelow = 0.45;
            fact.wetHours = 48;
            fact.hoursWet = fact.moisture > 0.95 ? 60 * random.nextDouble() : 0;
            fact.hoursToDry = 48 * random.nextDouble();
            fact.horizonHours = 6;
            fact.soonWithinHours = 6;
            fact.forecastDoubtHours = 2 * random.nextDouble();
            fact.doubtBorneHours = 0.4;
            facts.add(fact);
        }
        return facts;
    }

    private static void checkThatTheyAgree(
            List<MoistureFacts> facts, Judge judge, Findings found, Consumer<MoistureFacts> plain) {
        for (MoistureFacts fact : facts) {
            judge.begin();
            judge.ask(fact);
            plain.accept(fact);
            if (!judge.findings().list().equals(found.list())) {
                throw new IllegalStateException("the rules by hand are not the rules");
            }
        }
    }

    private static double perSecond(List<MoistureFacts> facts, Consumer<MoistureFacts> ask) {
        long start = System.nanoTime();
        long asked = 0;
        while (System.nanoTime() - start < SLICE_NANOS) {
            facts.forEach(ask);
            asked += FACTS;
        }
        return asked * 1e9 / (System.nanoTime() - start);
    }

    /** The same rule base, loaded as the program does, without its judge. */
    private static KieSession bareSession(Findings found) throws IOException, ReflectiveOperationException {
        Collection<Model> models = new ArrayList<>();
        ClassLoader loader = Judge.class.getClassLoader();
        var names = Objects.requireNonNull(loader.getResourceAsStream("META-INF/kie/traytender/rules/drools-model"));
        try (var lines = new BufferedReader(new InputStreamReader(names, StandardCharsets.UTF_8))) {
            for (String name :
                    lines.lines().filter(line -> line.startsWith("traytender.")).toList()) {
                models.add((Model) Class.forName(name).getDeclaredConstructor().newInstance());
            }
        }
        KieSession session = KieBaseBuilder.createKieBaseFromModel(models).newKieSession();
        session.setGlobal("findings", found);
        return session;
    }

    /** {@code water.drl} by hand. */
    private static void inPlainJava(MoistureFacts place, Findings found) {
        if (!place.trusted) {
            return;
        }
        if (place.moisture < place.dryBelow) {
            found.moisture(place, AlertKind.DRY, Urgency.NOW, place.moisture, place.dryLine);
        }
        if (place.moisture >= place.dryBelow
                && place.hoursToDry <= place.soonWithinHours
                && place.forecastDoubtHours <= place.doubtBorneHours) {
            found.hours(place, AlertKind.DRYING_SOON, Urgency.TODAY, place.hoursToDry, place.horizonHours);
        }
        if (place.driesFastest && place.lost >= 0.10 && place.lossRatio >= place.unevenAbove) {
            found.moisture(place, AlertKind.UNEVEN_DRYING, Urgency.TODAY, place.lossRatio, place.unevenRatio);
        }
        if (place.wateringMeantIt
                && place.minutesSinceWatering >= place.wateringShowsMinutes
                && place.lackedBefore >= 0.20
                && place.othersRise >= 0.12
                && place.rise < 0.05
                && place.rise < 0.3 * place.othersRise) {
            found.atOnce(place, AlertKind.MISSED_WATERING, Urgency.TODAY, place.rise, 0.05);
        }
        if (!place.wetIsRight && place.hoursWet >= place.wetHours && place.hoursWet > 0) {
            found.atOnce(place, AlertKind.STAYING_WET, Urgency.TODAY, place.moisture, place.wetLine);
        }
    }
}
