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
}
