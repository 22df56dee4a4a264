package lungwort.breath;

/** Part of a breath. {@link #UNKNOWN} is an answer, not a fault: better said than guessed. */
public enum BreathPhase {
    INSPIRATION,
    EXPIRATION,
    PAUSE,
    UNKNOWN
}
