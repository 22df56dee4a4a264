package lungwort.page;

/** A request that is refused with an HTTP status and one sentence for the person who sees it. */
final class Refused extends RuntimeException {
    private static final long serialVersionUID = 1;

    private final int status;

    Refused(int status, String sentence) {
        super(sentence);
        this.status = status;
    }

    int status() {
        return status;
    }

    /** Of a round that is not there, so that a page can tell it from one that cannot be read now. */
    static Refused erasedRound() {
        return new Refused(404, "This round is not in the diary any more; it was erased.");
    }
}
