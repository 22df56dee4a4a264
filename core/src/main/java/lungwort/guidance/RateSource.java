package lungwort.guidance;

/** Where a breathing rate comes from. A rate heard in a recording covers seconds, and the person knew of it: a count over a full minute is better. */
public enum RateSource {
    COUNTED("counted"),
    HEARD("heard");

    private final String id;

    RateSource(String id) {
        this.id = id;
    }

    /** Name in files. */
    public String id() {
        return id;
    }
}
