package lungwort.practice;

/**
 * How the invented person breathes: each cycle is an inspiration, an expiration and a pause.
 *
 * @param perMinute breaths a minute, in [4, 90]; 0 for no breath at all
 * @param inspirationShare share of the cycle that is inspiration, in (0, 1)
 * @param pauseShare share of the cycle that is the pause after expiration, in [0, 1)
 * @param variation relative standard deviation of the cycle length from breath to breath, in [0, 0.3]
 * @param firstSeconds start of the first inspiration, in seconds
 * @param levelDb level (RMS, dB full scale) of the breath sound at the peak flow of inspiration, before the device's gain
 * @param expirationDb level of expiration against inspiration, in dB; usually negative over the chest
 * @param heldFromSeconds the first breath that would start then or later is put off
 * @param heldSeconds for so long; 0 where the person breathes on
 */
public record BreathPattern(
        double perMinute,
        double inspirationShare,
        double pauseShare,
        double variation,
        double firstSeconds,
        double levelDb,
        double expirationDb,
        double heldFromSeconds,
        double heldSeconds) {
    /** A resting adult: 15 breaths a minute, inspiration 40 %, pause 15 %, expiration 8 dB softer. */
    public static final BreathPattern RESTING = new BreathPattern(15, 0.40, 0.15, 0.05, 0.4, -26, -8);

    /** No breath sound and no breath. */
    public static final BreathPattern NONE = new BreathPattern(0, 0.4, 0.15, 0, 0, -26, -8);

    /** Breathing that goes on. */
    public BreathPattern(
            double perMinute,
            double inspirationShare,
            double pauseShare,
            double variation,
            double firstSeconds,
            double levelDb,
            double expirationDb) {
        this(perMinute, inspirationShare, pauseShare, variation, firstSeconds, levelDb, expirationDb, 0, 0);
    }

    public BreathPattern {
        boolean rate = perMinute == 0 || perMinute >= 4 && perMinute <= 90;
        boolean shares = inspirationShare > 0 && pauseShare >= 0 && inspirationShare + pauseShare < 1;
        if (!rate || !shares || !(variation >= 0 && variation <= 0.3) || !(firstSeconds >= 0) || !(heldSeconds >= 0)) {
            throw new IllegalArgumentException(
                    "breath pattern out of range: %s per minute, inspiration %s, pause %s, variation %s, first at %s s"
                            .formatted(perMinute, inspirationShare, pauseShare, variation, firstSeconds));
        }
    }

    /** The same at another rate, in breaths a minute. */
    public BreathPattern at(double newPerMinute) {
        return new BreathPattern(
                newPerMinute,
                inspirationShare,
                pauseShare,
                variation,
                firstSeconds,
                levelDb,
                expirationDb,
                heldFromSeconds,
                heldSeconds);
    }

    /** The same at another level, in dB full scale. */
    public BreathPattern level(double newLevelDb) {
        return new BreathPattern(
                perMinute,
                inspirationShare,
                pauseShare,
                variation,
                firstSeconds,
                newLevelDb,
                expirationDb,
                heldFromSeconds,
                heldSeconds);
    }

    /** The same without variation from breath to breath. */
    public BreathPattern steady() {
        return new BreathPattern(
                perMinute,
                inspirationShare,
                pauseShare,
                0,
                firstSeconds,
                levelDb,
                expirationDb,
                heldFromSeconds,
                heldSeconds);
    }

    /** The same with a pause: the first breath that would start at a time or later starts so many seconds later. */
    public BreathPattern held(double fromSeconds, double seconds) {
        return new BreathPattern(
                perMinute,
                inspirationShare,
                pauseShare,
                variation,
                firstSeconds,
                levelDb,
                expirationDb,
                fromSeconds,
                seconds);
    }
}
