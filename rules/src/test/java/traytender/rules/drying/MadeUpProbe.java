package traytender.rules.drying;

import java.util.Random;

/**
 * A made-up moisture probe whose truth is known: it dries at one rate in the light and another in the dark, its readings have
 * noise, steps and a swing with the temperature. Made by seed.
 */
final class MadeUpProbe {
    static final long STEP_MS = 300_000;
    /** Midnight UTC. */
    static final long START_MS = 1_772_409_600_000L;

    private final Random random;
    private final double lightRate;
    private final double darkRate;
    private final double perKelvin;
    private final double noise;
    private final LightPlan light;

    /** By how much the leaves' part of the rate grows in a day, relatively. */
    double growthPerDay;

    /** Moisture below which it dries more slowly. */
    double knee = 0.5;

    /** How unlike the leaves' part is from day to day, as a standard deviation of its logarithm. */
    double weather;

    double truth;
    long timeMs;
    private double today = 1;

    MadeUpProbe(long seed, double level, double lightRate, double darkRate, double perKelvin, double noise) {
        this.random = new Random(seed);
        this.truth = level;
        this.lightRate = lightRate;
        this.darkRate = darkRate;
        this.perKelvin = perKelvin;
        this.noise = noise;
        this.light = new DailyLight(DailyLight.USUAL, java.time.ZoneOffset.UTC);
        this.timeMs = START_MS;
    }

    LightPlan light() {
        return light;
    }

    /** Goes on by a step. */
    void dry() {
        double hours = STEP_MS / 3_600_000.0;
        double grown = 1 + growthPerDay * (timeMs - START_MS) / 86_400_000.0;
        if (timeMs % 86_400_000 == 0) {
            today = Math.exp(weather * random.nextGaussian());
        }
        double rate = darkRate + (light.isLit(timeMs) ? (lightRate - darkRate) * grown * today : 0);
        truth -= rate * hours * Math.min(1, truth / knee);
        timeMs += STEP_MS;
    }

    /** The medium's temperature: warmest at four in the afternoon. */
    double temperature() {
        double hours = (timeMs - START_MS) / 3_600_000.0;
        return 18 + 4 * Math.cos((hours - 16) / 24 * 2 * Math.PI);
    }

    /** What is wrong with the probe. */
    double gain = 1;

    double offset;

    /** A reading in steps of a count of 1400. */
    double read() {
        double value = gain * truth
                + offset
                + perKelvin * (temperature() - DryingFit.REFERENCE_C)
                + noise * random.nextGaussian();
        return Math.round(value * 1400) / 1400.0;
    }
}
