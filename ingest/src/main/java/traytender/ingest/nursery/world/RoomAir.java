package traytender.ingest.nursery.world;

import java.time.Instant;
import traytender.config.site.LampHours;

/**
 * A room's air: temperature, vapour and light.
 *
 * <p>Temperature goes to a target with one time constant (first order; time constants our choice). Indoors with a working heater the target swings
 * daily between night and day; without it, it is the outside plus 2 K. A greenhouse takes the outside plus the sun's heat, is vented above its day
 * temperature and heated to its night one. Outdoors is the outside and a little sun under the frame's glass.
 *
 * <p><b>Not thread-safe.</b>
 */
public final class RoomAir {
    private static final double SUN_GREENHOUSE_K = 14;
    private static final double SUN_FRAME_K = 4;

    private final RoomTraits traits;
    private final Noise noise;
    private double temperature = Double.NaN;
    private double vapour;
    private double light;
    private boolean heaterWorks = true;
    private boolean lampsWork = true;
    private boolean doorOpen;
    private double extraHumidity;
    private double extraHeat;

    public RoomAir(RoomTraits traits, Noise noise) {
        this.traits = traits;
        this.noise = noise;
    }

    RoomAir copy() {
        var copy = new RoomAir(traits, noise);
        copy.temperature = temperature;
        copy.vapour = vapour;
        copy.light = light;
        copy.heaterWorks = heaterWorks;
        copy.lampsWork = lampsWork;
        copy.doorOpen = doorOpen;
        copy.extraHumidity = extraHumidity;
        copy.extraHeat = extraHeat;
        return copy;
    }

    void step(Instant time, Sky sky, double hours) {
        temperature = Lag.follow(temperature, target(time, sky) + extraHeat, hours, doorOpen ? 0.15 : tau());
        vapour = vapour(time, sky);
        light = light(time, sky);
    }

    public RoomTraits traits() {
        return traits;
    }

    /** Air in C. */
    public double temperature() {
        return temperature;
    }

    /** Vapour pressure in kPa. */
    public double vapour() {
        return vapour;
    }

    /** Relative humidity in percent. */
    public double humidity() {
        return Vapour.humidity(temperature, vapour);
    }

    /** Light on the leaves, 0 to 1. */
    public double light() {
        return light;
    }

    /** Breaks or mends the heater. */
    public void heater(boolean works) {
        heaterWorks = works;
    }

    /** Breaks or mends the lamps. */
    public void lamps(boolean work) {
        lampsWork = work;
    }

    /** Opens or shuts the door. */
    public void door(boolean open) {
        doorOpen = open;
    }

    /** Makes the air damper by a fraction of saturation; 0 as usual. */
    public void damper(double fraction) {
        extraHumidity = fraction;
    }

    /** Makes the air warmer than its heater would, such as under glass at noon; 0 as usual. */
    public void warmer(double kelvin) {
        extraHeat = kelvin;
    }

    private double tau() {
        return switch (traits.kind()) {
            case INDOORS -> heaterWorks ? 0.7 : 1.4;
            case GREENHOUSE -> 0.5;
            case OUTDOORS -> 0.2;
        };
    }

    private double target(Instant time, Sky sky) {
        double outside = sky.air(time);
        if (doorOpen) {
            return outside;
        }
        double wander = 0.4 * noise.smooth(time.getEpochSecond() / 3600.0);
        return switch (traits.kind()) {
            case INDOORS -> heaterWorks ? indoors(sky.hourOfDay(time)) + wander : outside + 2;
            case GREENHOUSE -> greenhouse(outside + SUN_GREENHOUSE_K * sky.sun(time)) + wander;
            case OUTDOORS -> outside + SUN_FRAME_K * sky.sun(time);
        };
    }

    private double indoors(double hour) {
        double middle = (traits.dayC() + traits.nightC()) / 2;
        return middle - (traits.dayC() - traits.nightC()) / 2 * Sky.daily(hour);
    }

    private double greenhouse(double free) {
        double vented = free > traits.dayC() ? traits.dayC() + 0.4 * (free - traits.dayC()) : free;
        return heaterWorks ? Math.max(vented, traits.nightC()) : vented;
    }

    private double vapour(Instant time, Sky sky) {
        double held = sky.vapour(time);
        switch (traits.kind()) {
            case INDOORS -> held = traits.humidity() * Vapour.saturated((traits.dayC() + traits.nightC()) / 2);
            case GREENHOUSE -> held *= 1.25;
            case OUTDOORS -> {}
        }
        double saturated = Vapour.saturated(temperature);
        return Math.min(0.99 * saturated, held + extraHumidity * saturated);
    }

    private double light(Instant time, Sky sky) {
        LampHours lamps = traits.lamps();
        if (lamps != null) {
            return lampsWork && lamps.contains(sky.local(time).toLocalTime()) ? 1 : 0;
        }
        return Math.min(1, 1.6 * sky.sun(time));
    }
}
