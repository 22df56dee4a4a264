package lungwort.practice;

/**
 * Heart sounds of the invented person.
 *
 * @param perMinute beats a minute, in [30, 220]; 0 for none
 * @param levelDb peak of the first heart sound in dB full scale, before the device's gain
 */
public record HeartPattern(double perMinute, double levelDb) {
    /** No heart sound. */
    public static final HeartPattern NONE = new HeartPattern(0, -90);

    public HeartPattern {
        if (perMinute != 0 && !(perMinute >= 30 && perMinute <= 220)) {
            throw new IllegalArgumentException("heart rate %s per minute, not 0 or 30 to 220".formatted(perMinute));
        }
    }
}
