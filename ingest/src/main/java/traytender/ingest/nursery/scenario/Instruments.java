package traytender.ingest.nursery.scenario;

import java.util.SplittableRandom;
import traytender.config.site.Quantity;
import traytender.ingest.nursery.probe.ProbeTraits;
import traytender.ingest.nursery.probe.SimulatedNode;
import traytender.ingest.nursery.world.Noise;

/**
 * How good the probes and the radio of a scenario are. Each probe's own errors are drawn from these spreads (standard deviations). The spans are our
 * choice, from good to worse than cheap: capacitive probes are commonly said to be within 3 points after a two-point calibration, DS18B20
 * thermometers within 0.5 K. At a dry line of 45 percent that comes to 1.6 points off (root mean square). It is not harsh: Myllys and Simojoki
 * (Suo; abstract read) give a standard deviation of 0.027 m³/m³ for a calibration made for peat alone.
 *
 * @param gain spread of a moisture probe's gain about 1
 * @param offset spread of its offset, as moisture
 * @param noise least and most noise of a reading, as moisture
 * @param driftPerDay spread of its drift
 * @param perKelvin spread of its feeling for temperature
 * @param moistureStep what a moisture probe rounds to; 0 for whole counts
 * @param kelvin spread of a thermometer's offset
 * @param kelvinNoise noise of a thermometer
 * @param kelvinStep what it rounds to
 * @param spikes share of a moisture probe's readings that are lone spikes
 */
record Instruments(
        double gain,
        double offset,
        Span noise,
        double driftPerDay,
        double perKelvin,
        double moistureStep,
        double kelvin,
        double kelvinNoise,
        double kelvinStep,
        double spikes,
        SimulatedNode.Habits habits) {
    private static final double MOST_KELVIN = 0.4;

    /** Two bounds. */
    record Span(double low, double high) {}

    static Instruments draw(SplittableRandom chance) {
        double bad = chance.nextDouble();
        double noise = 0.004 + 0.006 * chance.nextDouble();
        double[] moistureSteps = {0, 0, 0, 0.003, 0.01};
        double[] kelvinSteps = {0.1, 0.1, 0.0625, 0.01, 0.25};
        return new Instruments(
                0.012 + 0.016 * bad,
                0.008 + 0.01 * bad,
                new Span(noise, 1.3 * noise),
                0.0005 + 0.002 * chance.nextDouble() * bad,
                0.0004 + 0.0012 * chance.nextDouble(),
                moistureSteps[chance.nextInt(moistureSteps.length)],
                0.1 + 0.06 * bad,
                0.05 + 0.05 * chance.nextDouble(),
                kelvinSteps[chance.nextInt(kelvinSteps.length)],
                chance.nextInt(4) == 0 ? 0.0005 + 0.003 * chance.nextDouble() : 0,
                new SimulatedNode.Habits(
                        0.03 + 0.1 * chance.nextDouble(),
                        0.003 + 0.02 * chance.nextDouble() * chance.nextDouble(),
                        0.004 * chance.nextDouble()));
    }

    /** The same, feeling temperature this much. */
    Instruments feeling(double kelvinSpread) {
        return new Instruments(
                gain,
                offset,
                noise,
                driftPerDay,
                kelvinSpread,
                moistureStep,
                kelvin,
                kelvinNoise,
                kelvinStep,
                spikes,
                habits);
    }

    /** The same, with this share of lone spikes. */
    Instruments spiking(double share) {
        return new Instruments(
                gain,
                offset,
                noise,
                driftPerDay,
                perKelvin,
                moistureStep,
                kelvin,
                kelvinNoise,
                kelvinStep,
                share,
                habits);
    }

    /** One probe of them. */
    ProbeTraits traits(Quantity measures, Noise own) {
        return switch (measures) {
            case MOISTURE ->
                new ProbeTraits(
                        1 + gain * own.normal(1),
                        offset * own.normal(2),
                        own.between(3, noise.low(), noise.high()),
                        driftPerDay * own.normal(4),
                        perKelvin * own.normal(5),
                        moistureStep);
            case TEMPERATURE, AIR_TEMPERATURE -> {
                double off = Math.max(-MOST_KELVIN, Math.min(MOST_KELVIN, kelvin * own.normal(6)));
                yield new ProbeTraits(1, off, kelvinNoise, 0, 0, kelvinStep);
            }
            case HUMIDITY -> new ProbeTraits(1, 1.5 * own.normal(7), 0.5, 0, 0, 0.1);
            default -> new ProbeTraits(1, 0, 0, 0, 0, 1);
        };
    }
}
