package lungwort.decode;

/** A sound, undamaged file of a variant that the library at hand cannot decode; another program may. */
final class Unsupported extends RuntimeException {
    private static final long serialVersionUID = 1L;

    private final String what;

    /** @param what names the variant, to follow "its" in a sentence */
    Unsupported(String what) {
        super(what);
        this.what = what;
    }

    String what() {
        return what;
    }
}
