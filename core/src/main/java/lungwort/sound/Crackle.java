package lungwort.sound;

/**
 * A crackle: a short explosive transient.
 *
 * @param kind {@link SoundKind#FINE_CRACKLE} or {@link SoundKind#COARSE_CRACKLE}
 * @param startSeconds start of its initial deflection, in seconds
 * @param endSeconds end of its second cycle, in seconds
 * @param initialDeflectionWidthMs IDW, in ms: from the start to the first return to the baseline
 * @param twoCycleDurationMs 2CD, in ms: from the start to the end of two full cycles
 * @param largestDeflectionWidthMs width of the largest deflection between its zero crossings, in ms
 * @param prominenceDb peak over the local noise, in dB
 */
public record Crackle(
        SoundKind kind,
        double startSeconds,
        double endSeconds,
        double initialDeflectionWidthMs,
        double twoCycleDurationMs,
        double largestDeflectionWidthMs,
        double prominenceDb)
        implements MeasuredSound {
    public Crackle {
        if (kind.continuous() || !(endSeconds > startSeconds)) {
            throw new IllegalArgumentException("%s from %s to %s s".formatted(kind, startSeconds, endSeconds));
        }
    }
}
