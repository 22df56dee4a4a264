package lungwort.guidance;

/**
 * Something that was not given. It is asked for, and never taken as normal.
 *
 * @param id name in files, for example {@code respiratory-rate}
 * @param text what to do, in plain words
 * @param needed true if nothing milder than {@link Outcome#NEXT_TAKE} is said before it is known: it needs no instrument, only looking or asking
 */
public record Missing(String id, String text, boolean needed) {}
