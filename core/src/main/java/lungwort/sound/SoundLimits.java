package lungwort.sound;

import java.util.Optional;

/**
 * By which numbers an extra sound gets its name. The sources differ; each is a constant here, {@link #CORSA} is the default.
 *
 * <p>Where a source's wheeze and rhonchus overlap, the fundamental decides at {@code splitHz}.
 *
 * @param source where the numbers are from
 * @param wheezeFromHz lowest fundamental of a wheeze
 * @param wheezeToHz highest
 * @param wheezeSeconds a wheeze lasts longer than this
 * @param rhonchusToHz a rhonchus has its fundamental below this
 * @param rhonchusSeconds a rhonchus lasts at least this
 * @param splitHz in the overlap: below it a rhonchus, from it on a wheeze
 * @param fineBelow2cdMs a fine crackle's two cycles take less than this, in ms
 * @param crackleBelow2cdMs any crackle's two cycles take less than this, in ms
 */
public record SoundLimits(
        String source,
        double wheezeFromHz,
        double wheezeToHz,
        double wheezeSeconds,
        double rhonchusToHz,
        double rhonchusSeconds,
        double splitHz,
        double fineBelow2cdMs,
        double crackleBelow2cdMs) {
    /** ATS 1977 calls a continuous sound below 200 Hz a rhonchus; used to split the overlap of the definitions that leave it open. */
    public static final double ATS_RHONCHUS_BELOW_HZ = 200;

    /** CORSA: Sovijarvi et al., Eur Respir Rev 2000. Wheeze above 100 Hz, over 100 ms; rhonchus below 300 Hz, 100 ms; fine crackle 2CD below 10 ms; any crackle below 20 ms. */
    public static final SoundLimits CORSA =
            new SoundLimits("CORSA 2000", 100, 5000, 0.100, 300, 0.100, ATS_RHONCHUS_BELOW_HZ, 10, 20);

    /** ATS 1977: wheeze from 400 Hz, over 250 ms; rhonchus below 200 Hz, over 250 ms. Between 200 and 400 Hz it names nothing. Its crackles: 2CD 5 and 10 ms [M], so 7.5 ms lies between. */
    public static final SoundLimits ATS = new SoundLimits("ATS 1977", 400, 5000, 0.250, 200, 0.250, 200, 7.5, 20);

    /** Bohadana et al., NEJM 2014: wheeze 100 to 5000 Hz, over 80 ms; rhonchus about 150 Hz, over 80 ms. Its crackles: about 5 and 15 ms, so 10 ms lies between. */
    public static final SoundLimits NEJM =
            new SoundLimits("Bohadana et al., NEJM 2014", 100, 5000, 0.080, 200, 0.080, ATS_RHONCHUS_BELOW_HZ, 10, 20);

    public SoundLimits {
        if (!(wheezeFromHz < wheezeToHz) || !(fineBelow2cdMs < crackleBelow2cdMs)) {
            throw new IllegalArgumentException("limits out of order: " + source);
        }
    }

    /** What a continuous sound of that fundamental and length is called; empty if these limits have no name for it. */
    public Optional<SoundKind> continuousKind(double fundamentalHz, double seconds) {
        boolean wheeze = fundamentalHz >= wheezeFromHz && fundamentalHz <= wheezeToHz && seconds > wheezeSeconds;
        boolean rhonchus = fundamentalHz < rhonchusToHz && seconds >= rhonchusSeconds;
        if (wheeze && rhonchus) {
            return Optional.of(fundamentalHz < splitHz ? SoundKind.RHONCHUS : SoundKind.WHEEZE);
        }
        return wheeze ? Optional.of(SoundKind.WHEEZE) : rhonchus ? Optional.of(SoundKind.RHONCHUS) : Optional.empty();
    }

    /**
     * What a crackle of that largest deflection is called: the limit on 2CD is turned into one on the largest deflection by the proportions of the mathematical crackle
     * ({@link CrackleShape}), since the largest deflection misclassifies half as many as the initial one (9.96 % against 19.53 %, Chest 1990;98:1240).
     */
    public SoundKind crackleKind(double largestDeflectionWidthMs) {
        return largestDeflectionWidthMs < largestMs(fineBelow2cdMs) ? SoundKind.FINE_CRACKLE : SoundKind.COARSE_CRACKLE;
    }

    /** Largest deflection width of the longest crackle there is, in ms. */
    double longestLargestMs() {
        return largestMs(crackleBelow2cdMs);
    }

    private static double largestMs(double twoCycleMs) {
        return CrackleShape.USUAL_LARGEST_SHARE * twoCycleMs;
    }
}
