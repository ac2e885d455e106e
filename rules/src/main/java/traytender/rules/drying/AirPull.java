package traytender.rules.drying;

/**
 * How hard the air draws water at a time, past or to come, as a multiple of the usual pull: the vapour pressure deficit over
 * {@value #USUAL_KPA} kPa.
 */
public interface AirPull {
    /** The deficit of mild room air, 20 C at 60 percent: what a multiple of 1 stands for. */
    double USUAL_KPA = 0.9;

    /** What leaves feel: the deficit of the air itself. Above 0; 1 when nothing is known. */
    double leaf(long timeMs);

    /** What the medium feels, by its own warmth: above the air's over a mat. Above 0; 1 when nothing is known. */
    double medium(long timeMs);

    /** The usual pull at all times. */
    AirPull USUAL = new AirPull() {
        @Override
        public double leaf(long timeMs) {
            return 1;
        }

        @Override
        public double medium(long timeMs) {
            return 1;
        }
    };
}
