package lungwort;

/** The version of Lungwort that runs; kept with every stored examination, so that one made by an older version can be told. */
public final class LungwortVersion {
    /** For example {@code 0.1.0}. */
    public static final String CURRENT = "0.1.0";

    private LungwortVersion() {}
}
